/**
 * How each joint has changed since the as-built baseline: then, now, and what is left before its limit.
 * Joined by step id, which names points and state, so a renumbered plan still compares.
 */

/** One judged reading of a run; null value: over the range. */
export interface KeptValue {
  readonly step: string;
  readonly value: number | null;
  readonly unit: string;
  readonly most: number | null;
}

export interface Drift {
  readonly step: string;
  readonly unit: string;
  readonly then: number | null;
  readonly now: number | null;
  readonly change: number | null;
  /** Share of the way from the baseline to the limit that is used up; null without a limit or above it at the start. */
  readonly usedShare: number | null;
  readonly verdict: 'steady' | 'rising' | 'warn' | 'failed';
}

/** A reading moves by meter and contact alone: a tenth, and a few millivolts (engineering judgement). */
const STEADY_SHARE = 0.1;
const STEADY_SI = 0.003;
/** Warns from here on, before it fails (engineering judgement). */
const WARN_SHARE = 0.5;

/** Last value of each step wins. Steps that only one run has are left out. Worst first. */
export function driftOf(baseline: readonly KeptValue[], later: readonly KeptValue[]): Drift[] {
  const then = new Map(baseline.map((kept) => [kept.step, kept]));
  const now = new Map(later.map((kept) => [kept.step, kept]));
  const drifts: Drift[] = [];
  for (const [step, { value, unit, most }] of now) {
    const before = then.get(step);
    if (before !== undefined) drifts.push(oneDrift(step, unit, before.value, value, most));
  }
  return drifts.sort(
    (one, other) =>
      ORDER.indexOf(one.verdict) - ORDER.indexOf(other.verdict) || (other.usedShare ?? 0) - (one.usedShare ?? 0),
  );
}

const ORDER: readonly Drift['verdict'][] = ['failed', 'warn', 'rising', 'steady'];

function oneDrift(step: string, unit: string, then: number | null, now: number | null, most: number | null): Drift {
  const base = { step, unit, then, now };
  if (then === null || now === null) {
    const failed = most !== null && now === null;
    return { ...base, change: null, usedShare: null, verdict: failed ? 'failed' : then === now ? 'steady' : 'rising' };
  }
  const change = now - then;
  const usedShare = most === null || most <= then ? null : Math.max(0, change / (most - then));
  if (most !== null && now > most) return { ...base, change, usedShare, verdict: 'failed' };
  const isSteady = Math.abs(change) <= Math.max(STEADY_SHARE * Math.abs(then), STEADY_SI);
  const verdict = isSteady ? 'steady' : usedShare !== null && usedShare >= WARN_SHARE ? 'warn' : 'rising';
  return { ...base, change, usedShare, verdict };
}
