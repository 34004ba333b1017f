// What must come off to free this assembly, or to isolate this circuit? By plug, by spanner or by cutting.
// It must not hide what stays live, nor a wire that ties the assembly with no plug in between.

import type { JSX } from 'preact';
import { askSeparation } from '../api/client.js';
import type { Separation } from '../api/types.js';
import { Cautions } from '../parts/cautions.js';
import { PageFrame } from '../parts/page-frame.js';
import { ProblemBox } from '../parts/problem-box.js';
import { Progress } from '../parts/progress.js';
import { Tag } from '../parts/tag.js';
import { harness, index } from '../state/harness.js';
import { stateKey, stateQuestion } from '../state/operating-state.js';
import { functionWords } from '../state/record-index.js';
import { useAnswer } from '../state/use-answer.js';
import { accessWords } from '../words/conditions.js';

const toolWords: Readonly<Record<Separation['detach'][number]['by'], string>> = {
  plug: 'unplug',
  spanner: 'undo with a spanner',
  cutting: 'cut: there is no plug',
};

export function FreePage({ target }: { target: string }): JSX.Element | null {
  const open = harness.value;
  const record = index.value;
  const assembly = record?.record.assemblies?.find(({ address }) => address === target);
  const answer = useAnswer(
    open === null ? null : `${open.harness}@${open.revision} ${target} ${stateKey.value}`,
    (signal) =>
      askSeparation(
        open?.harness ?? '',
        assembly === undefined
          ? { function: target, state: stateQuestion.value }
          : { assembly: target, state: stateQuestion.value },
        { signal },
      ),
  );
  if (open === null || record === null) return null;
  const words = assembly === undefined ? functionWords(record, target) : (assembly.name ?? target);
  return (
    <PageFrame
      title={`Free ${words}`}
      heading={
        <>
          What must come off to {assembly === undefined ? 'isolate' : 'take out'} <em>{words}</em>?{' '}
          <Tag address={target} />
        </>
      }
    >
      <Progress isShown={answer.isSlow} />
      {answer.problem !== null && <ProblemBox problem={answer.problem} onAgain={answer.again} />}
      {answer.value !== null && <SeparationAnswer separation={answer.value} />}
    </PageFrame>
  );
}

function SeparationAnswer({ separation }: { separation: Separation }): JSX.Element {
  return (
    <>
      <Cautions cautions={separation.cautions} />
      {separation.tiedWithoutPlug.length > 0 && (
        <div class="box box-warn">
          <p>
            <strong>No plug in between:</strong> these wires tie it to the rest.
          </p>
          <p class="tags">
            {separation.tiedWithoutPlug.map((wire) => (
              <Tag key={wire} address={wire} />
            ))}
          </p>
        </div>
      )}
      <ol class="plain-list">
        {separation.detach.map((it) => (
          <li key={it.at} class="line line-ends">
            <span>
              <Tag address={it.at} /> {toolWords[it.by]}
            </span>
            <span class="soft">
              {accessWords(it.access)}, {it.wires.length} {it.wires.length === 1 ? 'wire' : 'wires'}
            </span>
          </li>
        ))}
      </ol>
      {separation.livePins.length > 0 && (
        <div class="box box-bad">
          <p>
            <strong>Still live afterwards, as the vehicle is set:</strong>
          </p>
          <p class="tags">
            {separation.livePins.map((point) => (
              <Tag key={point} address={point} />
            ))}
          </p>
        </div>
      )}
      {!separation.exact && (
        <p class="soft">
          The fewest found;{' '}
          {separation.lowerBound === null ? 'there may be fewer' : `at least ${separation.lowerBound} are needed`}.
        </p>
      )}
    </>
  );
}
