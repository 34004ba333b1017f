/**
 * What the failing lines of a continuity plan mean, and which further readings tell a swap from two opens.
 * It must not take readings; it reads those that it is given.
 */
import type { Plan, PlanStep } from '../shapes/plans.js';

export interface CrossReading {
  readonly red: string;
  readonly black: string;
  /** What it means when this reading connects. */
  readonly means: string;
}

export type ContinuityVerdict =
  | { readonly kind: 'open'; readonly step: string; readonly red: string; readonly black: string }
  | {
      readonly kind: 'resistive';
      readonly step: string;
      readonly red: string;
      readonly black: string;
      readonly ohms: number;
    }
  | { readonly kind: 'swapped'; readonly a: string; readonly b: string };

const key = (red: string, black: string): string => [red, black].sort().join('\n');

/** Readings across every two failing nets; each of the four ways in which two ends can have changed places is named once. */
export function crossReadings(plan: Plan, failing: ReadonlySet<string>): CrossReading[] {
  const open = plan.steps.filter(({ id }) => failing.has(id));
  const asked = new Map<string, CrossReading>();
  const ask = (red: string, black: string, a: string, b: string): void => {
    if (!asked.has(key(red, black))) asked.set(key(red, black), { red, black, means: `${a} and ${b} are swapped` });
  };
  for (const [i, one] of open.entries()) {
    for (const other of open.slice(i + 1)) {
      if (one.group === other.group) continue;
      const [r1, b1, r2, b2] = [one.red[0], one.black[0], other.red[0], other.black[0]];
      ask(r1, b2, r1, r2);
      ask(r2, b1, r1, r2);
      ask(r1, r2, r1, b2);
      ask(b1, b2, r1, b2);
    }
  }
  return [...asked.values()];
}

/**
 * `ohms`: reading by step id, null for OL. `crossOhms`: readings of `crossReadings` by either order of their points.
 * A swap needs both of its cross readings to connect; failing lines that no swap explains stay opens or resistive.
 */
export function explainContinuity(
  plan: Plan,
  ohms: ReadonlyMap<string, number | null>,
  crossOhms: (red: string, black: string) => number | null | undefined,
): ContinuityVerdict[] {
  const failing = plan.steps.filter((step) => ohms.has(step.id) && fails(step, ohms.get(step.id) ?? null));
  const verdicts: ContinuityVerdict[] = [];
  const explained = new Set<string>();
  const connects = (red: string, black: string): boolean => {
    const value = crossOhms(red, black) ?? crossOhms(black, red);
    return value !== undefined && value !== null && value < CONNECTED_OHMS;
  };
  for (const [i, one] of failing.entries()) {
    for (const other of failing.slice(i + 1)) {
      if (one.group === other.group) continue;
      const [r1, b1, r2, b2] = [one.red[0], one.black[0], other.red[0], other.black[0]];
      const swap =
        connects(r1, b2) && connects(r2, b1) ? [r1, r2] : connects(r1, r2) && connects(b1, b2) ? [r1, b2] : null;
      if (swap === null) continue;
      if (!explained.has(one.id) || !explained.has(other.id))
        verdicts.push({ kind: 'swapped', a: swap[0], b: swap[1] });
      explained.add(one.id).add(other.id);
    }
  }
  for (const step of failing) {
    if (explained.has(step.id)) continue;
    const [red, black, value] = [step.red[0], step.black[0], ohms.get(step.id) ?? null];
    if (value === null) verdicts.push({ kind: 'open', step: step.id, red, black });
    else verdicts.push({ kind: 'resistive', step: step.id, red, black, ohms: value });
  }
  return verdicts;
}

/** Far above any wire with its leads, far below any damp path (engineering judgement). */
const CONNECTED_OHMS = 10;

function fails({ most }: PlanStep, value: number | null): boolean {
  return value === null || (most !== null && value > most);
}
