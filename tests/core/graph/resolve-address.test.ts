// What a person types, in any case and with the usual other names.

import { describe, expect, test } from 'vitest';
import { graphOf, LAMP_PARTS, LAMP_WIRES } from './support.js';

const graph = graphOf(
  [
    ...LAMP_PARTS,
    {
      address: 'E2',
      kind: 'load',
      functions: [
        { name: 'tail', feed: 'tail', law: 'filament' },
        { name: 'stop', feed: 'stop', law: 'filament' },
      ],
    },
  ],
  LAMP_WIRES,
);

describe('resolve', () => {
  test.each([
    ['x1.PLUG/1', { kind: 'point', id: 'X1.plug/1' }],
    ['bat1/+', { kind: 'point', id: 'BAT1/pos' }],
    ['BAT1/GND', { kind: 'point', id: 'BAT1/neg' }],
    ['g1', { kind: 'point', id: 'G1' }],
    ['f1', { kind: 'part', id: 'F1' }],
    ['l3', { kind: 'wire', id: 'L3' }],
    ['l3@x1.receptacle/1', { kind: 'element', id: 'L3@X1.receptacle/1' }],
    ['f1:LINK', { kind: 'element', id: 'F1:link' }],
    ['e2:Stop', { kind: 'function', id: 'E2:stop' }],
    [' X1 . plug / 1 ', { kind: 'point', id: 'X1.plug/1' }],
  ] as const)('%s', (text, expected) => {
    expect(graph.resolve(text)).toEqual(expected);
  });

  test('what is not there resolves to nothing', () => {
    for (const text of ['X9', 'X1.plug/9', 'L3@F1/in', '', '/', 'constructor']) expect(graph.resolve(text)).toBeNull();
  });

  test('asked for one kind, the same text finds that kind', () => {
    expect(graph.resolveAs('part', 'g1')).toBe('G1');
    expect(graph.resolveAs('function', 'e1')).toBe('E1');
    expect(graph.resolveAs('function', 'E1:BEAM')).toBe('E1');
    expect(graph.resolveAs('function', 'e2')).toBeNull();
    expect(graph.resolveAs('element', 'l3')).toBe('L3');
    expect(graph.resolveAs('point', 'l3')).toBeNull();
  });

  test('every point, element, part, wire and function is found by its own address', () => {
    for (const [kind, ids] of [
      ['point', graph.points.keys()],
      ['element', graph.elements.keys()],
      ['function', graph.functions.keys()],
    ] as const) {
      for (const id of ids) expect(graph.resolveAs(kind, id.toUpperCase())).toBe(id);
    }
  });
});
