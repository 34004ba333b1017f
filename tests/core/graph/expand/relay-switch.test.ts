// Relay, switch, starter and alternator by their terminal numbers.
// Numbers: DIN 72552 (secondary table, en.wikipedia.org/wiki/DIN_72552): 15 switched by ignition, 30 battery direct, 31 return to
// battery, 49/49a flasher in and out, 50 starter control, 61 charge lamp, 85 coil -, 86 coil +; 87 make and 87a break
// with 30 common is mini-relay practice.

import { describe, expect, test } from 'vitest';
import { elementOf, graphOf } from '../support.js';

const relay = (more: Record<string, unknown>) => graphOf([{ address: 'K2', kind: 'relay', ...more }]);

describe('relay', () => {
  test('the coil lies between 86, the fed side, and 85', () => {
    expect(elementOf(relay({}), 'K2:coil')).toMatchObject({ a: 'K2.body/86', b: 'K2.body/85', role: 'coil' });
  });

  test('a 12 V coil pulls in by 7.2 V and drops out at 1.2 V when nothing is recorded; typical relay sheet', () => {
    const coil = elementOf(relay({}), 'K2:coil');
    expect(coil.coil).toEqual({ pullInVolts: 7.2, dropOutVolts: 1.2 });
    expect(coil.law).toEqual({ kind: 'ohmic', ohms: 100 });
    expect(coil.defaults).toEqual(['relay.coilOhms.12', 'relay.dropOutVolts.12', 'relay.pullInVolts.12']);
  });

  test('recorded figures lean on no default', () => {
    const recorded = relay({ coilOhms: 85, pullInVolts: 8, dropOutVolts: 1.5 });
    expect(elementOf(recorded, 'K2:coil')).toMatchObject({ law: { ohms: 85 }, defaults: [] });
  });

  test('87 makes and 87a breaks, both from 30', () => {
    const graph = relay({ contacts: 'change-over' });
    expect(elementOf(graph, 'K2:30-87')).toMatchObject({
      a: 'K2.body/30',
      b: 'K2.body/87',
      gates: [{ kind: 'coil', coil: 'K2:coil', when: 'pulled' }],
    });
    expect(elementOf(graph, 'K2:30-87a').gates).toEqual([{ kind: 'coil', coil: 'K2:coil', when: 'released' }]);
  });

  test('twin make closes 87 and 87b together', () => {
    const graph = relay({ contacts: 'twin-make' });
    for (const id of ['K2:30-87', 'K2:30-87b']) expect(elementOf(graph, id).gates).toMatchObject([{ when: 'pulled' }]);
  });

  test('a built-in fuse stands between 30 and the contact', () => {
    const graph = relay({ fuseRatingAmps: 20 });
    expect(elementOf(graph, 'K2:fuse')).toMatchObject({
      a: 'K2.body/30',
      b: 'K2:inner',
      protection: { ratingAmps: 20, style: 'fuse' },
    });
    expect(elementOf(graph, 'K2:30-87').a).toBe('K2:inner');
  });

  test('the coil diode has its cathode on 86, or where it was fitted the wrong way round', () => {
    const right = elementOf(relay({ suppressor: { style: 'diode' } }), 'K2:suppressor');
    expect([right.a, right.b]).toEqual(['K2.body/85', 'K2.body/86']);
    const wrong = elementOf(relay({ suppressor: { style: 'diode', cathode: '85' } }), 'K2:suppressor');
    expect([wrong.a, wrong.b]).toEqual(['K2.body/86', 'K2.body/85']);
  });

  test('pulled from its socket, only its contacts part', () => {
    const graph = relay({});
    expect(elementOf(graph, 'K2:87')).toMatchObject({
      a: 'K2/87',
      b: 'K2.body/87',
      role: 'mating',
      gates: [{ kind: 'mated', part: 'K2' }],
    });
  });
});

