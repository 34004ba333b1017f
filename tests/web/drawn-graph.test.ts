// The small graph behind the drawing: parts as boxes, wires as lines, nothing that no path passes.

import { describe, expect, it } from 'vitest';
import type { FeedStep, Feeds } from '../../src/web/api/types.js';
import { foldSteps } from '../../src/web/feeds/fold-steps.js';
import { drawnGraph } from '../../src/web/map/drawn-graph.js';

const none = { nominal: 1, low: null, high: null, bandBasis: 'none' } as const;
const step = (element: string, owner: string, role: string, from: string, to: string, only = false): FeedStep => ({
  element,
  owner,
  role,
  from,
  to,
  volts: none,
  dropVolts: { ...none, nominal: 0.1 },
  amps: 1,
  description: element,
  singlePointOfFailure: only,
});

const supply = [
  step('L1@F1/out', 'L1', 'termination', 'F1/out', 'L1:from'),
  step('L1', 'L1', 'conductor', 'L1:from', 'L1:to', true),
  step('L1@X1.plug/1', 'L1', 'termination', 'L1:to', 'X1.plug/1'),
  step('X1:1', 'X1', 'mating', 'X1.plug/1', 'X1.receptacle/1'),
  step('L2@X1.receptacle/1', 'L2', 'termination', 'X1.receptacle/1', 'L2:from'),
  step('L2', 'L2', 'conductor', 'L2:from', 'L2:to'),
  step('L2@E1/feed', 'L2', 'termination', 'L2:to', 'E1/feed'),
];
const back = [
  step('L3', 'L3', 'conductor', 'E1/return', 'L3:to'),
  step('L3@G1', 'L3', 'termination', 'L3:to', 'G1'),
  step('G1:joint', 'G1', 'joint', 'G1', 'G1:inner'),
  step('G1:metal', 'G1', 'metal', 'G1:inner', 'FRAME'),
];
const feeds = {
  function: 'E1:dip',
  supplies: [{ share: 1, steps: supply }],
  returns: [{ share: 1, steps: back }],
  controls: [],
} as unknown as Feeds;

describe('drawnGraph', () => {
  const graph = drawnGraph(feeds, (label) => /^L\d/.test(label));

  it('draws parts as boxes, in the order of the path, and marks the load', () => {
    expect(graph.nodes.map(({ address }) => address)).toEqual(['F1', 'X1', 'E1', 'G1', 'FRAME']);
    expect(graph.nodes.filter(({ isTarget }) => isTarget).map(({ address }) => address)).toEqual(['E1']);
  });

  it('draws each wire once, between the right terminals, and joins without a wire as such', () => {
    expect(
      graph.edges.map(({ wire, from, to, fromTerminal, toTerminal, kind }) => [
        wire,
        from,
        to,
        fromTerminal,
        toTerminal,
        kind,
      ]),
    ).toEqual([
      ['L1', 'F1', 'X1', 'out', '1', 'supply'],
      ['L2', 'X1', 'E1', '1', 'feed', 'supply'],
      ['L3', 'E1', 'G1', 'return', null, 'return'],
      [null, 'G1', 'FRAME', null, null, 'return'],
    ]);
  });
});

describe('foldSteps', () => {
  it('makes one stop of a wire and its two ends, and loses nothing', () => {
    const stops = foldSteps(supply);
    expect(stops.map(({ owner }) => owner)).toEqual(['L1', 'X1', 'L2']);
    expect(stops.flatMap(({ steps }) => steps)).toEqual(supply);
    expect(stops[0]).toMatchObject({ isWire: true, isOnlyWay: true, to: 'X1.plug/1', description: 'L1' });
    expect(stops[0].dropVolts).toBeCloseTo(0.3, 12);
  });
});
