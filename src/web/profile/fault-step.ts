// Compares the person's readings with the healthy profile: which are as expected, and between which two points volts are lost.
// It must not name a culprit without a reading on each side of it.

import type { ProfileRow } from './rows.js';

/** Point -> volts that the person read there, black lead on the reference. */
export type TakenReadings = ReadonlyMap<string, number>;

export type ReadingVerdict = 'as-expected' | 'too-low' | 'too-high';

export interface FaultStep {
  /** Row of the last good reading before the loss. */
  readonly lastGood: number;
  /** Row of the first bad reading behind it. */
  readonly firstBad: number;
  /** Volts lost between the two, and what a healthy harness loses there. */
  readonly lostVolts: number;
  readonly expectedVolts: number;
}

/** Without a band a reading is judged by this margin, or 2 % where that is more: engineering judgement. */
const marginVolts = 0.1;
const marginShare = 0.02;

export function verdictOn(row: ProfileRow, volts: number): ReadingVerdict | null {
  const { nominal, low, high } = row.point.volts;
  if (nominal === null) return null;
  const margin =
    low === null || high === null ? Math.max(marginVolts, Math.abs(nominal) * marginShare) : meterMargin(volts);
  if (volts < (low ?? nominal) - margin) return 'too-low';
  return volts > (high ?? nominal) + margin ? 'too-high' : 'as-expected';
}

/** 0.5 % and 2 digits of a meter of 6,000 counts. */
const meterMargin = (volts: number): number => Math.abs(volts) * 0.005 + (Math.abs(volts) < 6 ? 0.002 : 0.02);

/** The step between two neighbouring readings that loses most beyond what it should; null: none loses enough to tell. */
export function findFaultStep(rows: readonly ProfileRow[], taken: TakenReadings): FaultStep | null {
  const read = rows.flatMap((row, at) => {
    const volts = taken.get(row.point.point);
    return volts === undefined || row.point.volts.nominal === null
      ? []
      : [{ at, volts, expected: row.point.volts.nominal }];
  });
  let worst: FaultStep | null = null;
  let worstExcess = 0;
  for (let n = 1; n < read.length; n++) {
    const [before, after] = [read[n - 1], read[n]];
    // Across the load itself a loss is what it is there for.
    if (rows.slice(before.at + 1, after.at + 1).some(({ isLoad }) => isLoad)) continue;
    const lostVolts = before.volts - after.volts;
    const expectedVolts = before.expected - after.expected;
    const excess = lostVolts - expectedVolts;
    if (excess <= Math.max(marginVolts, meterMargin(before.volts) + meterMargin(after.volts))) continue;
    if (excess <= worstExcess) continue;
    worstExcess = excess;
    worst = { lastGood: before.at, firstBad: after.at, lostVolts, expectedVolts };
  }
  return worst;
}

export type PlaceInFault = 'last-good' | 'inside' | 'first-bad' | null;

/** Where a row stands in the step that was found. */
export function placeIn(fault: FaultStep | null, at: number): PlaceInFault {
  if (fault === null || at < fault.lastGood || at > fault.firstBad) return null;
  if (at === fault.lastGood) return 'last-good';
  return at === fault.firstBad ? 'first-bad' : 'inside';
}
