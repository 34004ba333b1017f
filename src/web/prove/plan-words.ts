// Plans in words: their names, which leads go where, limits and readings as a hand-held meter shows them.
// It must not judge a reading that the server judges; only say at once what the limit itself says.

import { figureText } from '../words/figures.js';
import type { Kit, Plan, PlanChoice, PlanStep, Taken } from './proof-api.js';

interface OfferedPlan {
  readonly id: string;
  readonly choice: PlanChoice;
  readonly name: string;
  readonly what: string;
}

const kits: readonly { readonly kit: Kit; readonly name: string; readonly what: string }[] = [
  { kit: 'two-leads', name: 'two leads', what: 'Each net against those it can touch, and against chassis' },
  { kit: 'one-tie-bar', name: 'one tie bar', what: 'One net after the other against all the rest on a bar' },
  {
    kit: 'two-tie-bars',
    name: 'two tie bars',
    what: 'Half of the nets against the other half, in the fewest readings',
  },
];

/** In the order in which a harness is proved. */
export const offeredPlans: readonly OfferedPlan[] = [
  {
    id: 'continuity',
    choice: { kind: 'continuity' },
    name: 'Continuity',
    what: 'Battery off: every wire goes where the record says',
  },
  ...kits.map(
    ({ kit, name, what }): OfferedPlan => ({
      id: `isolation-${kit}`,
      choice: { kind: 'isolation', kit },
      name: `Isolation, ${name}`,
      what,
    }),
  ),
  {
    id: 'first-power',
    choice: { kind: 'first-power' },
    name: 'First power-up',
    what: 'Behind a current limit, one fuse at a time',
  },
  {
    id: 'voltage-drop',
    choice: { kind: 'voltage-drop' },
    name: 'Voltage drop',
    what: 'Under load: what each wire, contact, switch and ground takes',
  },
  {
    id: 'parasitic-draw',
    choice: { kind: 'parasitic-draw' },
    name: 'Parasitic draw',
    what: 'Key off: which branch stays awake, without pulling a fuse',
  },
];

export const planById = (id: string): OfferedPlan | null => offeredPlans.find((plan) => plan.id === id) ?? null;

const planIdOf = ({ kind, kit }: Pick<Plan, 'kind' | 'kit'>): string =>
  kind === 'isolation' ? `isolation-${kit ?? 'two-leads'}` : kind;

export const planName = (plan: Pick<Plan, 'kind' | 'kit'>): string => planById(planIdOf(plan))?.name ?? plan.kind;

/** Many points on one lead: all are said where they fit, else the bar and how many are on it. */
export function leadWords(points: readonly string[], most = 6): string {
  if (points.length <= most) return points.join(', ');
  return `tie bar: all ${points.length} others still on it`;
}

/** `OL`, `0.22 Ω`: what a healthy harness shows. */
export function expectedFigure(step: PlanStep): string | null {
  const { nominal, low, high } = step.expected;
  if (step.unit === null) return null;
  if (nominal === null) return step.unit === 'Ω' ? 'OL' : null;
  const unit = step.unit;
  // Currents far below a meter's last digit are none.
  const text = (value: number): string => figureText(unit === 'A' && Math.abs(value) < 1e-6 ? 0 : value, unit);
  return low === null || high === null || text(low) === text(high) ? text(nominal) : `${text(low)} to ${text(high)}`;
}

export function limitWords({ unit, least, most }: PlanStep): string {
  if (unit === null) return 'as described';
  const [low, high] = [least, most].map((value) => (value === null ? null : figureText(value, unit)));
  if (low !== null && high !== null && least !== null && least > 0) return `${low} to ${high}`;
  if (high !== null) return `at most ${high}`;
  if (low !== null) return `at least ${low}, or OL`;
  return 'no limit: note it';
}

export function takenWords(taken: Taken): string {
  if ('seen' in taken) return taken.seen === 'as-expected' ? 'as expected' : 'not as expected';
  return taken.value === 'OL' ? 'OL' : figureText(taken.value, taken.unit);
}

/** At once, before the server has said so: null where the step has no limit. */
export function passesHere(step: PlanStep, taken: Taken): boolean | null {
  if ('seen' in taken) return taken.seen === 'as-expected';
  if (taken.value === 'OL') return step.most === null;
  if (step.least === null && step.most === null) return null;
  const isLeast = step.least === null || taken.value >= step.least || (step.unit === 'Ω' && step.least === 0);
  return isLeast && (step.most === null || taken.value <= step.most);
}

/** The value that a step shows after a run, by its last reading. */
export function readingFigure(
  step: PlanStep,
  reading: { readonly value: number | null; readonly typed: string },
): string {
  return step.unit === null || reading.value === null ? reading.typed : figureText(reading.value, step.unit);
}

/** Steps in the order of the plan, neighbours of one group and one setting together. */
export function inGroups(
  steps: readonly PlanStep[],
): readonly { readonly name: string; readonly steps: readonly PlanStep[] }[] {
  const groups: { name: string; steps: PlanStep[] }[] = [];
  for (const step of steps) {
    const last = groups[groups.length - 1];
    if (last !== undefined && last.name === step.group) last.steps.push(step);
    else groups.push({ name: step.group, steps: [step] });
  }
  return groups;
}

/** All steps of one circuit together, in the order in which the circuits first come up: one sheet of paper each. */
export function byCircuit(
  steps: readonly PlanStep[],
): readonly { readonly name: string; readonly steps: readonly PlanStep[] }[] {
  const circuits = new Map<string, PlanStep[]>();
  for (const step of steps) circuits.set(step.group, [...(circuits.get(step.group) ?? []), step]);
  return [...circuits].map(([name, own]) => ({ name, steps: own }));
}

/** `Tail lamps (pins 5 and 7 fed); engine stopped`: what is set before a step, without what the group already says. */
export const settingWords = ({ set, group }: PlanStep): string =>
  set
    .filter((words) => words !== group)
    .map((words) => words.replace(/^State: /, ''))
    .join('; ');
