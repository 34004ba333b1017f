/**
 * Voltage-drop plan: each circuit under its own load, from the source to the load and back, one reading per stretch between two
 * points that a probe reaches. Expected volts with band, and the customary limit of the stretch's class.
 */

import { namedState, restState } from '../../circuit/resolve-state.js';
import type { ResolvedState } from '../../circuit/resolved-state.js';
import { settle } from '../../circuit/settle.js';
import { type Solution, solutionsOf } from '../../circuit/solution.js';
import type { Element, LoadFunction } from '../../graph/element.js';
import { formatAmps } from '../../units/format.js';
import { isForbidden } from '../cautions.js';
import { conditionOf, isActive } from '../condition.js';
import { describeElement, describePart } from '../describe.js';
import { dropLimitVolts } from '../drop-limits.js';
import type { Model } from '../model.js';
import type { Plan, PlanStep } from '../shapes/plans.js';
import { followCurrent, type Stretch } from './follow-current.js';
import { type Held, handMoves, orderByHands } from './hand-order.js';
import { emptyPlan, placeOf, severestFindings, stepId } from './plan-parts.js';
import { stateWords } from './state-words.js';

/** Below this a hand-held meter says nothing (a few digits of its millivolt range). */
const LEAST_VOLTS = 0.005;
const Z95 = 1.96;

export interface VoltageDropOptions {
  /** Only these functions; all when absent. */
  readonly functions?: readonly string[];
}

/** Each function in the recorded state in which it takes the most; functions that run in no recorded state are left out, and told. */
export function planVoltageDrop(model: Model, { functions }: VoltageDropOptions = {}): Plan {
  const looks = lookAtStates(model);
  const wanted = functions === undefined ? null : new Set(functions);
  const leftOut: string[] = [];
  const circuits: { fn: LoadFunction; look: Look }[] = [];
  for (const fn of model.graph.functions.values()) {
    if (wanted !== null && !wanted.has(fn.id)) continue;
    if (isForbidden(fn.marks)) leftOut.push(`${fn.id}: marked circuit, not probed. The maker’s procedure holds.`);
    else {
      const look = busiest(model, fn, looks);
      if (look === null) leftOut.push(`${fn.id}: runs in no recorded state that settles`);
      else circuits.push({ fn, look });
    }
  }
  // each stretch once, in the state that puts the most current through it
  const steps = new Map<string, { step: PlanStep; look: Look }>();
  for (const { fn, look } of circuits) {
    for (const stretch of followCurrent(model, look.solution, fn)) {
      const step = stepOf(model, fn, look, stretch);
      if (step === null) continue;
      const key = [stretch.red, stretch.black].sort().join(' ');
      const known = steps.get(key);
      if (known === undefined || (step.expected.nominal ?? 0) > (known.step.expected.nominal ?? 0))
        steps.set(key, { step, look });
    }
  }
  // a state is set once; within it the hands decide
  const list = looks.flatMap((look) => {
    const inState = [...steps.values()].filter((it) => it.look === look).map(({ step }) => step);
    return orderByHands(inState, (step) => heldBy(model, step), false).map(({ item }) => item);
  });
  return {
    ...emptyPlan(model, 'voltage-drop', 'Voltage drop under load'),
    first: severestFindings(model),
    prepare: [
      'Measure the battery at its posts first; the plan reckons with the recorded source.',
      'Meter on volts DC, millivolt range. Red is always nearer to the source’s positive, black nearer to its negative.',
      'Every reading with the load plugged in and running; without current every drop is 0 and proves nothing.',
    ],
    steps: list,
    stopIf: ['A wire, plug or stud is too hot to hold', 'A fuse opens'],
    onFailure: [
      'Over the limit: clean and remake that joint or replace that wire, and read again under the same load.',
    ],
    leftOut: [
      ...leftOut,
      'The stricter whole-circuit limit of 3 % for essential circuits (ABYC E-11, seen second-hand) is not judged: the record does not say which circuits are essential.',
    ],
    counts: {
      nets: circuits.length,
      terminals: 0,
      readings: list.length,
      leastPossible: null,
      pairwise: null,
      handMoves: handMoves(list.map((step) => heldBy(model, step))),
      handMovesInRecordOrder: handMoves(inRecordOrder(model, list).map((step) => heldBy(model, step))),
    },
  };
}

interface Look {
  readonly name: string;
  readonly state: ResolvedState;
  readonly solution: Solution;
  readonly words: readonly string[];
}

