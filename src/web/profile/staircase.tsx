// The voltage profile: the path runs down the page, volts run across; each row is a point for the probe and the step into it.
// It must not need colour, a pointer or a wide screen to be read.

import type { JSX } from 'preact';
import { Axis } from './axis.js';
import { findFaultStep, placeIn, type TakenReadings } from './fault-step.js';
import { Hatch } from './hatch.js';
import { LoadStep } from './load-step.js';
import { ProfileRowView } from './profile-row.js';
import type { ProfileRow } from './rows.js';
import { profileScales, type Scale } from './scale.js';

interface StaircaseProps {
  readonly rows: readonly ProfileRow[];
  readonly taken: TakenReadings;
  readonly zoom: 'close' | 'whole';
  readonly selected: number | null;
  readonly onSelect: (row: number) => void;
}

export function Staircase({ rows, taken, zoom, selected, onSelect }: StaircaseProps): JSX.Element {
  const scales = profileScales(rows, taken, zoom);
  const fault = findFaultStep(rows, taken);
  const found = rows.findIndex(({ isLoad }) => isLoad);
  const loadAt = found < 0 ? rows.length : found;

  const part = (from: number, to: number, scale: Scale): JSX.Element => (
    <ol class="stair-rows">
      {rows.slice(from, to).map((row, n) => {
        const at = from + n;
        return (
          <ProfileRowView
            key={`${row.point.point} ${row.point.reachedBy}`}
            row={row}
            before={rows[at - 1] ?? null}
            isLast={at === to - 1}
            scale={scale}
            reading={taken.get(row.point.point) ?? null}
            readingBefore={readingBefore(rows, taken, at)}
            place={placeIn(fault, at)}
            fault={fault}
            isSelected={selected === at}
            onSelect={() => onSelect(at)}
          />
        );
      })}
    </ol>
  );

  return (
    <div class="staircase">
      <Hatch />
      <section aria-label="The way there">
        <Axis scale={scales.feed} words="The way there" />
        {part(0, loadAt, scales.feed)}
      </section>
      {loadAt < rows.length && (
        <>
          <LoadStep row={rows[loadAt]} before={rows[loadAt - 1] ?? null} taken={taken} />
          <section aria-label="The way back">
            <Axis scale={scales.return} words="The way back" />
            {part(loadAt, rows.length, scales.return)}
          </section>
        </>
      )}
    </div>
  );
}

/** A line is drawn from the last reading to the next one, not beyond, and never across the load. */
function readingBefore(rows: readonly ProfileRow[], taken: TakenReadings, at: number): number | null {
  const isRead = (row: ProfileRow): boolean => taken.has(row.point.point);
  if (rows[at].isLoad) return null;
  const nextLoad = rows.findIndex(({ isLoad }, n) => isLoad && n >= at);
  const ahead = rows.slice(at, nextLoad < 0 ? undefined : nextLoad);
  if (!ahead.some(isRead)) return null;
  for (let n = at - 1; n >= 0; n--) {
    const volts = taken.get(rows[n].point.point);
    if (volts !== undefined) return volts;
    if (rows[n].isLoad) return null;
  }
  return null;
}
