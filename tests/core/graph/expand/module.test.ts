// A control module by its pins.

import { describe, expect, test } from 'vitest';
import { elementOf, graphOf } from '../support.js';

const graph = graphOf([
  {
    address: 'M1',
    kind: 'module',
    supplies: [
      { terminal: 'VB', idleAmps: 0.05, minimumVolts: 6 },
      { terminal: 'IGN', role: 'switched' },
    ],
    grounds: [{ terminal: 'GND' }, { terminal: 'SGND', role: 'sensor' }],
    outputs: [
      { terminal: 'PUMP', side: 'high', from: 'IGN', onOhms: 0.03, limitAmps: 12, tripsAtAmps: 15, on: 'IN1' },
      { terminal: 'FAN', side: 'low', pulsed: true },
    ],
    inputs: [
      { terminal: 'IN1', pull: 'up', pullOhms: 2200 },
      { terminal: 'IN2', pull: 'down' },
      { terminal: 'TEMP', pull: 'up', pullVolts: 5, pullOhms: 1000 },
      { terminal: 'RAW', pull: 'none' },
    ],
    sensorSupplies: [{ terminal: '5V', ground: 'SGND', limitAmps: 0.05 }],
  },
]);
const AWAKE = [{ kind: 'awake', module: 'M1' }];

describe('module', () => {
  test('a high-side output closes from its supply, a low-side one to the first ground', () => {
    expect(elementOf(graph, 'M1:PUMP-driver')).toMatchObject({
      a: 'M1.body/IGN',
      b: 'M1.body/PUMP',
      role: 'output',
      law: { kind: 'ohmic', ohms: 0.03 },
      gates: [{ kind: 'output', module: 'M1', terminal: 'PUMP' }],
    });
    expect(elementOf(graph, 'M1:FAN-driver')).toMatchObject({ a: 'M1.body/FAN', b: 'M1.body/GND' });
  });

  test('the reverse diode feeds the module backwards through either output', () => {
    // High side: from the output back into the supply. Low side: from ground up into the output.
    expect(elementOf(graph, 'M1:PUMP-diode')).toMatchObject({ a: 'M1.body/PUMP', b: 'M1.body/IGN', gates: [] });
    expect(elementOf(graph, 'M1:FAN-diode')).toMatchObject({ a: 'M1.body/GND', b: 'M1.body/FAN' });
  });

  test('inputs have a level of their own: pulled up while awake, pulled down always', () => {
    expect(elementOf(graph, 'M1:IN1-pull')).toMatchObject({
      a: 'M1.body/VB',
      b: 'M1.body/IN1',
      law: { kind: 'ohmic', ohms: 2200 },
      gates: AWAKE,
    });
    expect(elementOf(graph, 'M1:IN2-pull')).toMatchObject({ a: 'M1.body/IN2', b: 'M1.body/GND', gates: [] });
    expect(elementOf(graph, 'M1:RAW-pull')).toMatchObject({ a: 'M1.body/RAW', b: 'M1.body/GND', gates: [] });
  });

  test('an internal 5 V pull-up is a source behind its resistor that never limits', () => {
    const { law, gates } = elementOf(graph, 'M1:TEMP-pull');
    expect(gates).toEqual(AWAKE);
    expect(law).toMatchObject({ kind: 'regulated', volts: 5, ohms: 1000 });
    if (law.kind === 'regulated') expect(law.limitAmps).toBeGreaterThan(5 / 1000);
  });

  test('the sensor supply is regulated against its own ground, which the board ties to the first', () => {
    expect(elementOf(graph, 'M1:5V-supply')).toMatchObject({
      a: 'M1.body/5V',
      b: 'M1.body/SGND',
      law: { kind: 'regulated', volts: 5, limitAmps: 0.05 },
      gates: AWAKE,
    });
    expect(elementOf(graph, 'M1:SGND-tie')).toMatchObject({ a: 'M1.body/SGND', b: 'M1.body/GND' });
  });

  test('each supply draws its idle current while awake; that is no function', () => {
    expect(elementOf(graph, 'M1:VB-idle')).toMatchObject({
      a: 'M1.body/VB',
      b: 'M1.body/GND',
      law: { kind: 'draw', amps: 0.05, minimumVolts: 6 },
      gates: AWAKE,
    });
    expect(graph.functions.size).toBe(0);
  });

  test('tells the circuit what wakes it and what it switches', () => {
    expect(graph.modules.get('M1')).toMatchObject({
      supplies: [{ point: 'M1.body/VB', minimumVolts: 6 }, { point: 'M1.body/IGN' }],
      grounds: ['M1.body/GND', 'M1.body/SGND'],
      inputs: [
        { terminal: 'IN1', point: 'M1.body/IN1', ground: 'M1.body/GND', thresholdVolts: 6, active: 'low' },
        { terminal: 'IN2', active: 'high' },
        { terminal: 'TEMP', thresholdVolts: 2.5, active: 'low' },
        { terminal: 'RAW', active: 'high' },
      ],
      outputs: [
        { terminal: 'PUMP', element: 'M1:PUMP-driver', on: 'IN1', limitAmps: 12, tripsAtAmps: 15, pulsed: false },
        { terminal: 'FAN', element: 'M1:FAN-driver', on: null, tripsAtAmps: null, pulsed: true },
      ],
    });
    for (const output of graph.modules.get('M1')?.outputs ?? []) elementOf(graph, output.element);
  });
});
