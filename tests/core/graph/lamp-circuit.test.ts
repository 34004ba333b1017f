// One circuit as the trade draws it: battery, fuse, switch, connector, lamp, ground.

import { describe, expect, test } from 'vitest';
import { bridgesBetween, sectionsBetween } from '../../../src/core/graph/blocks.js';
import { conductiveView } from '../../../src/core/graph/conductive-view.js';
import { fusesBehind } from '../../../src/core/graph/fuses-behind.js';
import { reachableFrom } from '../../../src/core/graph/islands.js';
import { shortestPath, shortestPaths } from '../../../src/core/graph/paths.js';
import { elementOf, graphOf, LAMP_PARTS, LAMP_WIRES, pointOf } from './support.js';

const graph = graphOf(LAMP_PARTS, LAMP_WIRES);
const wiring = conductiveView(graph, (element) => element.role !== 'load' && element.role !== 'source');

const FEED = [
  'L1@BAT1/pos',
  'L1',
  'L1@F1/in',
  'F1:in',
  'F1:link',
  'F1:out',
  'L2@F1/out',
  'L2',
  'L2@S1/1',
  'S1:1-2',
  'L3@S1/2',
  'L3',
  'L3@X1.receptacle/1',
  'X1:1',
  'L4@X1.plug/1',
  'L4',
  'L4@E1/feed',
  'E1:feed',
];

const RETURN = [
  'E1:return',
  'L5@E1/return',
  'L5',
  'L5@G1',
  'G1:joint',
  'G1:metal',
  'G2:metal',
  'G2:joint',
  'L6@G2',
  'L6',
  'L6@BAT1/neg',
];

describe('a lamp by way of fuse, switch, connector and ground', () => {
  test('its feed is every element in the order that the current meets it', () => {
    expect(shortestPath(wiring, 'BAT1/pos', 'E1.body/feed')?.elements).toEqual(FEED);
  });

  test('its return runs through both studs and the frame', () => {
    const path = shortestPath(wiring, 'E1.body/return', 'BAT1/neg');
    expect(path?.elements).toEqual(RETURN);
    expect(path?.points).toContain('FRAME');
  });

  test('each element of feed and return is a single point of failure', () => {
    expect(bridgesBetween(wiring, ['BAT1/pos'], 'E1.body/feed')).toEqual(FEED);
    expect(bridgesBetween(wiring, ['BAT1/neg'], 'E1.body/return')).toEqual(RETURN.toReversed());
  });

  test('the fuse stands behind the switch and not behind the battery post', () => {
    expect(fusesBehind(wiring, ['BAT1/pos'], 'S1/1')).toEqual({
      series: ['F1:link'],
      parallel: [],
      hasUnfusedWay: false,
    });
    expect(fusesBehind(wiring, ['BAT1/pos'], 'F1/in')).toEqual({ series: [], parallel: [], hasUnfusedWay: true });
    expect(fusesBehind(wiring, ['BAT1/pos'], 'G1')).toBeNull();
  });

  test('with the switch open, the battery reaches no farther than the switch', () => {
    const open = conductiveView(graph, (element) => element.role !== 'load' && element.id !== 'S1:1-2');
    const live = reachableFrom(open, ['BAT1/pos']);
    expect(live.has('S1/1')).toBe(true);
    expect(live.has('S1/2')).toBe(false);
    expect(live.has('X1.plug/1')).toBe(false);
  });

  test('the lamp is one function with its rating in watts turned into amperes', () => {
    expect([...graph.functions.keys()]).toEqual(['E1']);
    const lamp = graph.functions.get('E1');
    expect(lamp).toMatchObject({ element: 'E1:beam', feed: 'E1.body/feed', return: 'E1.body/return', ratedVolts: 12 });
    expect(lamp?.ratedAmps).toBeCloseTo(21 / 12, 12);
    expect(elementOf(graph, 'E1:beam').law.kind).toBe('filament');
  });

  test('readings are taken against the negative post of the battery unless the record says otherwise', () => {
    expect(graph.reference).toBe('BAT1/neg');
    expect(graphOf(LAMP_PARTS, LAMP_WIRES, { reference: 'frame' }).reference).toBe('FRAME');
  });

  test('points say how hard they are to reach', () => {
    const behind = graphOf([{ address: 'X1', kind: 'connector', cavities: 1, panel: 'left kick panel' }]);
    expect(pointOf(behind, 'X1.plug/1')).toMatchObject({ access: 'behind-panel', panel: 'left kick panel' });
    expect(pointOf(graph, 'X1.plug/1')).toMatchObject({
      access: 'open',
      probeable: true,
      side: 'plug',
      role: 'cavity',
    });
    expect(pointOf(graph, 'L4:from')).toMatchObject({ role: 'inner', probeable: false, owner: 'L4' });
  });
});

describe('two feeds to one lamp', () => {
  const twoFeeds = graphOf(
    [...LAMP_PARTS, { address: 'SP1', kind: 'splice' }, { address: 'SP2', kind: 'splice' }],
    [
      ['L1', 'BAT1/pos', 'F1/in'],
      ['L2', 'F1/out', 'SP1'],
      ['LA', 'SP1', 'SP2'],
      ['LB', 'SP1', 'SP2', { lengthMetres: 2 }],
      ['L3', 'SP2', 'X1.receptacle/1'],
    ],
  );
  const view = conductiveView(twoFeeds, (element) => element.role !== 'source');

  test('are one parallel section between elements in series', () => {
    const sections = sectionsBetween(view, 'F1/out', 'X1.receptacle/1');
    expect(sections?.map((section) => (section.kind === 'series' ? section.element : section.elements))).toEqual([
      'L2@F1/out',
      'L2',
      'L2@SP1',
      ['LA', 'LA@SP1', 'LA@SP2', 'LB', 'LB@SP1', 'LB@SP2'],
      'L3@SP2',
      'L3',
      'L3@X1.receptacle/1',
    ]);
  });

  test('are spelled out shortest first, and counted', () => {
    const list = shortestPaths(view, 'F1/out', 'SP2');
    expect(list.paths.map((path) => path.elements.includes('LA'))).toEqual([true, false]);
    expect(list).toMatchObject({ more: 0, moreIsLowerBound: false });
    expect(shortestPaths(view, 'F1/out', 'SP2', 1)).toMatchObject({ more: 1 });
  });
});
