/**
 * Continuity plan of the bare harness: one reading per terminal but one of every net, with expected ohms and what a failure means.
 * Terminals minus nets readings, the least that two leads allow (plain counting; Kautz, IEEE Trans. Computers C-23, 1974, for more leads).
 */
import type { Model } from '../model.js';
import type { Plan, PlanStep } from '../shapes/plans.js';
import { type ChosenReading, chooseReadings } from './choose-readings.js';
import { devicesOff } from './devices-off.js';
import { handMoves, orderByHands, withLeadsExchanged } from './hand-order.js';
import { harnessNets, type Net } from './harness-nets.js';
import { netOhms } from './net-ohms.js';
import { type OpenedNets, openLoops } from './open-loops.js';
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
  const found = openLoops(model, harnessNets(model));
  const read = netOhms(found.nets);
  const placeOfEnd = (terminal: string): string => placeOf(model, terminal);
  const heldOf = ({ red, black }: ChosenReading) => ({ red: placeOfEnd(red), black: placeOfEnd(black) });
  const readings = chooseReadings(
    found.nets.map(({ terminals }) => terminals),
    placeOfEnd,
  );
  const ordered = orderByHands(readings, heldOf, true);
  const steps = ordered.map(({ item, isSwapped }): PlanStep => {
    const { ohms, elements } = read(item.red, item.black);
    const ends = [item.red, item.black].map(found.addressOf);
    const [red, black] = isSwapped ? ends.toReversed() : ends;
    const shift = (value: number | null): number | null => (value === null ? null : value + leadOhms);
    const high = (ohms.high ?? ohms.nominal ?? 0) + leadOhms;
    return {
      id: stepId('continuity', [ends[0]], [ends[1]]),
      group: found.nets[item.net].name,
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
    remove: [...devicesOff(model, found), ...found.lifted.map(liftedEnd)],
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
    leftOut: [...leftOutForbidden(found), ...unseenParallels(found)],
    counts: {
      nets: found.nets.length,
      terminals,
      readings: steps.length,
      leastPossible: terminals - found.nets.length,
      pairwise: found.nets.reduce((sum, net) => sum + (net.terminals.length * (net.terminals.length - 1)) / 2, 0),
      handMoves: handMoves(
        ordered.map(({ item, isSwapped }) => heldOf(isSwapped ? { ...item, red: item.black, black: item.red } : item)),
      ),
      handMovesInRecordOrder: handMoves(withLeadsExchanged(inRecordOrder(model, found, readings).map(heldOf))),
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

function liftedEnd({ part, at, address }: OpenedNets['lifted'][number]): Plan['remove'][number] {
  return {
    part,
    how: 'take-wire-off',
    at: [at],
    text: `Take ${part} off ${at} and read at its bare end ${address}: it lies in a loop, in which an open would not show. Fit it again after the last reading`,
  };
}

function unseenParallels({ inParallel }: OpenedNets): string[] {
  return inParallel.length === 0
    ? []
    : [`${inParallel.join(', ')}: in parallel to others with no end to take off; an open there does not show.`];
}

/** The same readings as they come when one goes down the wire list. */
function inRecordOrder(model: Model, { netOf }: OpenedNets, readings: readonly ChosenReading[]): ChosenReading[] {
  const rank = new Map<string, number>();
  for (const { from, to } of model.graph.record.wires) {
    for (const point of [from, to]) if (netOf.has(point) && !rank.has(point)) rank.set(point, rank.size);
  }
  return readings.toSorted((one, other) => (rank.get(one.red) ?? 0) - (rank.get(other.red) ?? 0));
}