describe('switch', () => {
  test('one contact per pair of terminals, closed in every position that joins them', () => {
    const graph = graphOf([
      {
        address: 'S3',
        kind: 'switch',
        style: 'rotary',
        positions: [
          { name: 'off', joins: [] },
          { name: 'side', joins: [['30', '58']] },
          { name: 'head', joins: [['30', '58', '56']] },
        ],
      },
    ]);
    expect([...graph.elements.keys()]).toEqual(['S3:30-58', 'S3:30-56']);
    expect(elementOf(graph, 'S3:30-58').gates).toEqual([{ kind: 'position', part: 'S3', closedIn: ['side', 'head'] }]);
    expect(elementOf(graph, 'S3:30-56').gates).toEqual([{ kind: 'position', part: 'S3', closedIn: ['head'] }]);
    expect(graph.positioned.get('S3')).toEqual({ part: 'S3', positions: ['off', 'side', 'head'], rest: 'off' });
  });

  test('a pair written the other way round is the same contact', () => {
    const positions = [
      { name: 'off', joins: [] },
      { name: 'low', joins: [['1', '2']] },
      {
        name: 'high',
        joins: [
          ['2', '1'],
          ['1', '2'],
        ],
      },
    ];
    const graph = graphOf([{ address: 'S3', kind: 'switch', positions }]);
    expect([...graph.elements.keys()]).toEqual(['S3:1-2']);
    expect(elementOf(graph, 'S3:1-2').gates).toMatchObject([{ closedIn: ['low', 'high'] }]);
  });

  test('ignition: 30 feeds 15 while on and while cranking, 50 only while cranking', () => {
    const graph = graphOf([{ address: 'S1', kind: 'switch', style: 'ignition' }]);
    expect(elementOf(graph, 'S1:30-15').gates).toMatchObject([{ closedIn: ['on', 'start'] }]);
    expect(elementOf(graph, 'S1:30-50').gates).toMatchObject([{ closedIn: ['start'] }]);
  });
});

describe('starter', () => {
  const graph = graphOf([
    { address: 'ENGINE', kind: 'body' },
    { address: 'ST1', kind: 'starter', caseOn: 'ENGINE', crankAmps: 120 },
  ]);

  test('50 works the solenoid, which closes 30 to the motor; both return through the case', () => {
    expect(elementOf(graph, 'ST1:coil')).toMatchObject({ a: 'ST1/50', b: 'ST1/case' });
    expect(elementOf(graph, 'ST1:contact')).toMatchObject({ a: 'ST1/30', b: 'ST1:inner' });
    expect(elementOf(graph, 'ST1:contact').gates).toEqual([{ kind: 'coil', coil: 'ST1:coil', when: 'pulled' }]);
    expect(elementOf(graph, 'ST1:motor')).toMatchObject({ a: 'ST1:inner', b: 'ST1/case', law: { ratedAmps: 120 } });
    expect(elementOf(graph, 'ST1:case')).toMatchObject({ a: 'ST1/case', b: 'ENGINE', role: 'joint' });
  });

  test('its motor is a function, its coil is not', () => {
    expect([...graph.functions.keys()]).toEqual(['ST1']);
    expect(graph.functions.get('ST1')).toMatchObject({ element: 'ST1:motor', law: 'motor' });
  });
});

describe('alternator', () => {
  const graph = graphOf([{ address: 'ALT1', kind: 'alternator', regulatedVolts: 14.4, limitAmps: 45, rotorOhms: 3.5 }]);

  test('turning: a regulated source from 31 to B+, and 61 near B+ so that the charge lamp goes out', () => {
    expect(elementOf(graph, 'ALT1:output')).toMatchObject({
      a: 'ALT1/B+',
      b: 'ALT1/31',
      law: { kind: 'regulated', volts: 14.4, limitAmps: 45, sense: null },
      gates: [{ kind: 'turning', part: 'ALT1' }],
    });
    expect(elementOf(graph, 'ALT1:exciter')).toMatchObject({
      a: 'ALT1/B+',
      b: 'ALT1/61',
      gates: [{ kind: 'turning' }],
    });
  });

  test('standing: the charge lamp sees the rotor at 61', () => {
    expect(elementOf(graph, 'ALT1:rotor')).toMatchObject({
      a: 'ALT1/61',
      b: 'ALT1/31',
      law: { kind: 'ohmic', ohms: 3.5 },
      gates: [{ kind: 'standing', part: 'ALT1' }],
    });
  });
});

test('flasher: 49 in, 49a out, its own drive to 31', () => {
  const graph = graphOf([{ address: 'FL1', kind: 'flasher', mount: 'wired' }]);
  expect(elementOf(graph, 'FL1:49-49a')).toMatchObject({
    a: 'FL1/49',
    b: 'FL1/49a',
    gates: [{ kind: 'lit', part: 'FL1' }],
  });
  expect(elementOf(graph, 'FL1:drive')).toMatchObject({ a: 'FL1/49', b: 'FL1/31' });
});
