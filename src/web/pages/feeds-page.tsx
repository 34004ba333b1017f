// What feeds this load? Condition, when it runs, the way there and back, what closes the contacts, what else shares them.
// It must not mix what is so as set with what would be: shownFor is said first.

import type { JSX } from 'preact';
import { to } from '../addresses.js';
import { askFeeds } from '../api/client.js';
import type { Feeds } from '../api/types.js';
import { ConditionsList } from '../feeds/conditions-list.js';
import { ControlList } from '../feeds/control-list.js';
import { PathList } from '../feeds/path-list.js';
import { ShareList } from '../feeds/share-list.js';
import { BasisNote } from '../parts/basis-note.js';
import { Cautions } from '../parts/cautions.js';
import { ConditionLine } from '../parts/condition-line.js';
import { MoreQuestions } from '../parts/more-questions.js';
import { PageFrame } from '../parts/page-frame.js';
import { ProblemBox } from '../parts/problem-box.js';
import { Progress } from '../parts/progress.js';
import { Tag } from '../parts/tag.js';
import { harness, index } from '../state/harness.js';
import { stateKey, stateQuestion } from '../state/operating-state.js';
import { functionWords } from '../state/record-index.js';
import { useAnswer } from '../state/use-answer.js';
import { ampsText, voltsText } from '../words/figures.js';

export function FeedsPage({ target }: { target: string }): JSX.Element | null {
  const open = harness.value;
  const record = index.value;
  const answer = useAnswer(
    open === null ? null : `${open.harness}@${open.revision} ${target} ${stateKey.value}`,
    (signal) => askFeeds(open?.harness ?? '', { function: target, state: stateQuestion.value }, { signal }),
  );
  if (open === null || record === null) return null;
  const words = functionWords(record, target);
  return (
    <PageFrame
      width="wide"
      title={`What feeds ${words}`}
      heading={
        <>
          What feeds <em>{words}</em>? <Tag address={target} />
        </>
      }
    >
      <Progress isShown={answer.isSlow} />
      {answer.problem !== null && <ProblemBox problem={answer.problem} onAgain={answer.again} />}
      {answer.value !== null && <FeedsAnswer feeds={answer.value} harnessId={open.harness} />}
      {!answer.isWaiting && <MoreQuestions address={target} except="feeds" />}
    </PageFrame>
  );
}

function FeedsAnswer({ feeds, harnessId }: { feeds: Feeds; harnessId: string }): JSX.Element {
  const changes = feeds.shownFor?.changes ?? [];
  const figures = [
    ...(feeds.voltsAcross.nominal === null ? [] : [`${voltsText(feeds.voltsAcross.nominal)} across it`]),
    ...(feeds.amps === null ? [] : [ampsText(feeds.amps)]),
  ].join(', ');
  return (
    <div class="split">
      <ConditionLine condition={feeds.condition}>
        {' '}
        as set{changes.length === 0 && figures !== '' && `: ${figures}`}
      </ConditionLine>
      {changes.length > 0 && (
        <p class="box box-plain">
          Below is how it stands with {changes.map(({ part, is }) => `${part} ${is}`).join(', ')}
          {figures !== '' && `: ${figures}`}.
        </p>
      )}
      <Cautions cautions={feeds.cautions} />
      <a class="button button-main button-tall" href={to.at(harnessId, 'profile', feeds.function)}>
        Where do the volts go? Measure along it
      </a>
      <section>
        <h2>It runs when</h2>
        <ConditionsList conditions={feeds.conditions} />
      </section>
      <div class="aside">
        <section>
          <h2>The way there</h2>
          <PathGroup paths={feeds.supplies} label="Feed" />
        </section>
        <section>
          <h2>The way back</h2>
          <PathGroup paths={feeds.returns} label="Return" />
          {feeds.morePaths > 0 && <p class="soft">{feeds.morePaths} further paths are not spelled out.</p>}
        </section>
      </div>
      {feeds.controls.length > 0 && (
        <section>
          <h2>What closes the contacts</h2>
          <ControlList controls={feeds.controls} />
        </section>
      )}
      <section>
        <h2>Fuses, from the source on</h2>
        {feeds.fuses.length === 0 ? (
          <p class="box box-warn">No fuse stands between the source and this load.</p>
        ) : (
          <ol class="inline-list">
            {feeds.fuses.map(({ element, ratingAmps, amps }) => (
              <li key={element}>
                <Tag address={element.split(':')[0]} /> {ratingAmps} A, carries {ampsText(amps)}
              </li>
            ))}
          </ol>
        )}
      </section>
      <section>
        <h2>What shares it</h2>
        <ShareList shares={feeds.shares} own={feeds.function} />
      </section>
      <BasisNote basis={feeds.basis} />
    </div>
  );
}

function PathGroup({ paths, label }: { paths: Feeds['supplies']; label: string }): JSX.Element {
  if (paths.length === 0) return <p>None in this state.</p>;
  return (
    <>
      {paths.map((path, at) => (
        <PathList
          key={path.steps.map(({ element }) => element).join()}
          path={path}
          label={paths.length === 1 ? label : `${label} ${at + 1} of ${paths.length}`}
          isShareShown={paths.length > 1}
        />
      ))}
    </>
  );
}
