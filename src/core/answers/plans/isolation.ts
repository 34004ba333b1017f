/**
 * Isolation plan of the bare harness: no net may conduct to another or to chassis, in the fewest readings that the kit allows.
 * Bare leads: pairs that can touch and each net to chassis. One tie bar: nets - 1. Two tie bars: ceil(log2 nets) (plain counting).
 */
import { adjacentCavities, bodiesBeside, neighbouringWires } from '../../graph/neighbours.js';
import type { Model } from '../model.js';
import type { Kit, Plan, PlanStep } from '../shapes/plans.js';
import { hubsOf } from './continuity.js';
import { devicesOff } from './devices-off.js';
import { type Held, handMoves, orderByHands, withLeadsExchanged } from './hand-order.js';
import { type HarnessNets, harnessNets } from './harness-nets.js';
import { emptyPlan, leftOutForbidden, placeOf, severestFindings, stepId } from './plan-parts.js';

/** Heavy-plant practice: over 5 kΩ counts as open (workshop manual, common practice). A dry harness shows OL. */
const LEAST_OHMS = 5_000;

export function planIsolation(model: Model, kit: Kit): Plan {
  const found = harnessNets(model);
  const clips = hubsOf(model, found.nets);
  const steps = stepsOf(model, found, clips, kit);
  const count = found.nets.length;
  const held = steps.map((step) => heldBy(model, step));
  return {
    ...emptyPlan(model, 'isolation', 'Isolation of the bare harness'),
    kit,
    first: severestFindings(model),
    remove: devicesOff(model, found),
    prepare: [
      'Battery negative off, then positive; every supply off.',
      'Get every part of the list below out of the way: a cold lamp or coil left in looks like a short.',
      KIT_WORDS[kit],
    ],
    steps,
    onFailure: [
      'A reading below the limit: split the larger side in two and read each half against the other side; go on with the half that conducts until one net is left on each side.',
      'Two nets found that conduct, and both failed continuity: they are swapped, not shorted.',
    ],
    leftOut: leftOutForbidden(found),
    counts: {
      nets: count,
      terminals: found.nets.reduce((sum, net) => sum + net.terminals.length, 0),
      readings: steps.length,
      leastPossible: leastReadings(kit, count),
      pairwise: (count * (count - 1)) / 2,
      handMoves: handMoves(held),
      handMovesInRecordOrder: handMoves(
        withLeadsExchanged(stepsOf(model, found, clips, kit, false).map((step) => heldBy(model, step))),
      ),
    },
  };
}

const KIT_WORDS: Readonly<Record<Kit, string>> = {
  'two-leads': 'Kit: two leads only. Only pairs that can touch are read; for a full proof take a tie bar.',
  'one-tie-bar':
    'Kit: one tie bar with a clip for every net. Clip all nets to it. Each step takes one net off and reads it against the bar; the net stays off.',
  'two-tie-bars':
    'Kit: two tie bars with a clip for every net. Each step says which nets go on which bar; read from bar to bar.',
};

/** Fewest readings for q nets; null for bare leads, where it is the number of pairs that can touch. */
export function leastReadings(kit: Kit, nets: number): number | null {
  if (kit === 'two-leads') return null;
  if (nets < 2) return 0;
  return kit === 'one-tie-bar' ? nets - 1 : Math.ceil(Math.log2(nets));
}

function stepsOf(model: Model, found: HarnessNets, clips: readonly string[], kit: Kit, isOrdered = true): PlanStep[] {
  const all = found.nets.map((_, net) => net);
  switch (kit) {
    case 'two-leads': {
      const pairs = touchingPairs(model, found);
      const held = ([a, b]: readonly [number, number]): Held => ({
        red: placeOf(model, clips[a]),
        black: placeOf(model, clips[b]),
      });
      const ordered = isOrdered ? orderByHands(pairs, held, true) : pairs.map((item) => ({ item, isSwapped: false }));
      return ordered.map(({ item: [a, b], isSwapped }) =>
        step(found, clips, isSwapped ? [b] : [a], isSwapped ? [a] : [b]),
      );
    }
    case 'one-tie-bar': {
      // chassis stays on the bar to the end; nets come off place by place
      const rest = all.filter((net) => net > 0);
      const byPlace = isOrdered
        ? rest.toSorted(
            (one, other) => placeOf(model, clips[one]).localeCompare(placeOf(model, clips[other]), 'en') || one - other,
          )
        : rest;
      return byPlace.map((net, i) =>
        step(
          found,
          clips,
          [net],
          [...byPlace.slice(i + 1), 0].toSorted((one, other) => one - other),
        ),
      );
    }
    case 'two-tie-bars':
      return Array.from({ length: leastReadings(kit, all.length) ?? 0 }, (_, bit) =>
        step(
          found,
          clips,
          all.filter((net) => (net >> bit) % 2 === 1),
          all.filter((net) => (net >> bit) % 2 === 0),
        ),
      );
  }
}

function step(
  { nets }: HarnessNets,
  clips: readonly string[],
  reds: readonly number[],
  blacks: readonly number[],
): PlanStep {
  const red = reds.map((net) => clips[net]);
  const black = blacks.map((net) => clips[net]);
  return {
    id: stepId('isolation', short(red), short(black)),
    group: reds.length === 1 ? nets[reds[0]].name : `${reds.length} nets against ${blacks.length}`,
    red,
    black,
    meter: 'ohmmeter',
    unit: 'Ω',
    set: [],
    expected: { nominal: null, low: null, high: null, bandBasis: 'none' },
    least: LEAST_OHMS,
    most: null,
    limitSource: 'heavy-plant workshop practice: over 5 kΩ is open',
    expect: 'OL',
    failing: 'Some net on the red side conducts to one on the black side: short, swap, or a part left in.',
    tooSmallToJudge: false,
    elements: [],
    cautions: ['ohms-dead-only'],
  };
}

/** A bar with many clips is named by how many and by its first and last. */
function short(points: readonly string[]): readonly string[] {
  return points.length <= 4 ? points : [`${points.length} clips`, points[0], points[points.length - 1]];
}

/** Nets whose wires or cavities lie side by side, and each net to chassis where it runs along a body or there is one. */
export function touchingPairs(model: Model, { nets, netOf }: HarnessNets): [number, number][] {
  const pairs = new Map<string, [number, number]>();
  const add = (one: number | undefined, other: number | undefined): void => {
    if (one === undefined || other === undefined || one === other) return;
    const pair: [number, number] = [Math.max(one, other), Math.min(one, other)];
    pairs.set(pair.join(' '), pair);
  };
  for (const { a, b } of neighbouringWires(model.graph.record).pairs)
    add(netOf.get(`${a}:from`), netOf.get(`${b}:from`));
  for (const part of model.graph.record.parts) {
    if (part.kind !== 'connector') continue;
    for (const { a, b } of adjacentCavities(part)) add(netOf.get(a), netOf.get(b));
  }
  const chassis = nets.findIndex(({ isChassis }) => isChassis);
  for (const net of chassis >= 0 ? nets.keys() : []) add(net, chassis);
  for (const [label, bodies] of bodiesBeside(model.graph.record)) {
    for (const body of bodies) add(netOf.get(`${label}:from`), netOf.get(body));
  }
  return [...pairs.values()].sort(([a, b], [c, d]) => a - c || b - d);
}

function heldBy(model: Model, { red, black }: PlanStep): Held {
  return {
    red: red.length === 1 ? placeOf(model, red[0]) : 'bar',
    black: black.length === 1 ? placeOf(model, black[0]) : 'bar',
  };
}