function lookAtStates(model: Model): Look[] {
  const states = (model.graph.record.states ?? []).flatMap(({ name }) => {
    const resolved = namedState(model.graph, name);
    return resolved.ok && resolved.state.unplugged.size <= MOST_UNPLUGGED ? [{ name, state: resolved.state }] : [];
  });
  if (states.length === 0) states.push({ name: 'everything at rest', state: restState(model.graph) });
  return states.flatMap(({ name, state }) => {
    const solution = solutionsOf(settle(model.circuit, state))[0];
    return solution === undefined ? [] : [{ name, state, solution, words: stateWords(state) }];
  });
}

/** States of a harness pulled apart are not for proving it. */
const MOST_UNPLUGGED = 3;

function busiest(model: Model, fn: LoadFunction, looks: readonly Look[]): Look | null {
  const part = model.parts.get(fn.part);
  const runsIn = part?.kind === 'load' ? part.functions.find(({ name }) => name === fn.name)?.runsIn : undefined;
  let best: Look | null = null;
  for (const look of looks) {
    if (runsIn !== undefined && !runsIn.includes(look.name)) continue;
    if (!isActive(conditionOf(fn, look.solution))) continue;
    const more =
      best === null || Math.abs(look.solution.amps(fn.element)) > 1.02 * Math.abs(best.solution.amps(fn.element));
    if (more) best = look;
  }
  return best;
}

function stepOf(model: Model, fn: LoadFunction, look: Look, { red, black, elements, side }: Stretch): PlanStep | null {
  const ends = [red, black].map((id) => model.graph.points.get(id));
  if (
    elements.every((element) => isBarLeg(model, element)) ||
    elements.some(({ marks }) => isForbidden(marks)) ||
    ends.some((end) => end === undefined || isForbidden(end.marks))
  )
    return null;
  const volts = look.solution.voltsBetween(red, black);
  if (volts === null) return null;
  const variance = elements.reduce(
    (sum, element) => sum + (Math.abs(dropOf(look.solution, element)) * (element.spread?.relative ?? 0)) ** 2,
    0,
  );
  const spread = volts > 0 ? Math.sqrt(variance) / volts : 0;
  const limits = elements.map((element) => dropLimitVolts(model, element)).filter((limit) => limit !== null);
  const most = limits.length === elements.length ? Math.max(...limits) : null;
  const amps = Math.max(...elements.map((element) => Math.abs(look.solution.amps(element.id))));
  const main = elements.toSorted(
    (one, other) => Math.abs(dropOf(look.solution, other)) - Math.abs(dropOf(look.solution, one)),
  )[0];
  return {
    id: stepId('voltage-drop', [red], [black], look.name),
    group: `${describePart(model, fn.part)}${fn.id.includes(':') ? `, ${fn.name}` : ''}`,
    red: [red],
    black: [black],
    meter: 'voltmeter',
    unit: 'V',
    set: [...look.words],
    expected: {
      nominal: volts,
      low: volts * Math.exp(-Z95 * spread),
      high: volts * Math.exp(Z95 * spread),
      bandBasis: 'adjoint',
    },
    least: null,
    most,
    limitSource:
      'workshop limits by class at 12 V (common practice): connection and ground 0.1 V, wire 0.2 V, contact 0.3 V',
    expect: `${side === 'feed' ? 'Feed' : 'Return'} side at ${formatAmps(amps)}, mostly ${describeElement(model, main)}`,
    failing: `High: ${describeElement(model, main)} or a joint beside it. Near 0: no current, the load does not run.`,
    tooSmallToJudge: Math.abs(volts) < LEAST_VOLTS,
    elements: elements.map(({ id }) => id),
    cautions: ['live-work'],
  };
}

/** Solid metal from one stud of a bar to the next: nothing to remake, and nothing that a meter sees. */
function isBarLeg(model: Model, { role, owner }: Element): boolean {
  const kind = model.parts.get(owner)?.kind;
  return role === 'metal' && (kind === 'busbar' || kind === 'ground-block');
}

function heldBy(model: Model, { red, black }: PlanStep): Held {
  return { red: placeOf(model, red[0]), black: placeOf(model, black[0]) };
}

function dropOf(solution: Solution, element: Element): number {
  return solution.voltsBetween(element.a, element.b) ?? 0;
}

function inRecordOrder(model: Model, steps: readonly PlanStep[]): PlanStep[] {
  const rank = new Map([...model.graph.elements.keys()].map((id, index) => [id, index]));
  return steps.toSorted((one, other) => (rank.get(one.elements[0]) ?? 0) - (rank.get(other.elements[0]) ?? 0));
}
