/**
 * Continuity plan of the bare harness: one reading per terminal but one of every net, with expected ohms and what a failure means.
 * Terminals minus nets readings, the least that two leads allow (plain counting; Kautz, IEEE Trans. Computers C-23, 1974, for more leads).
 */
import type { Model } from '../model.js';
import type { Plan, PlanStep } from '../shapes/plans.js';
import { devicesOff } from './devices-off.js';
import { handMoves, orderByHands } from './hand-order.js';
import { type HarnessNets, harnessNets, type Net } from './harness-nets.js';
import { netOhms } from './net-ohms.js';
import { emptyPlan, leftOutForbidden, placeOf, severestFindings, stepId } from './plan-parts.js';

export interface ContinuityOptions {
  /** Ohms of the two leads touched together; 0.2 is common for a hand-held meter. */
  readonly leadOhms?: number;
}

const LEAD_OHMS = 0.2;
/** 2 digits of 0.1 Ω on the lowest common range (meter of the design: 0.5 % + 2 digits). */
const METER_OHMS = 0.2;
const METER_SHARE = 0.005;

export function planContinuity(model: Model, { leadOhms = LEAD_OHMS }: ContinuityOptions = {}): Plan {
  const found = harnessNets(model);
  const hubs = hubsOf(model, found.nets);
  const read = netOhms(found.nets, hubs);
  const pairs = found.nets.flatMap((net, index) =>
    net.terminals
      .filter((terminal) => terminal !== hubs[index])
      .map((terminal) => ({ net, index, terminal, hub: hubs[index] })),
  );
  const heldOf = ({ terminal, hub }: (typeof pairs)[number]) => ({
    red: placeOf(model, terminal),
    black: placeOf(model, hub),
  });
  const ordered = orderByHands(pairs, heldOf, true);
  const steps = ordered.map(({ item, isSwapped }): PlanStep => {
    const { ohms, elements } = read(item.index, item.terminal);
    const [red, black] = isSwapped ? [item.hub, item.terminal] : [item.terminal, item.hub];
    const shift = (value: number | null): number | null => (value === null ? null : value + leadOhms);
    const high = (ohms.high ?? ohms.nominal ?? 0) + leadOhms;
    return {
      id: stepId('continuity', [item.terminal], [item.hub]),
      group: item.net.name,
      red: [red],
      black: [black],
      meter: 'ohmmeter',
      unit: 'Ω',
      set: [],
      expected: {
        nominal: shift(ohms.nominal),
        low: shift(ohms.low),
        high: shift(ohms.high),
        bandBasis: ohms.bandBasis,
      },
      least: 0,
      most: high * (1 + METER_SHARE) + METER_OHMS,
      limitSource: `95 % band of the wires and joints, leads ${leadOhms} Ω, meter 0.5 % + 2 digits`,
      expect: 'close to the leads alone',
      failing:
        'OL: open on the way, or a swap if another net fails too (see below). Some ohms: a bad joint on the way.',
      // a healthy wire is below the last digit: a pass says connected, never fit for its current
      tooSmallToJudge: (ohms.nominal ?? 0) < METER_OHMS,
      elements: [...elements],
      cautions: ['ohms-dead-only'],
    };
  });
  const terminals = found.nets.reduce((sum, net) => sum + net.terminals.length, 0);
  return {
    ...emptyPlan(model, 'continuity', 'Continuity of the bare harness'),
    first: severestFindings(model),
    remove: devicesOff(model, found),
    prepare: [
      'Battery negative off, then positive; every supply off.',
      'Get every part of the list below out of the way. Connectors in the loom stay mated: their contacts are tested with the wires.',
      `Touch the leads together: the plan reckons with ${leadOhms} Ω. If yours differ, subtract and add.`,
    ],
    steps,
    onFailure: [
      'Two nets fail: read the red point of each against the black point of the other. Both connected: these two are swapped. Neither: two opens.',
      'One net fails: halve it. Read from the black point to the middle joint of the way; the fault lies between the last good point and the first bad one.',
      'A reading in ohms proves that a joint is there, not that it carries current: the voltage-drop plan proves that.',
    ],
    leftOut: leftOutForbidden(found),
    counts: {
      nets: found.nets.length,
      terminals,
      readings: steps.length,
      leastPossible: terminals - found.nets.length,
      pairwise: found.nets.reduce((sum, net) => sum + (net.terminals.length * (net.terminals.length - 1)) / 2, 0),
      handMoves: handMoves(
        steps.map((step) => ({ red: placeOf(model, step.red[0]), black: placeOf(model, step.black[0]) })),
      ),
      handMovesInRecordOrder: handMoves(inRecordOrder(model, found, pairs).map(heldOf)),
    },
  };
}

/** The terminal in the place where most terminals of all nets are: there black can stay longest. */
export function hubsOf(model: Model, nets: readonly Net[]): string[] {
  const crowd = new Map<string, number>();
  for (const { terminals } of nets) {
    for (const terminal of terminals)
      crowd.set(placeOf(model, terminal), (crowd.get(placeOf(model, terminal)) ?? 0) + 1);
  }
  const rank = (terminal: string): number => crowd.get(placeOf(model, terminal)) ?? 0;
  return nets.map(({ terminals }) => terminals.reduce((best, next) => (rank(next) > rank(best) ? next : best)));
}

/** The same readings as they come when one goes down the wire list. */
function inRecordOrder<P extends { terminal: string }>(
  model: Model,
  { netOf }: HarnessNets,
  pairs: readonly P[],
): readonly P[] {
  const rank = new Map<string, number>();
  for (const { from, to } of model.graph.record.wires) {
    for (const point of [from, to]) if (netOf.has(point) && !rank.has(point)) rank.set(point, rank.size);
  }
  return pairs.toSorted((one, other) => (rank.get(one.terminal) ?? 0) - (rank.get(other.terminal) ?? 0));
}
