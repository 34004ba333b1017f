// What should the meter read? Choose where red goes, where black goes, which meter; the expected figures stand big.
// It must not show a figure without saying whether the load is plugged in.

import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { to } from '../addresses.js';
import { askReadings } from '../api/client.js';
import type { MeterKind } from '../api/types.js';
import { BasisNote } from '../parts/basis-note.js';
import { Cautions } from '../parts/cautions.js';
import { Choices } from '../parts/choices.js';
import { Finder } from '../parts/finder.js';
import { MoreQuestions } from '../parts/more-questions.js';
import { PageFrame } from '../parts/page-frame.js';
import { ProblemBox } from '../parts/problem-box.js';
import { Progress } from '../parts/progress.js';
import { pairText, readPair } from '../read/pair-text.js';
import { ReadingCard } from '../read/reading-card.js';
import { go } from '../route.js';
import { harness } from '../state/harness.js';
import { stateKey, stateQuestion } from '../state/operating-state.js';
import { storedSignal } from '../state/stored-signal.js';
import { useAnswer } from '../state/use-answer.js';
import { partOfPoint } from '../words/addresses.js';

const meters: readonly { readonly id: MeterKind; readonly words: string }[] = [
  { id: 'voltmeter', words: 'Volts' },
  { id: 'low-impedance-voltmeter', words: 'Volts, low-Z' },
  { id: 'ohmmeter', words: 'Ohms' },
  { id: 'clamp', words: 'Clamp' },
  { id: 'test-lamp', words: 'Test lamp' },
];

const meter = storedSignal<MeterKind>('meter', 'voltmeter');

export function ReadPage({ targets }: { targets: readonly string[] }): JSX.Element | null {
  const [isChoosingBlack, setChoosingBlack] = useState<string | null>(null);
  const open = harness.value;
  const pairs = targets.map(readPair);
  const answer = useAnswer(
    open === null || pairs.length === 0
      ? null
      : `${open.harness}@${open.revision} ${targets.join(' ')} ${meter.value} ${stateKey.value}`,
    (signal) => askReadings(open?.harness ?? '', { pairs, state: stateQuestion.value, meter: meter.value }, { signal }),
  );
  if (open === null) return null;
  const put = (next: readonly string[]): void => go(to.many(open.harness, 'read', next), 'replace');
  const isPoint = ({ kind }: { kind: string }): boolean => kind === 'point';
  return (
    <PageFrame title="What should the meter read" heading="What should the meter read?">
      <Choices
        legend="Meter"
        options={meters}
        value={meter.value}
        onChoose={(id) => {
          meter.value = id;
        }}
      />
      <Progress isShown={answer.isSlow} />
      {answer.problem !== null && <ProblemBox problem={answer.problem} onAgain={answer.again} />}
      {answer.value !== null && <Cautions cautions={answer.value.cautions} />}
      {targets.length > 0 &&
        answer.value?.readings.map((reading, at) => (
          <ReadingCard
            key={targets[at]}
            reading={reading}
            onDrop={() => put(targets.filter((_, other) => other !== at))}
            onBlack={() => setChoosingBlack(targets[at])}
          />
        ))}
      {isChoosingBlack !== null && (
        <Finder
          harness={open.harness}
          label={`Black lead for ${readPair(isChoosingBlack).red}`}
          hint="A point of the harness; not the nearest bracket"
          accepts={isPoint}
          onPick={({ address }) => {
            put(
              targets.map((target) =>
                target === isChoosingBlack ? pairText({ red: readPair(target).red, black: address }) : target,
              ),
            );
            setChoosingBlack(null);
          }}
        />
      )}
      <section class="no-print">
        <Finder
          harness={open.harness}
          label={targets.length === 0 ? 'Red lead on' : 'Another point for red'}
          hint="A terminal, cavity, splice or stud: K2/87, x4 3, G1"
          accepts={isPoint}
          onPick={({ address }) => put([...targets.filter((other) => other !== address), address])}
        />
      </section>
      {answer.value !== null && <BasisNote basis={answer.value.basis} />}
      {pairs.length === 1 && <MoreQuestions address={partOfPoint(pairs[0].red)} except="map" />}
    </PageFrame>
  );
}
