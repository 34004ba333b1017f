// Which vehicle? The harnesses that are here, and the way to bring in another.
// It must not open one by itself.

import type { JSX } from 'preact';
import { to } from '../addresses.js';
import { listHarnesses } from '../api/client.js';
import type { HarnessHead } from '../api/types.js';
import { PageFrame } from '../parts/page-frame.js';
import { ProblemBox } from '../parts/problem-box.js';
import { Progress } from '../parts/progress.js';
import { useAnswer } from '../state/use-answer.js';
import { dayText } from '../words/days.js';

export function StartPage(): JSX.Element {
  const { value, problem, isSlow, again } = useAnswer('harnesses', (signal) => listHarnesses({ signal }));
  return (
    <PageFrame title="Harnesses" heading="Which vehicle?">
      <Progress isShown={isSlow} words="Looking for harnesses" />
      {problem !== null && <ProblemBox problem={problem} onAgain={again} />}
      <ul class="plain-list">
        {value?.harnesses.map((head) => (
          <li key={head.id}>
            <HarnessCard head={head} />
          </li>
        ))}
      </ul>
      {value !== null && value.harnesses.length === 0 && (
        <p>No harness is stored here yet. Bring in your own sheets, or a record.</p>
      )}
      <a class="button button-main button-tall" href={to.import}>
        Bring in a harness
      </a>
      <p class="soft small">
        Lastgood gives hints, not permission: the maker’s procedure, local codes and licensed practice come first.
        Restraint, high-voltage and mains circuits are outside it.
      </p>
    </PageFrame>
  );
}

function HarnessCard({ head }: { head: HarnessHead }): JSX.Element {
  return (
    <a class="vehicle" href={to.home(head.id)}>
      <span class="vehicle-name">{head.name}</span>
      {head.vehicle !== null && <span class="vehicle-what">{head.vehicle}</span>}
      <span class="vehicle-facts">
        {head.parts} parts, {head.wires} wires, revision {head.revision} of {dayText(head.updatedAt)}
        {head.invented && <strong class="stamp">invented, for trying out</strong>}
      </span>
    </a>
  );
}
