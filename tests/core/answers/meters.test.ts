// What the meters show: digits and ranges, ghosts through damp, a diode under the ohmmeter, a lamp in series; worked by hand.

import { describe, expect, it } from 'vitest';
import { displayText } from '../../../src/core/answers/display.js';
import { buildModel } from '../../../src/core/answers/model.js';
import { answerReadings, type ReadingsQuestion } from '../../../src/core/answers/readings.js';
import { resolveState } from '../../../src/core/circuit/resolve-state.js';
import type { HarnessRecord } from '../../../src/core/record/record.js';
import type { OperatingState } from '../../../src/core/record/state.js';
import { fixtureModel, fixtureRecord, stateOf } from '../../support/fixture-model.js';

const wire = (label: string, from: string, to: string) => ({ label, from, to, size: '1.5 mm²', lengthMetres: 1 });

/** Battery, a diode and a resistor in series to ground, and a resistor that feeds an open end through many ohms. */
const bench: HarnessRecord = {
  format: 'lastgood-record/1',
  name: 'meter bench',
  systemVolts: 12,
  reference: 'BAT1/neg',
  parts: [
    { kind: 'battery', address: 'BAT1', emfVolts: 12, internalOhms: 0.01 },
    { kind: 'resistor', address: 'R1', resistanceOhms: 36 },
    { kind: 'resistor', address: 'R2', resistanceOhms: 1e6 },
    { kind: 'diode', address: 'D1' },
    { kind: 'resistor', address: 'R3', resistanceOhms: 470 },
  ],
  wires: [
    wire('L1', 'BAT1/pos', 'R1/1'),
    wire('L2', 'BAT1/pos', 'R2/1'),
    wire('L3', 'D1/k', 'R3/1'),
    wire('L4', 'R3/2', 'BAT1/neg'),
  ],
};

function ask(
  record: HarnessRecord,
  question: Omit<ReadingsQuestion, 'state'>,
  state: Omit<OperatingState, 'name'> = {},
) {
  const model = buildModel(record);
  const resolved = resolveState(model.graph, { name: 'test', ...state });
  if (!resolved.ok) throw new Error(JSON.stringify(resolved.issues));
  return answerReadings(model, { ...question, state: resolved.state });
}

describe('the display', () => {
  it.each([
    ['volts', 12.345, '12.35 V'],
    ['volts', -5.3619, '-5.362 V'],
    ['volts', 0.09417, '94.2 mV'],
    ['volts', 61.26, '61.3 V'],
    ['volts', -1e-9, '0.0 mV'],
    ['volts', 650, 'OL'],
    ['ohms', 0.13, '0.1 Ω'],
    ['ohms', 1234.4, '1.234 kΩ'],
    ['ohms', 7.2e4, '72.0 kΩ'],
    ['ohms', 1.5e6, '1.500 MΩ'],
    ['ohms', 6.1e7, 'OL'],
    ['amps', 1.7347, '1.735 A'],
    ['amps', 12.345, '12.35 A'],
  ] as const)('%s of %d: %s (6,000 counts on the lowest range that holds it)', (quantity, value, text) => {
    expect(displayText(quantity, value)).toBe(text);
  });

  it('goes with every reading; the meter’s own error widens the healthy band (0.5 % + 2 digits, worked by hand)', () => {
    const { readings } = ask(bench, { meter: 'voltmeter', pairs: [{ red: 'R1/1' }] });
    const [{ shows, connected }] = readings;
    expect(shows?.text).toBe('12.00 V');
    expect(shows?.errorPlusMinus).toBeCloseTo(0.06 + 0.02, 3);
    expect(shows?.low).toBeCloseTo((connected.low ?? 0) - 0.08, 3);
    expect(shows?.high).toBeCloseTo((connected.high ?? 0) + 0.08, 3);
  });

  it('of a clamp counts the drift of its zero', () => {
    const board = fixtureModel('bench-board');
    const state = stateOf(board, 'Lamp on');
    const [{ shows }] = answerReadings(board, { meter: 'clamp', pairs: [{ red: 'W7' }], state }).readings;
    expect(shows?.text).toMatch(/^1\.\d{3} A$/);
    expect(shows?.errorPlusMinus).toBeCloseTo(0.005 * 1.75 + 0.002 + 0.03, 3);
  });

  it('says OL where ohms have no way, and nothing for a lamp', () => {
    const open = ask(bench, { meter: 'ohmmeter', pairs: [{ red: 'R1/2' }] }).readings[0];
    expect(open.shows).toEqual({ text: 'OL', low: null, high: null, errorPlusMinus: null });
    expect(ask(bench, { meter: 'test-lamp', pairs: [{ red: 'R1/1' }] }).readings[0].shows).toBeNull();
  });
});

