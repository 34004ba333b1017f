/**
 * The question "what next?" as a table: what is suspected, what each check would show for each, what it costs. Frozen for one step.
 * It must not decide; information gain, rollout and the exact plan read it.
 */

import type { Candidate } from './candidates.js';
import { changeMinutes, PANEL_MINUTES } from './check-cost.js';
import { columnOf } from './check-memory.js';
import type { SuspectGroup } from './groups.js';
import type { Inquiry } from './inquiry.js';
import type { OutcomeClass } from './outcome-classes.js';
import type { StateChoice } from './shapes/check.js';
import type { Posterior } from './suspects.js';

export interface PlanCheck {
  /** Index of the candidate that it stands for. */
  readonly candidate: number;
  readonly minutes: number;
  /** Number of the state that it needs; -1: any. */
  readonly setup: number;
  /** Bits of the panels that must be off. */
  readonly panels: number;
  /** Likeliest outcome class of each item. */
  readonly outcomes: Uint8Array;
  readonly classCount: number;
}

/** Pure data, so that it can be stored, made up for a benchmark, and planned on by anyone. */
export interface PlanTable {
  /** Probability and group of each item; items of one group need not be told apart. */
  readonly weights: Float64Array;
  readonly groups: Int32Array;
  readonly checks: readonly PlanCheck[];
  /** Minutes from one setup to another: row from, column to. Row `setups` is the start where nothing is set. */
  readonly changes: readonly (readonly number[])[];
  readonly panelMinutes: readonly number[];
}

export interface PlanStart {
  /** Number of the setup that stands now; `changes.length - 1` for none. */
  readonly setup: number;
  /** Bits of the panels that are off. */
  readonly panels: number;
}

/** Soft outcome shares of a check by group, for information gain and for what is said about it. */
export interface SoftCheck {
  readonly classes: readonly OutcomeClass[];
  /** Row per group, column per class: shares given the group. */
  readonly byGroup: readonly Float64Array[];
}

export interface Plan {
  readonly table: PlanTable;
  readonly start: PlanStart;
  readonly soft: readonly SoftCheck[];
  readonly groups: readonly SuspectGroup[];
  /** Group weights, brought to a sum of 1. */
  readonly groupWeights: Float64Array;
}

export interface Circumstances {
  readonly state: StateChoice | null;
  readonly openPanels: ReadonlySet<string>;
}

/** More panels than bits would not be planned over; the rest counts as if it had to come off each time. */
const MOST_PANELS = 30;
/** Items beyond this share of all weight are left out of planning, never out of the suspects. */
const PLANNED_SHARE = 0.99;
const MOST_ITEMS = 250;

