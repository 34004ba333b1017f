// What runs through this plug? Cavity by cavity: wires, and the loads whose feed, return or control passes there.
// It must not show cavities as a picture without saying from which side one looks.

import type { JSX } from 'preact';
import { to } from '../addresses.js';
import { askPlugCircuits } from '../api/client.js';
import type { PlugCircuits } from '../api/types.js';
import { Cautions } from '../parts/cautions.js';
import { MoreQuestions } from '../parts/more-questions.js';
import { PageFrame } from '../parts/page-frame.js';
import { ProblemBox } from '../parts/problem-box.js';
import { Progress } from '../parts/progress.js';
import { Tag } from '../parts/tag.js';
import { WireWords } from '../parts/wire-words.js';
import { harness, index } from '../state/harness.js';
import { functionWords, nameOf } from '../state/record-index.js';
import { useAnswer } from '../state/use-answer.js';

export function PlugPage({ target }: { target: string }): JSX.Element | null {
  const open = harness.value;
  const record = index.value;
  const answer = useAnswer(open === null ? null : `${open.harness}@${open.revision} ${target}`, (signal) =>
    askPlugCircuits(open?.harness ?? '', { plug: target }, { signal }),
  );
  if (open === null || record === null) return null;
  const part = record.parts.get(target);
  return (
    <PageFrame
      title={`What runs through ${target}`}
      heading={
        <>
          What runs through <em>{nameOf(record, target)}</em>? <Tag address={target} />
        </>
      }
    >
      <Progress isShown={answer.isSlow} />
      {answer.problem !== null && <ProblemBox problem={answer.problem} onAgain={answer.again} />}
      {part?.kind === 'connector' && (
        <p class="soft">
          {part.view === undefined
            ? 'From which side the cavities were counted is not stated in the record.'
            : `Cavities counted looking at the ${part.view === 'wire' ? 'wire' : 'mating'} side.`}
        </p>
      )}
      {answer.value !== null && (
        <>
          <Cautions cautions={answer.value.cautions} />
          <ul class="plain-list">
            {answer.value.cavities.map((cavity) => (
              <li key={cavity.cavity} class="cavity">
                <Cavity plug={target} cavity={cavity} harnessId={open.harness} />
              </li>
            ))}
          </ul>
        </>
      )}
      {!answer.isWaiting && <MoreQuestions address={target} except="plug" />}
    </PageFrame>
  );
}

interface CavityProps {
  readonly plug: string;
  readonly cavity: PlugCircuits['cavities'][number];
  readonly harnessId: string;
}

function Cavity({ plug, cavity, harnessId }: CavityProps): JSX.Element {
  const record = index.value;
  const uses = [
    ['feeds', cavity.feeds],
    ['returns from', cavity.returns],
    ['controls', cavity.controls],
  ] as const;
  return (
    <>
      <h2>
        <Tag address={`${plug}/${cavity.cavity}`} size="big" />
      </h2>
      {cavity.wires.map((label) => {
        const wire = record?.wires.get(label);
        return (
          <p key={label} class="line">
            <a href={to.at(harnessId, 'wire', label)}>{label}</a> {wire !== undefined && <WireWords wire={wire} />}
          </p>
        );
      })}
      {cavity.wires.length === 0 && <p class="soft">Empty</p>}
      {uses.map(
        ([words, functions]) =>
          functions.length > 0 && (
            <p key={words}>
              {words} {functions.map((fn) => (record === null ? fn : functionWords(record, fn))).join(', ')}
            </p>
          ),
      )}
    </>
  );
}