describe('weak points', () => {
  it('behind 1 MΩ: ten elevenths of 12 V on 10 MΩ, 36 mV on 3 kΩ (divider, worked by hand)', () => {
    const high = ask(bench, { meter: 'voltmeter', pairs: [{ red: 'R2/2' }] }).readings[0];
    expect(high.connected.nominal).toBeCloseTo((12 * 10) / 11, 3);
    expect(high.note).toMatch(/weakly tied/);
    const low = ask(bench, { meter: 'low-impedance-voltmeter', pairs: [{ red: 'R2/2' }] }).readings[0];
    expect(low.connected.nominal).toBeCloseTo((12 * 3) / 1003, 4);
    expect(low.shows?.text).toBe('35.9 mV');
  });
});

describe('ghost volts', () => {
  /** The bench board with a wet plug, unplugged, and its ground wire off: the cavity beside the live one floats. */
  const wetBoard = (exposure: 'dry' | 'salt') => {
    const record = fixtureRecord('bench-board');
    const parts = record.parts.map((part) => (part.address === 'X1' ? { ...part, exposure } : part));
    const pairs = [{ red: 'X1.receptacle/2' }];
    const read = (meter: 'voltmeter' | 'low-impedance-voltmeter' | 'test-lamp') =>
      ask({ ...record, parts }, { meter, pairs }, { positions: { S1: 'on' }, unplugged: ['X1'], detached: ['W10'] })
        .readings[0];
    return read;
  };

  it('through 1 MΩ of damp from the live neighbour: ten elevenths of its volts on 10 MΩ, nothing on a lamp', () => {
    const read = wetBoard('salt');
    const reading = read('voltmeter');
    expect(reading.floating).toBe(true);
    expect(reading.connected.nominal).toBeCloseTo(0, 6);
    expect(reading.ghostVolts).toBeCloseTo((12.6 * 10) / 11, 1);
    expect(reading.note).toMatch(/damp towards X1\.receptacle\/1 .*11\.\d V/);
    expect(reading.shows?.high).toBeGreaterThan(11);
    expect(read('low-impedance-voltmeter').ghostVolts).toBeCloseTo((12.6 * 3) / 1003, 2);
    expect(read('test-lamp').lamp).toBe('dark');
  });

  it('none where it is recorded dry', () => {
    expect(wetBoard('dry')('voltmeter').ghostVolts).toBe(0);
  });

  it('none on a point that is tied', () => {
    const board = fixtureModel('bench-board');
    const state = stateOf(board, 'Lamp on');
    const pairs = [{ red: 'E1/feed' }];
    expect(answerReadings(board, { meter: 'voltmeter', pairs, state }).readings[0].ghostVolts).toBeNull();
  });
});

describe('an ohmmeter over a diode', () => {
  const ohms = (red: string, black: string) => ask(bench, { meter: 'ohmmeter', pairs: [{ red, black }] }).readings[0];

  it('opens it with red on the anode: 2 V behind 2 kΩ, less 0.7 V, over the current that flows (worked by hand)', () => {
    const amps = (2 - 0.7) / (2000 + 470.05);
    const reading = ohms('D1/a', 'R3/2');
    expect(reading.connected.nominal).toBeCloseTo(0.7 / amps + 470.05 + 0.1, 0);
    expect(reading.note).toMatch(/diode \(D1:diode\) is on the way and conducts/);
    expect(reading.connected.bandBasis).toBe('none');
  });

  it('leaves it closed the other way round: its leak alone', () => {
    const reading = ohms('R3/2', 'D1/a');
    expect(reading.connected.nominal).toBeGreaterThan(0.9e6);
    expect(reading.note).toMatch(/does not conduct this way round.*leads exchanged/);
  });
});