/** Builds the table for the groups that a check can speak of (not for what is unknown or wrongly recorded). */
export function planOf(
  posterior: Posterior,
  groups: readonly SuspectGroup[],
  candidates: readonly Candidate[],
  now: Circumstances,
): Plan {
  const { inquiry, probabilities } = posterior;
  const members = groups
    .filter(({ id }) => id !== 'unknown' && id !== 'record-wrong')
    .flatMap((group) => group.sites.flatMap((site) => site.members.map((index) => ({ index, of: group }))))
    .sort((a, b) => probabilities[b.index] - probabilities[a.index]);
  const whole = members.reduce((sum, { index }) => sum + probabilities[index], 0);
  const chosen: typeof members = [];
  let held = 0;
  for (const member of members) {
    if (held >= PLANNED_SHARE * whole || chosen.length >= MOST_ITEMS) break;
    held += probabilities[member.index];
    chosen.push(member);
  }
  const holding = new Set(chosen.map(({ of }) => of));
  const planned = groups.filter((group) => holding.has(group));
  const numberOf = new Map(planned.map((group, i) => [group, i]));
  const items = chosen.map(({ index, of }) => ({ index, group: numberOf.get(of) ?? 0 }));
  const setups = setupsOf(inquiry, candidates, now.state);
  const panels = [...new Set(candidates.flatMap((candidate) => candidate.panels))].slice(0, MOST_PANELS);
  const bits = (names: Iterable<string>): number =>
    [...names].reduce((mask, name) => (panels.includes(name) ? mask | (1 << panels.indexOf(name)) : mask), 0);
  const soft: SoftCheck[] = [];
  const checks = candidates.map((candidate, at): PlanCheck => {
    const column = columnOf(inquiry, candidate.check, candidate.key);
    const { classes } = column;
    const byGroup = planned.map(() => new Float64Array(classes.length));
    const outcomes = new Uint8Array(items.length);
    items.forEach(({ index, group }, item) => {
      const shares = column.shares(index);
      const row = byGroup[group];
      let likeliest = 0;
      for (let k = 0; k < shares.length; k++) {
        row[k] += shares[k] * probabilities[index];
        if (shares[k] > shares[likeliest]) likeliest = k;
      }
      outcomes[item] = likeliest;
    });
    for (const row of byGroup) normaliseRow(row);
    soft.push({ classes, byGroup });
    return {
      candidate: at,
      minutes: candidate.minutes,
      setup: candidate.state === null ? -1 : setups.numberOf(candidate.state),
      panels: bits(candidate.panels),
      outcomes,
      classCount: classes.length,
    };
  });
  const groupWeights = Float64Array.from(planned, ({ probability }) => probability);
  normaliseRow(groupWeights);
  return {
    table: {
      weights: Float64Array.from(items, ({ index }) => probabilities[index] / held),
      groups: Int32Array.from(items, ({ group }) => group),
      checks,
      changes: setups.changes,
      panelMinutes: panels.map(() => PANEL_MINUTES),
    },
    start: { setup: setups.start, panels: bits(now.openPanels) },
    soft,
    groups: planned,
    groupWeights,
  };
}

function setupsOf(inquiry: Inquiry, candidates: readonly Candidate[], now: StateChoice | null) {
  const keyOf = (choice: StateChoice): string => (typeof choice === 'string' ? choice : JSON.stringify(choice));
  const choices = new Map<string, StateChoice>();
  for (const choice of [now, ...candidates.map(({ state }) => state)])
    if (choice !== null) choices.set(keyOf(choice), choice);
  const list = [...choices.values()];
  const numbers = new Map([...choices.keys()].map((key, i) => [key, i]));
  const row = (from: StateChoice | null): number[] =>
    list.map((to) =>
      from !== null && keyOf(from) === keyOf(to)
        ? 0
        : changeMinutes(from === null ? null : inquiry.resolve(from), inquiry.resolve(to)),
    );
  return {
    changes: [...list.map(row), row(null)],
    start: now === null ? list.length : (numbers.get(keyOf(now)) ?? list.length),
    numberOf: (choice: StateChoice): number => numbers.get(keyOf(choice)) ?? -1,
  };
}

function normaliseRow(row: Float64Array): void {
  const total = row.reduce((sum, share) => sum + share, 0);
  if (total > 0) for (let i = 0; i < row.length; i++) row[i] /= total;
}

/** Minutes of a check as things stand: work, state to be set, panels still on. */
export function minutesNow(table: PlanTable, check: PlanCheck, now: PlanStart): number {
  let minutes = check.minutes;
  if (check.setup >= 0) minutes += table.changes[now.setup][check.setup];
  const closed = check.panels & ~now.panels;
  if (closed === 0) return minutes;
  for (let panel = 0; panel < table.panelMinutes.length; panel++)
    if ((closed & (1 << panel)) !== 0) minutes += table.panelMinutes[panel];
  return minutes;
}

/** How things stand after the check. */
export function after(check: PlanCheck, now: PlanStart): PlanStart {
  return { setup: check.setup >= 0 ? check.setup : now.setup, panels: now.panels | check.panels };
}
