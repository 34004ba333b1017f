// Pull a plug: what breaks? Live pins come first, because a hand is about to be there.
// It must not forget a plug that was pulled: what is pulled stands in the address, and going back puts it back.

import type { JSX } from 'preact';
import { to } from '../addresses.js';
import { askUnplug } from '../api/client.js';
import { BasisNote } from '../parts/basis-note.js';
import { Cautions } from '../parts/cautions.js';
import { Finder } from '../parts/finder.js';
import { MoreQuestions } from '../parts/more-questions.js';
import { PageFrame } from '../parts/page-frame.js';
import { ProblemBox } from '../parts/problem-box.js';
import { Progress } from '../parts/progress.js';
import { Tag } from '../parts/tag.js';
import { ChangeLists } from '../pull/change-lists.js';
import { LivePins } from '../pull/live-pins.js';
import { go } from '../route.js';
import { harness, index } from '../state/harness.js';
import { stateKey, stateQuestion } from '../state/operating-state.js';
import { nameOf } from '../state/record-index.js';
import { useAnswer } from '../state/use-answer.js';

export function PullPage({ targets }: { targets: readonly string[] }): JSX.Element | null {
  const open = harness.value;
  const record = index.value;
  const answer = useAnswer(
    open === null || targets.length === 0
      ? null
      : `${open.harness}@${open.revision} ${targets.join()} ${stateKey.value}`,
    (signal) => askUnplug(open?.harness ?? '', { plugs: targets, state: stateQuestion.value }, { signal }),
  );
  if (open === null || record === null) return null;
  const put = (next: readonly string[]): void => go(to.many(open.harness, 'pull', next));
  return (
    <PageFrame
      width="wide"
      title={targets.length === 0 ? 'Pull a plug' : `Pull ${targets.join(', ')}`}
      heading={
        targets.length === 0 ? (
          'Which plug do you want to pull?'
        ) : (
          <>
            What breaks if I pull <em>{targets.map((target) => nameOf(record, target)).join(' and ')}</em>?
          </>
        )
      }
    >
      <ul class="pulled" aria-label="Pulled">
        {targets.map((target) => (
          <li key={target}>
            <Tag address={target} />
            <button type="button" class="button" onClick={() => put(targets.filter((other) => other !== target))}>
              Put<span class="unseen"> {target}</span> back
            </button>
          </li>
        ))}
        {targets.length > 1 && (
          <li>
            <button type="button" class="button" onClick={() => history.back()}>
              Undo last
            </button>
          </li>
        )}
      </ul>
      <Progress isShown={answer.isSlow} />
      {answer.problem !== null && <ProblemBox problem={answer.problem} onAgain={answer.again} />}
      {answer.value !== null && targets.length > 0 && (
        <div class="split">
          <LivePins pins={answer.value.livePins} />
          <Cautions cautions={answer.value.cautions} />
          <div class="aside">
            <ChangeLists unplug={answer.value} />
          </div>
          <BasisNote basis={answer.value.basis} />
        </div>
      )}
      {(targets.length === 0 || !answer.isWaiting) && (
        <section class="no-print">
          <h2>{targets.length === 0 ? 'Choose' : 'Pull another one as well'}</h2>
          <Finder
            harness={open.harness}
            label="Plug, fuse, relay or module"
            hint="Its address or a word of its name"
            accepts={({ kind }) => kind === 'connector' || kind === 'part'}
            onPick={({ address }) => put([...targets.filter((other) => other !== address), address])}
          />
        </section>
      )}
      {targets.length === 1 && !answer.isWaiting && <MoreQuestions address={targets[0]} except="pull" />}
    </PageFrame>
  );
}
