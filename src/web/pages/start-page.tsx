// Which vehicle? The harnesses that are here with their open hunts, and the ways to bring in another.
// It must not open one by itself.

import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { to } from '../addresses.js';
import { listHarnesses, loadDemo } from '../api/client.js';
import type { Problem } from '../api/http.js';
import { PageFrame } from '../parts/page-frame.js';
import { ProblemBox } from '../parts/problem-box.js';
import { Progress } from '../parts/progress.js';
import { VehicleCard } from '../start/vehicle-card.js';
import { useAnswer } from '../state/use-answer.js';

export function StartPage(): JSX.Element {
  const { value, problem, isSlow, again } = useAnswer('harnesses', (signal) => listHarnesses({ signal }));
  const [isLoading, setLoading] = useState(false);
  const [refusal, setRefusal] = useState<Problem | null>(null);
  const hasDemo = value?.harnesses.some(({ invented }) => invented) ?? true;

  const bringDemo = async (): Promise<void> => {
    setLoading(true);
    const loaded = await loadDemo();
    setLoading(false);
    if (loaded.ok) again();
    else setRefusal(loaded.problem);
  };

  return (
    <PageFrame title="Harnesses" heading="Which vehicle?">
      <Progress isShown={isSlow || isLoading} words="Looking for harnesses" />
      {problem !== null && <ProblemBox problem={problem} onAgain={again} />}
      <ul class="plain-list vehicles">
        {value?.harnesses.map((head) => (
          <li key={head.id}>
            <VehicleCard head={head} />
          </li>
        ))}
      </ul>
      {value !== null && value.harnesses.length === 0 && (
        <p>No harness is stored here yet. Bring in your own sheets or a record, or try an invented vehicle first.</p>
      )}
      {refusal !== null && <ProblemBox problem={refusal} />}
      {!hasDemo && (
        <button type="button" class="button button-tall" disabled={isLoading} onClick={() => void bringDemo()}>
          Try the invented vehicles
        </button>
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
