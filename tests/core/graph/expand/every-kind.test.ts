// What every part kind brings to the graph: how many points, and which elements.

import { describe, expect, test } from 'vitest';
import { expanders } from '../../../../src/core/graph/expand/registry.js';
import { partKinds } from '../../../../src/core/record/part.js';
import { graphOf } from '../support.js';

interface Case {
  readonly part: Record<string, unknown> & { readonly kind: string };
  readonly points: readonly string[];
  readonly elements: readonly string[];
}

const BODIES = [
  { address: 'FRAME', kind: 'body' },
  { address: 'ENGINE', kind: 'body' },
];

/** Points and elements are written out by hand from the record's own comments on each kind. */
const CASES: readonly Case[] = [
  { part: { kind: 'battery' }, points: ['P/pos', 'P/neg'], elements: ['P:emf'] },
  {
    part: { kind: 'alternator', caseOn: 'ENGINE' },
    points: ['P/B+', 'P/61', 'P/case'],
    elements: ['P:output', 'P:rotor', 'P:exciter', 'P:case'],
  },
  {
    part: { kind: 'alternator' },
    points: ['P/B+', 'P/61', 'P/31'],
    elements: ['P:output', 'P:rotor', 'P:exciter'],
  },
  { part: { kind: 'external-supply' }, points: ['P/pos', 'P/neg'], elements: ['P:supply'] },
  { part: { kind: 'jump-posts' }, points: ['P/pos', 'P/neg'], elements: ['P:supply'] },
  {
    part: { kind: 'converter', outputVolts: 12, isolated: true },
    points: ['P/in', 'P/out', 'P/neg', 'P/outneg'],
    elements: ['P:output', 'P:input'],
  },
  { part: { kind: 'split-charge-relay' }, points: ['P/A', 'P/B', 'P/31'], elements: ['P:contact', 'P:sense'] },
  {
    part: { kind: 'diode-isolator' },
    points: ['P/in', 'P/A1', 'P/A2'],
    elements: ['P:in-A1', 'P:in-A2'],
  },
  { part: { kind: 'master-switch' }, points: ['P/1', 'P/2'], elements: ['P:1-2'] },
  {
    part: { kind: 'fuse', ratingAmps: 10 },
    points: ['P/in', 'P/out', 'P.body/in', 'P.body/out'],
    elements: ['P:link', 'P:in', 'P:out'],
  },
  { part: { kind: 'fuse', ratingAmps: 100, style: 'midi' }, points: ['P/in', 'P/out'], elements: ['P:link'] },
  { part: { kind: 'fusible-link', size: '20 AWG' }, points: ['P/in', 'P/out'], elements: ['P:link'] },
  { part: { kind: 'breaker', ratingAmps: 25 }, points: ['P/in', 'P/out'], elements: ['P:link'] },
  {
    part: { kind: 'relay', contacts: 'change-over', fuseRatingAmps: 20, suppressor: { style: 'diode' } },
    points: [
      ...['P/30', 'P/85', 'P/86', 'P/87', 'P/87a'],
      ...['P.body/30', 'P.body/85', 'P.body/86', 'P.body/87', 'P.body/87a', 'P:inner'],
    ],
    elements: [
      ...['P:coil', 'P:fuse', 'P:30-87', 'P:30-87a', 'P:suppressor'],
      ...['P:30', 'P:85', 'P:86', 'P:87', 'P:87a'],
    ],
  },
  { part: { kind: 'switch' }, points: ['P/1', 'P/2'], elements: ['P:1-2'] },
  {
    part: { kind: 'switch', style: 'ignition' },
    points: ['P/30', 'P/75', 'P/15', 'P/50'],
    elements: ['P:30-75', 'P:30-15', 'P:30-50'],
  },
  { part: { kind: 'sensor-switch', caseOn: 'ENGINE' }, points: ['P/1', 'P/case'], elements: ['P:1-case', 'P:case'] },
  {
    part: { kind: 'flasher' },
    points: ['P/49', 'P/49a', 'P/31', 'P.body/49', 'P.body/49a', 'P.body/31'],
    elements: ['P:49-49a', 'P:drive', 'P:49', 'P:49a', 'P:31'],
  },
  {
    part: { kind: 'connector', cavities: 3, bridges: [{ half: 'plug', cavities: ['1', '2', '3'] }] },
    points: ['P.plug/1', 'P.plug/2', 'P.plug/3', 'P.receptacle/1', 'P.receptacle/2', 'P.receptacle/3'],
    elements: ['P:1', 'P:2', 'P:3', 'P:plug.1.2', 'P:plug.1.3'],
  },
  { part: { kind: 'splice' }, points: ['P'], elements: [] },
  { part: { kind: 'busbar', terminals: 2 }, points: ['P', 'P/1', 'P/2'], elements: ['P:1', 'P:2'] },
  { part: { kind: 'ground', on: 'FRAME' }, points: ['P', 'P:inner'], elements: ['P:joint', 'P:metal'] },
  {
    part: { kind: 'ground-block', terminals: 2, on: 'FRAME' },
    points: ['P', 'P/1', 'P/2', 'P:inner'],
    elements: ['P:1', 'P:2', 'P:joint', 'P:metal'],
  },
  { part: { kind: 'ground-block', terminals: 2 }, points: ['P', 'P/1', 'P/2'], elements: ['P:1', 'P:2'] },
  { part: { kind: 'body' }, points: ['P'], elements: [] },
  {
    part: { kind: 'strap', between: ['FRAME', 'ENGINE'] },
    points: ['P/1', 'P/2'],
    elements: ['P:joint1', 'P:strap', 'P:joint2'],
  },
  { part: { kind: 'tie', between: ['FRAME', 'ENGINE'] }, points: [], elements: ['P:tie'] },
  {
    part: {
      kind: 'load',
      functions: [
        { name: 'main', feed: '56a', return: '31', law: 'filament' },
        { name: 'dip', feed: '56b', return: '31', law: 'filament' },
      ],
    },
    points: ['P/56a', 'P/56b', 'P/31', 'P.body/56a', 'P.body/56b', 'P.body/31'],
    elements: ['P:main', 'P:dip', 'P:56a', 'P:56b', 'P:31'],
  },
  {
    part: {
      kind: 'load',
      functions: [{ name: 'wipe', law: 'motor', feed: '53', return: 'case' }],
      limitContacts: [{ between: ['53a', '53e'], closedIn: ['sweeping'] }],
      caseOn: 'FRAME',
    },
    points: ['P/53', 'P/case', 'P/53a', 'P/53e'],
    elements: ['P:wipe', 'P:53a-53e', 'P:case'],
  },
  {
    part: { kind: 'starter', caseOn: 'ENGINE' },
    points: ['P/30', 'P/50', 'P/case', 'P:inner'],
    elements: ['P:coil', 'P:contact', 'P:motor', 'P:case'],
  },
  {
    part: {
      kind: 'module',
      supplies: [{ terminal: 'VB' }],
      grounds: [{ terminal: 'GND' }, { terminal: 'SGND', role: 'sensor' }],
      outputs: [{ terminal: 'OUT1', side: 'high', offPullUpOhms: 10_000 }],
      inputs: [{ terminal: 'IN1', pull: 'up' }],
      sensorSupplies: [{ terminal: '5V' }],
      caseOn: 'FRAME',
    },
    points: [
      ...['P/VB', 'P/GND', 'P/SGND', 'P/OUT1', 'P/IN1', 'P/5V', 'P/case'],
      ...['P.body/VB', 'P.body/GND', 'P.body/SGND', 'P.body/OUT1', 'P.body/IN1', 'P.body/5V'],
    ],
    elements: [
      ...['P:VB-idle', 'P:SGND-tie', 'P:OUT1-driver', 'P:OUT1-diode', 'P:OUT1-pull-up', 'P:IN1-pull', 'P:5V-supply'],
      ...['P:case', 'P:VB', 'P:GND', 'P:SGND', 'P:OUT1', 'P:IN1', 'P:5V'],
    ],
  },
  { part: { kind: 'resistor', resistanceOhms: 47 }, points: ['P/1', 'P/2'], elements: ['P:resistor'] },
  { part: { kind: 'shunt', resistanceOhms: 0.0005 }, points: ['P/1', 'P/2'], elements: ['P:shunt'] },
  { part: { kind: 'diode' }, points: ['P/a', 'P/k'], elements: ['P:diode'] },
  { part: { kind: 'suppressor', style: 'resistor' }, points: ['P/a', 'P/k'], elements: ['P:suppressor'] },
  {
    part: { kind: 'potentiometer', resistanceOhms: 5000 },
    points: ['P/1', 'P/2', 'P/3'],
    elements: ['P:upper', 'P:lower'],
  },
  {
    part: {
      kind: 'thermistor',
      points: [
        { celsius: 20, ohms: 2500 },
        { celsius: 90, ohms: 250 },
      ],
      caseOn: 'ENGINE',
    },
    points: ['P/1', 'P/case'],
    elements: ['P:thermistor', 'P:case'],
  },
  { part: { kind: 'bus-terminator' }, points: ['P/1', 'P/2'], elements: ['P:resistor'] },
];

describe('every part kind', () => {
  test('has an expansion and a case here', () => {
    expect(Object.keys(expanders).toSorted()).toEqual(partKinds.toSorted());
    expect([...new Set(CASES.map(({ part }) => part.kind))].toSorted()).toEqual(partKinds.toSorted());
  });

  test.each(CASES.map((item) => [item.part.kind, item] as const))(
    '%s brings its points and elements',
    (_kind, item) => {
      const graph = graphOf([{ address: 'P', ...item.part }, ...BODIES]);
      const ownPoints = [...graph.points.values()].filter((point) => point.owner === 'P').map((point) => point.id);
      expect(ownPoints.toSorted()).toEqual(item.points.toSorted());
      expect([...graph.elements.keys()].toSorted()).toEqual(item.elements.toSorted());
    },
  );
});