describe('a test lamp in series', () => {
  it('with 36 Ω: volts where lamp and resistor draw alike, I = 0.25 A (V / 12)^0.55; dim, neither bright nor dark', () => {
    const reading = ask(bench, { meter: 'test-lamp', pairs: [{ red: 'R1/2' }] }).readings[0];
    const volts = reading.connected.nominal ?? Number.NaN;
    expect(0.25 * (volts / 12) ** 0.55).toBeCloseTo((12 - volts) / 36, 3);
    expect(reading.lamp).toBe('dim');
  });

  it('is dark behind 1 MΩ, where a voltmeter reads eleven volts', () => {
    expect(ask(bench, { meter: 'test-lamp', pairs: [{ red: 'R2/2' }] }).readings[0].lamp).toBe('dark');
  });
});

describe('values measured on the harness', () => {
  const board = fixtureModel('bench-board');
  const state = stateOf(board, 'Lamp on');
  const pairs = [{ red: 'E1/feed' }, { red: 'BAT1/pos' }];
  const plain = answerReadings(board, { meter: 'voltmeter', pairs, state });
  const width = ({ connected }: (typeof plain.readings)[number]): number =>
    (connected.high ?? 0) - (connected.low ?? 0);

  it('a battery measured at 12.00 V: shown as such, and all bands shrink to the meter’s own error and what lies between', () => {
    const value = 12;
    const { readings, measured } = answerReadings(board, {
      meter: 'voltmeter',
      pairs,
      state,
      measured: [{ kind: 'battery', battery: 'BAT1', value }],
    });
    expect(readings[1].connected.nominal).toBeCloseTo(12, 3);
    // 0.5 % and 2 digits are 0.08 V at most: a rectangle of that half width has a deviation of 0.0462 V (JCGM 100:2008, 4.3.7).
    expect(width(readings[1])).toBeCloseTo(2 * 1.96 * 0.0462, 2);
    expect(width(readings[0])).toBeLessThan(width(plain.readings[0]));
    expect(readings[0].connected.nominal ?? 0).toBeLessThan((plain.readings[0].connected.nominal ?? 0) - 0.5);
    expect(measured[0].accuracy).toBeCloseTo(0.08, 9);
    expect(measured[0].fits).toBe(false);
    expect(measured[0].expected.low).toBeGreaterThan(12.2);
  });

  it('a better meter narrows more', () => {
    const value = 12.5;
    const widths = [0.08, 0.008].map((accuracy) =>
      width(
        answerReadings(board, {
          meter: 'voltmeter',
          pairs,
          state,
          measured: [{ kind: 'volts', red: 'BAT1/pos', value, accuracy }],
        }).readings[1],
      ),
    );
    expect(widths[1]).toBeLessThan(widths[0] / 5);
  });

  it('a measured current shifts the current and what it drops; with the load unplugged its drop is nought as before', () => {
    const known = { kind: 'amps', at: 'W7', value: 1.9, accuracy: 0.01 } as const;
    const clamp = { meter: 'clamp', pairs: [{ red: 'W8' }], state } as const;
    const [{ connected }] = answerReadings(board, { ...clamp, measured: [known] }).readings;
    expect(connected.nominal).toBeCloseTo(1.9, 2);
    expect((connected.high ?? 9) - (connected.low ?? 0)).toBeLessThan(0.05);
    const drop = { meter: 'voltmeter', pairs: [{ red: 'BAT1/pos', black: 'E1/feed' }], state } as const;
    const [before] = answerReadings(board, drop).readings;
    const [after] = answerReadings(board, { ...drop, measured: [known] }).readings;
    expect(after.connected.nominal ?? 0).toBeGreaterThan((before.connected.nominal ?? 9) * 1.02);
  });

  it('that fit a healthy harness are said to', () => {
    const value = plain.readings[0].connected.nominal ?? 0;
    const { measured } = answerReadings(board, {
      meter: 'voltmeter',
      pairs,
      state,
      measured: [{ kind: 'volts', red: 'E1/feed', value }],
    });
    expect(measured[0].fits).toBe(true);
  });

  it('on a floating point says nothing, and no reading changes', () => {
    const pulled = stateOf(board, 'Lamp plug pulled');
    const question = { meter: 'voltmeter', pairs: [{ red: 'X1.receptacle/1' }], state: pulled } as const;
    const measured = [{ kind: 'volts', red: 'E1/feed', value: 4 }] as const;
    const answer = answerReadings(board, { ...question, measured });
    expect(answer.readings).toEqual(answerReadings(board, question).readings);
    expect(answer.measured[0].expected.nominal).toBeNull();
  });
});
