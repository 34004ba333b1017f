// Readings of one's own choice along the feed and return of what is hunted: for who stands there already, or has no signal.
// It must not say what a reading means; the hunt does, once it has it.

import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { askProfile } from '../api/client.js';
import type { Check, Hunt, Profile, ProfilePoint } from '../api/types.js';
import { Fold } from '../parts/fold.js';
import { Keypad } from '../parts/keypad.js';
import { Sheet } from '../parts/sheet.js';
import { Tag } from '../parts/tag.js';
import { Leads } from '../read/leads.js';
import { readStored, writeStored } from '../state/stored-signal.js';
import { useAnswer } from '../state/use-answer.js';
import { bandText, voltsText } from '../words/figures.js';

interface KeptProfile {
  readonly hunt: string;
  readonly points: readonly ProfilePoint[];
  readonly reference: string;
}

interface OwnReadingProps {
  readonly harness: string;
  readonly hunt: Hunt;
  readonly isOpenAtFirst: boolean;
  readonly onRead: (check: string, volts: number, words: string) => void;
}

export function OwnReading({ harness, hunt, isOpenAtFirst, onRead }: OwnReadingProps): JSX.Element | null {
  const [chosen, choose] = useState<ProfilePoint | null>(null);
  const { symptom } = hunt;
  const subject = symptom?.kind === 'function' ? symptom : null;
  // Asked for beforehand, so that it is there when the signal is not.
  const fresh = useAnswer(subject === null ? null : hunt.id, async (signal) => {
    const asked = await askProfile(
      harness,
      { function: subject?.function ?? '', state: subject?.state ?? '' },
      { signal },
    );
    if (asked.ok) writeStored('huntProfile', keptOf(hunt.id, asked.value));
    return asked;
  }).value;
  const stored = readStored<KeptProfile | null>('huntProfile', null);
  const kept = fresh !== null ? keptOf(hunt.id, fresh) : stored?.hunt === hunt.id ? stored : null;
  if (subject === null || kept === null || kept.points.length === 0) return null;
  const { reference } = kept;
  return (
    <Fold isOpenAtFirst={isOpenAtFirst} summary="I have measured somewhere else">
      {() => (
        <>
          <p class="soft">
            Volts along feed and return in the state of the complaint, load plugged in, black lead on{' '}
            <Tag address={reference} />.
          </p>
          {kept.points.map((point) => (
            <button key={point.point} type="button" class="symptom" onClick={() => choose(point)}>
              <span class="row-main">
                <Tag address={point.point} />
                <span class="row-more">{point.location}</span>
              </span>
              <strong class="stair-expected">{voltsText(point.volts.nominal)}</strong>
            </button>
          ))}
          {chosen !== null && (
            <Sheet title="What does the meter show?" onClose={() => choose(null)}>
              <Leads red={chosen.point} black={reference} isBlackBrief />
              <p class="expect">
                Healthy: <strong>{voltsText(chosen.volts.nominal)}</strong>
                {bandText(chosen.volts) !== null && <span class="expect-band"> from {bandText(chosen.volts)}</span>}
              </p>
              <Keypad
                unit="V"
                label="Volts"
                keepAs={`${hunt.id} ${chosen.point}`}
                onEnter={({ value }) => {
                  if (value === null) return;
                  const check: Check = { kind: 'volts', state: subject.state, red: chosen.point, black: reference };
                  choose(null);
                  onRead(JSON.stringify(check), value, `${voltsText(value)} at ${chosen.point}`);
                }}
              />
            </Sheet>
          )}
        </>
      )}
    </Fold>
  );
}

const keptOf = (hunt: string, { points, basis }: Profile): KeptProfile => ({
  hunt,
  points: points.filter(({ probeable }) => probeable),
  reference: basis.reference,
});
