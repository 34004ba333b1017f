// What the meter should read: loaded and unloaded, floating points, ohms, clamp, test lamp, profile.

import { describe, expect, it } from 'vitest';
import { meterError } from '../../../src/core/answers/meter-data.js';
import { answerProfile } from '../../../src/core/answers/profile.js';
import { answerReadings } from '../../../src/core/answers/readings.js';
import { profileSchema, readingsSchema } from '../../../src/core/answers/shapes/readings.js';
import { fixtureModel, functionOf, stateOf } from '../../support/fixture-model.js';

const board = fixtureModel('bench-board');
const read = (
  red: string,
  state: string,
  meter: 'voltmeter' | 'ohmmeter' | 'clamp' | 'test-lamp' | 'low-impedance-voltmeter' = 'voltmeter',
  black?: string,
) => {
  const pair = black === undefined ? { red } : { red, black };
  const answer = answerReadings(board, { pairs: [pair], state: stateOf(board, state), meter });
  expect(readingsSchema.parse(answer)).toEqual(answer);
  return answer.readings[0];
};

describe('readings on the bench board', () => {
  it('shows less at the lamp loaded than with the lamp out: the drop needs its current', () => {
    const reading = read('E1/feed', 'Lamp on');
    expect(reading.connected.nominal).toBeGreaterThan(12.3);
    expect(reading.loadUnplugged?.nominal ?? 0).toBeGreaterThan(reading.connected.nominal ?? 99);
  });

  it('reads 0 V at both ends of the dead lamp with the switch off', () => {
    expect(read('E1/feed', 'Off').connected.nominal).toBeCloseTo(0, 6);
  });

  it('calls a point floating once its plug is out, and the meter alone pulls it to 0 V', () => {
    const reading = read('E1/feed', 'Lamp plug pulled');
    expect(reading.floating).toBe(true);
    expect(reading.connected.nominal).toBeCloseTo(0, 9);
  });

  it('refuses ohms on a live circuit and says what to do (common practice)', () => {
    const reading = read('F1/in', 'Lamp on', 'ohmmeter');
    expect(reading.connected.nominal).toBeNull();
    expect(reading.note).toMatch(/live/);
  });

  it('reads the cold filament in ohms with the plug out: about a tenth to a fifteenth of hot (encyclopedia, incandescent lamp)', () => {
    const cold = read('E1/feed', 'Lamp plug pulled', 'ohmmeter', 'E1/return').connected.nominal ?? Number.NaN;
    const fn = functionOf(board, 'E1');
    const hot = fn.ratedVolts / fn.ratedAmps;
    expect(cold).toBeGreaterThan(hot / 16);
    expect(cold).toBeLessThan(hot / 8);
  });

  it('clamps the lamp current on its own wire', () => {
    const amps = read('W7', 'Lamp on', 'clamp').connected.nominal ?? 0;
    expect(Math.abs(amps)).toBeGreaterThan(1.5);
    expect(Math.abs(amps)).toBeLessThan(2);
  });

  it('lights a test lamp brightly at the fed plug and leaves it dark behind the open one', () => {
    expect(read('X1.receptacle/1', 'Lamp plug pulled', 'test-lamp').lamp).toBe('bright');
    expect(read('X1.plug/1', 'Lamp plug pulled', 'test-lamp').lamp).toBe('dark');
  });
});

describe('bands of readings', () => {
  it('lie around what is shown, by adjoint sensitivities, with the load and without', () => {
    const { connected, loadUnplugged } = read('E1/feed', 'Lamp on');
    for (const told of [connected, loadUnplugged]) {
      expect(told?.bandBasis).toBe('adjoint');
      expect(told?.low ?? 99).toBeLessThan(told?.nominal ?? Number.NaN);
      expect(told?.high ?? 0).toBeGreaterThan(told?.nominal ?? Number.NaN);
    }
  });

  it('are told for amps and for ohms', () => {
    for (const told of [read('W7', 'Lamp on', 'clamp'), read('E1/feed', 'Lamp plug pulled', 'ohmmeter', 'E1/return')]) {
      expect(told.connected.bandBasis).toBe('adjoint');
      expect(Math.abs(told.connected.high ?? 0)).not.toBe(Math.abs(told.connected.low ?? 0));
    }
  });

  it('are not told for a point that the meter alone holds', () => {
    expect(read('E1/feed', 'Lamp plug pulled').connected.bandBasis).toBe('none');
  });
});

describe('meters as the trade has them', () => {
  it('6,000 counts, 0.5 % and 2 digits: 12.00 V on the 60 V range is known to 0.08 V (worked by hand)', () => {
    expect(meterError('volts', 12)).toBeCloseTo(0.06 + 0.02, 12);
    expect(meterError('volts', 0.5)).toBeCloseTo(0.0025 + 0.0002, 12);
    expect(meterError('volts', 700)).toBeNull();
  });

  it('counts the leads of the ohmmeter over a fuse, and says so', () => {
    const reading = read('F1/in', 'Lamp plug pulled', 'ohmmeter', 'F1/in');
    expect(reading.connected.nominal).toBeCloseTo(0.1, 6);
    expect(reading.note).toMatch(/leads/);
  });

  it('shows millivolts over a fuse that carries the lamp: its amps times its ohms', () => {
    const { circuit } = board;
    const link = circuit.network.elements.find(({ id }) => id === 'F1:link');
    const fuseOhms = link?.law.kind === 'ohmic' ? link.law.ohms : Number.NaN;
    const amps = read('W7', 'Lamp on', 'clamp').connected.nominal ?? Number.NaN;
    const shown = read(link?.a ?? '', 'Lamp on', 'voltmeter', link?.b).connected.nominal ?? Number.NaN;
    expect(shown).toBeGreaterThanOrEqual(0.99 * Math.abs(amps) * fuseOhms);
    expect(shown).toBeLessThan(2 * Math.abs(amps) * fuseOhms);
  });

  it('warns of a ghost voltage on a floating point', () => {
    expect(read('E1/feed', 'Lamp plug pulled').note).toMatch(/ghost/);
  });
});

describe('the voltage profile', () => {
  const profile = answerProfile(board, { function: functionOf(board, 'E1'), state: stateOf(board, 'Lamp on') });

  it('has the shape that the API publishes', () => {
    expect(profileSchema.parse(profile)).toEqual(profile);
  });

  it('never rises on the way from the battery to the lamp and home', () => {
    const volts = profile.points.map((point) => point.volts.nominal ?? Number.NaN);
    for (let i = 1; i < volts.length; i++) expect(volts[i]).toBeLessThanOrEqual(volts[i - 1]);
    expect(profile.points[0].point).toBe('BAT1/pos');
    expect(profile.points.at(-1)?.point).toBe('BAT1/neg');
  });

  it('gives each step its part, what it drops, and the customary limit, which a healthy board keeps', () => {
    for (const point of profile.points) {
      if (point.limitVolts !== null) expect(point.dropVolts?.nominal ?? 9).toBeLessThan(point.limitVolts);
    }
    expect(profile.points.some((point) => point.description?.startsWith('wire W7'))).toBe(true);
  });
});
