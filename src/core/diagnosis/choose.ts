/**
 * The next check: exact where the table is small, else rollout, else the most bits per minute of overlapping bands; near the end
 * only what spares more of a wrong repair than it costs. It must not explain; `explain-check` does.
 */
import { compactTable } from './compact-table.js';
import { exactPlan, isExactlyPlannable } from './exact-plan.js';
import { likeliestAfter, softGain } from './information-gain.js';
import { minutesNow, type Plan, type PlanCheck, type PlanTable } from './plan-table.js';
import { minutesWith, rolloutCheck } from './rollout.js';

export interface Choice {
  /** Index of the candidate. */
  readonly candidate: number;
  readonly method: 'exact' | 'rollout' | 'gain';
  /** Bits about which group it is. */
  readonly gainBits: number;
  readonly minutes: number;
  /** Expected minutes to the end, this check included; null where only a gain was found. */
  readonly minutesToEnd: number | null;
}

export interface ChooseOptions {
  /** Off for benchmarks that compare with the exact plan. */
  readonly useExact?: boolean;
  readonly width?: number;
}

const ROLLOUT_WIDTH = 15;
/** Less than this is not worth getting up for: bits. */
const LEAST_BITS = 0.03;
/** Of the most bits per minute that there are, so many must be in what the plan opens with (engineering judgement). */
const FAIR_SHARE = 0.4;
/** From this probability of one group on, the question is whether to ask at all or to mend (engineering judgement). */
const NEARLY_SURE = 0.8;
/** What a repair at the wrong place costs, the way back into the hunt included: minutes (engineering judgement). */
const WRONG_REPAIR_MINUTES = 30;

/** Null when no check tells anything worth its while. */
export function choose(plan: Plan, { useExact = true, width = ROLLOUT_WIDTH }: ChooseOptions = {}): Choice | null {
  if (isNearlySure(plan)) return bySparedRepair(plan);
  const table = compactTable(plan.table);
  const items = Int32Array.from(table.weights, (_, i) => i);
  const planned = choiceOn(table, items, plan, useExact, width);
  // A plan on likeliest outcomes can open with a check whose outcomes overlap so much that it tells little: volts of what comes and goes.
  const soft = bySoftGain(plan);
  const isFair = planned !== null && soft !== null && rateOf(planned) >= FAIR_SHARE * rateOf(soft);
  const chosen = isFair ? planned : soft;
  return chosen !== null && chosen.gainBits >= LEAST_BITS ? chosen : null;
}

function choiceOn(table: PlanTable, items: Int32Array, plan: Plan, useExact: boolean, width: number): Choice | null {
  if (items.length < 2) return null;
  if (useExact && isExactlyPlannable(table)) {
    const { check, minutes } = exactPlan(table, plan.start);
    return check === null ? null : choiceOf(plan, check, 'exact', minutes);
  }
  const check = rolloutCheck(table, items, plan.start, width);
  return check === null ? null : choiceOf(plan, check, 'rollout', minutesWith(table, items, plan.start, check));
}

function bySoftGain(plan: Plan): Choice | null {
  let best: { check: PlanCheck; rate: number } | null = null;
  for (const check of plan.table.checks) {
    const rate = softGain(plan.groupWeights, plan.soft[check.candidate]) / minutesNow(plan.table, check, plan.start);
    if (best === null || rate > best.rate) best = { check, rate };
  }
  return best === null ? null : choiceOf(plan, best.check, 'gain', null);
}

function isNearlySure({ groups: [top] }: Plan): boolean {
  return top !== undefined && top.id !== 'healthy' && top.probability >= NEARLY_SURE;
}

/** Most minutes of wrong repairs spared per minute of its own; null when none pays for itself: then one mends. */
function bySparedRepair(plan: Plan): Choice | null {
  const { groupWeights, soft, table, start } = plan;
  const now = groupWeights.reduce((most, weight) => Math.max(most, weight), 0);
  let best: { check: PlanCheck; rate: number } | null = null;
  for (const check of table.checks) {
    const spared = WRONG_REPAIR_MINUTES * (likeliestAfter(groupWeights, soft[check.candidate]) - now);
    const rate = spared / minutesNow(table, check, start);
    if (rate > (best?.rate ?? 1)) best = { check, rate };
  }
  return best === null ? null : choiceOf(plan, best.check, 'gain', null);
}

function rateOf({ gainBits, minutes }: Choice): number {
  return gainBits / minutes;
}

function choiceOf(plan: Plan, check: PlanCheck, method: Choice['method'], minutesToEnd: number | null): Choice {
  return {
    candidate: check.candidate,
    method,
    gainBits: softGain(plan.groupWeights, plan.soft[check.candidate]),
    minutes: minutesNow(plan.table, check, plan.start),
    minutesToEnd,
  };
}
