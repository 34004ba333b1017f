// All about one row of the profile: the point to probe, the step into it, what it may lose; and the keypad for a reading.
// It must not take a reading without saying where both leads go.

import type { JSX } from 'preact';
import type { ProfilePoint } from '../api/types.js';
import { Keypad } from '../parts/keypad.js';
import { Sheet } from '../parts/sheet.js';
import { Tag } from '../parts/tag.js';
import { WireWords } from '../parts/wire-words.js';
import { Leads } from '../read/leads.js';
import { index } from '../state/harness.js';
import { accessWords } from '../words/conditions.js';
import { bandText, tooSmallToJudgeVolts, voltsText } from '../words/figures.js';
import type { ProfileRow } from './rows.js';
import { ownerOfElement } from './step-subject.js';

interface StepSheetProps {
  readonly row: ProfileRow;
  readonly reference: string;
  readonly reading: number | null;
  readonly onRead: (volts: number) => void;
  readonly onDrop: () => void;
  readonly onClose: () => void;
}

export function StepSheet({ row, reference, reading, onRead, onDrop, onClose }: StepSheetProps): JSX.Element {
  const { point } = row;
  const band = bandText(point.volts);
  return (
    <Sheet title="Probe here" onClose={onClose}>
      <Leads red={point.point} black={reference} isBlackBrief />
      <p class="expect">
        Expect <strong>{voltsText(point.volts.nominal)}</strong>
        {band === null ? ' (no band worked out)' : `, healthy from ${band}`}. {accessWords(point.access)}.
      </p>
      {point.probeable ? (
        <Keypad
          unit="V"
          label="What does the meter show?"
          onEnter={({ value }) => {
            if (value !== null) onRead(value);
          }}
        />
      ) : (
        <p class="box box-plain">No probe reaches this point.</p>
      )}
      {reading !== null && (
        <button type="button" class="button" onClick={onDrop}>
          Take back my {voltsText(reading)}
        </button>
      )}
      {row.drop !== null && (
        <section>
          <h3>The step into it</h3>
          <ul class="plain-list">
            {row.into.map((it) => it.reachedBy !== null && <ElementLine key={it.reachedBy} point={it} />)}
          </ul>
        </section>
      )}
    </Sheet>
  );
}

function ElementLine({ point }: { point: ProfilePoint }): JSX.Element {
  const owner = ownerOfElement(point.reachedBy ?? '');
  const record = index.value;
  const wire = point.reachedBy === owner ? record?.wires.get(owner) : undefined;
  const drop = point.dropVolts?.nominal ?? null;
  return (
    <li class="element">
      <span class="element-what">
        {wire === undefined ? (
          point.description
        ) : (
          <>
            <Tag address={owner} /> <WireWords wire={wire} isLong />
          </>
        )}
      </span>
      <span class="element-drop">
        {voltsText(drop)}
        {drop !== null && drop !== 0 && Math.abs(drop) < tooSmallToJudgeVolts && (
          <span class="soft"> too small to judge</span>
        )}
        {point.limitVolts !== null && <span class="soft"> limit {voltsText(point.limitVolts)}</span>}
      </span>
      {point.location !== null && <span class="soft small">{point.location}</span>}
    </li>
  );
}
