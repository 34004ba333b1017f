// Other ways to choose the next check, for comparison. All share suspects, candidates, costs and the end of a hunt; only the choice differs.
// They must not be weakened: each takes the best check by its own measure.

import { type Choice, choose } from '../../../src/core/diagnosis/choose.js';
import type { HuntOptions } from '../../../src/core/diagnosis/hunt.js';
import { softGain } from '../../../src/core/diagnosis/information-gain.js';
import type { Inquiry } from '../../../src/core/diagnosis/inquiry.js';
import { minutesNow, type Plan } from '../../../src/core/diagnosis/plan-table.js';

export type Policy = NonNullable<HuntOptions['chooseBy']>;
type Candidates = Parameters<Policy>[1];

/** As in `choose`: less is not worth getting up for. */
const LEAST_BITS = 0.03;
/** An outcome speaks of a group when the group shows it so often and the rest so seldom. */
const SPEAKS_ABOVE = 0.8;

export const policies: Readonly<Record<string, Policy>> = {
  'feed-path half-split': feedPathHalfSplit,
  'probability half-split': (plan) => mostBy(plan, (_, gain) => gain),
  'p/c order': elementOrder,
  'gain per cost': (plan) =>
    mostBy(plan, (at, gain) => gain / minutesNow(plan.table, plan.table.checks[at], plan.start)),
  'rollout, exact off': (plan) => choose(plan, { useExact: false }),
};

/** The check with the most of something; null when none tells anything. */
function mostBy(plan: Plan, worth: (at: number, gain: number) => number): Choice | null {
  let best: { at: number; worth: number } | null = null;
  plan.table.checks.forEach((_, at) => {
    const gain = softGain(plan.groupWeights, plan.soft[at]);
    if (gain < LEAST_BITS) return;
    const value = worth(at, gain);
    if (best === null || value > best.worth) best = { at, worth: value };
  });
  return best === null ? null : choiceOf(plan, (best as { at: number }).at);
}

/**
 * The trade's habit: volts along the feed and the return of what fails, always in the middle of what is left, all suspects counted
 * alike whatever their odds and whatever a cover costs. Off the path, or when no such reading splits, the most even split of all.
 */
function feedPathHalfSplit(plan: Plan, candidates: Candidates, inquiry: Inquiry): Choice | null {
  const fn = inquiry.model.graph.functions.get(inquiry.complaintFunction ?? '');
  const onPath = new Set<string>();
  if (fn !== undefined) {
    const { feed, return: back } = inquiry.model.structure.between(fn.feed, fn.return);
    for (const id of [...feed, ...back]) {
      const element = inquiry.model.graph.elements.get(id);
      if (element !== undefined) onPath.add(element.a).add(element.b);
    }
  }
  const isOnPath = (at: number): boolean => {
    const { check } = candidates[at];
    return check.kind === 'volts' && check.black === inquiry.model.graph.reference && onPath.has(check.red);
  };
  return evenest(plan, isOnPath) ?? evenest(plan, () => true);
}

function evenest(plan: Plan, isAllowed: (at: number) => boolean): Choice | null {
  let best: { at: number; odd: number } | null = null;
  plan.table.checks.forEach((_, at) => {
    if (!isAllowed(at) || softGain(plan.groupWeights, plan.soft[at]) < LEAST_BITS) return;
    const counts = new Map<number, number>();
    for (const shares of plan.soft[at].byGroup) {
      const likeliest = shares.indexOf(Math.max(...shares));
      counts.set(likeliest, (counts.get(likeliest) ?? 0) + 1);
    }
    const odd = Math.max(...counts.values()) / plan.groups.length;
    if (best === null || odd < best.odd - 1e-9) best = { at, odd };
  });
  return best === null ? null : choiceOf(plan, (best as { at: number }).at);
}

/** Group by group, likeliest for its cost first, each by the cheapest check that speaks of it. */
function elementOrder(plan: Plan): Choice | null {
  let best: { at: number; rate: number } | null = null;
  plan.table.checks.forEach((check, at) => {
    if (softGain(plan.groupWeights, plan.soft[at]) < LEAST_BITS) return;
    const minutes = minutesNow(plan.table, check, plan.start);
    plan.groups.forEach((_, group) => {
      if (!speaksOf(plan, at, group)) return;
      const rate = plan.groupWeights[group] / minutes;
      if (best === null || rate > best.rate) best = { at, rate };
    });
  });
  return best === null ? mostBy(plan, (_, gain) => gain) : choiceOf(plan, (best as { at: number }).at);
}

function speaksOf(plan: Plan, at: number, group: number): boolean {
  const { byGroup, classes } = plan.soft[at];
  return classes.some((_, k) => {
    if (byGroup[group][k] < SPEAKS_ABOVE) return false;
    let [rest, whole] = [0, 0];
    for (let other = 0; other < byGroup.length; other++) {
      if (other === group) continue;
      whole += plan.groupWeights[other];
      rest += plan.groupWeights[other] * byGroup[other][k];
    }
    return rest < (1 - SPEAKS_ABOVE) * whole;
  });
}

function choiceOf(plan: Plan, at: number): Choice {
  return {
    candidate: at,
    method: 'gain',
    gainBits: softGain(plan.groupWeights, plan.soft[at]),
    minutes: minutesNow(plan.table, plan.table.checks[at], plan.start),
    minutesToEnd: null,
  };
}
