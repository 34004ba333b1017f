// A wire between two points: resistance, terminations, double crimps, marks.

import { describe, expect, test } from 'vitest';
import { buildHarnessGraph } from '../../../src/core/graph/build-harness-graph.js';
import { elementOf, graphOf, ohmsOf, pointOf, recordOf } from './support.js';

const SPLICES = [
  { address: 'SP1', kind: 'splice' },
  { address: 'SP2', kind: 'splice' },
];

function wireOhms(wire: Record<string, unknown>, record: Record<string, unknown> = {}): number {
  return ohmsOf(graphOf(SPLICES, [['L1', 'SP1', 'SP2', wire]], record), 'L1');
}

describe('resistance of a wire', () => {
  // NBS Handbook 100 (solid copper, 20 °C), ohms per 1000 ft: 18 AWG 6.385, 12 AWG 1.588, 2/0 AWG 0.07793.
  test.each([
    ['18 AWG', 6.385],
    ['12 AWG', 1.588],
    ['2/0 AWG', 0.07793],
  ])('%s as in NBS Handbook 100', (size, ohmsPer1000Feet) => {
    expect(wireOhms({ size, lengthMetres: 304.8 })).toBeCloseTo(
      ohmsPer1000Feet,
      3 - Math.ceil(Math.log10(ohmsPer1000Feet)),
    );
  });

  // ISO 6722-1 conductor table: 1.5 mm² at most 12.7 mΩ/m at 20 °C.
  test('1.5 mm² as in ISO 6722-1', () => {
    expect(wireOhms({ size: '1.5 mm²', lengthMetres: 4 })).toBeCloseTo(4 * 0.0127, 12);
  });

  // IEC 60228 annex: R(T) x factor = R(20); 0.862 at 60 °C, 1.042 at 10 °C, rounded from alpha 0.004, hence 0.6 %.
  test.each([
    [60, 0.862],
    [10, 1.042],
  ])('at %d °C it differs by the factor of IEC 60228', (ambientCelsius, factor) => {
    const warm = wireOhms({}, { ambientCelsius });
    expect((warm * factor) / wireOhms({}, { ambientCelsius: 20 })).toBeCloseTo(1, 2);
  });

  // FAA AC 43.13-1B, paragraph 11-66: L2 = L1 x 254.5 / (234.5 + T), that is alpha = 1/254.5 per kelvin at 20 °C.
  test('at 100 °C as in FAA AC 43.13-1B', () => {
    const ratio = wireOhms({}, { ambientCelsius: 100 }) / wireOhms({}, { ambientCelsius: 20 });
    expect(ratio).toBeCloseTo((234.5 + 100) / 254.5, 3);
  });

  test('a wire without a length leans on the default and says so', () => {
    const graph = graphOf(SPLICES, [['L1', 'SP1', 'SP2', { lengthMetres: undefined }]]);
    expect(elementOf(graph, 'L1').defaults).toContain('wire.lengthMetres');
  });
});

describe('ends of a wire', () => {
  test('are two bare ends, each in a termination of its own', () => {
    const graph = graphOf(SPLICES, [['L1', 'SP1', 'SP2']]);
    expect([...graph.elements.values()].map(({ id, role, a, b }) => [id, role, a, b])).toEqual([
      ['L1@SP1', 'termination', 'L1:from', 'SP1'],
      ['L1', 'conductor', 'L1:from', 'L1:to'],
      ['L1@SP2', 'termination', 'L1:to', 'SP2'],
    ]);
  });

  test('a lug on a post, a leg in a splice and a recorded screw differ', () => {
    const graph = graphOf(
      [{ address: 'BAT1', kind: 'battery' }, ...SPLICES],
      [
        ['L1', 'BAT1/pos', 'SP1'],
        ['L2', 'SP1', 'SP2', { fromEnd: 'screw' }],
      ],
    );
    const [lug, leg, screw] = ['L1@BAT1/pos', 'L1@SP1', 'L2@SP1'].map((id) => elementOf(graph, id).defaults);
    expect([lug, leg, screw]).toEqual([
      ['termination.lug.ohms'],
      ['termination.splice-crimp.ohms'],
      ['termination.screw.ohms'],
    ]);
  });

  test('two wires in one terminal share one crimp, each with its own end', () => {
    const graph = graphOf(
      [{ address: 'X4', kind: 'connector', cavities: 3 }, ...SPLICES],
      [
        ['L1', 'SP1', 'X4.plug/3'],
        ['L2', 'X4.plug/3', 'SP2'],
      ],
      { doubleCrimps: [{ point: 'X4.plug/3', wires: ['L1', 'L2'] }] },
    );
    expect(elementOf(graph, 'L1@X4.plug/3').b).toBe('@X4.plug/3:inner');
    expect(elementOf(graph, 'L2@X4.plug/3').b).toBe('@X4.plug/3:inner');
    expect(elementOf(graph, '@X4.plug/3')).toMatchObject({
      role: 'double-crimp',
      a: '@X4.plug/3:inner',
      b: 'X4.plug/3',
      owner: 'X4',
    });
    expect(pointOf(graph, '@X4.plug/3:inner').probeable).toBe(false);
  });

  test('a wire end on a point that is not there is refused', () => {
    expect(() => buildHarnessGraph(recordOf(SPLICES, [['L1', 'SP1', 'SP9']]))).toThrow(RangeError);
  });
});

describe('marks and exposure', () => {
  const graph = graphOf(
    [
      {
        address: 'R1',
        kind: 'module',
        supplies: [{ terminal: '1' }],
        grounds: [{ terminal: '2' }],
        marks: ['restraint'],
      },
      { address: 'X4', kind: 'connector', cavities: 2, exposure: 'salt' },
      { address: 'SP1', kind: 'splice' },
    ],
    [
      ['L1', 'SP1', 'X4.plug/1', { marks: ['restraint'], route: ['W1', 'W2'] }],
      ['L2', 'X4.receptacle/1', 'R1/1'],
      ['L3', 'SP1', 'X4.plug/2'],
    ],
    {
      segments: [
        { address: 'W1', exposure: 'splash' },
        { address: 'W2', exposure: 'dry' },
      ],
    },
  );

  test('a marked wire marks the cavity it ends in, not the splice that others share', () => {
    expect(pointOf(graph, 'X4.plug/1').marks).toEqual(['restraint']);
    expect(pointOf(graph, 'SP1').marks).toEqual([]);
    expect(pointOf(graph, 'X4.plug/2').marks).toEqual([]);
  });

  test('a marked part marks its wires, its terminals and its contacts', () => {
    for (const id of ['L2', 'L2@R1/1', 'L2@X4.receptacle/1', 'R1:1', 'R1:1-idle']) {
      expect(elementOf(graph, id).marks).toEqual(['restraint']);
    }
    expect(pointOf(graph, 'R1/1').marks).toEqual(['restraint']);
    expect(pointOf(graph, 'L2:from').marks).toEqual(['restraint']);
    expect(elementOf(graph, 'L3').marks).toEqual([]);
  });

  test('a wire takes the worst exposure along its route, a termination that of its part', () => {
    expect(elementOf(graph, 'L1').exposure).toBe('splash');
    expect(elementOf(graph, 'L1@X4.plug/1').exposure).toBe('salt');
    expect(elementOf(graph, 'L1@SP1').exposure).toBe('dry');
  });
});
