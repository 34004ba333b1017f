// Numbers as people read them. Digits of volts: a 6,000-count meter on its 0.6, 6 and 60 V ranges (common practice).

import { describe, expect, it } from 'vitest';
import {
  formatAmps,
  formatCelsius,
  formatMetres,
  formatOhms,
  formatPercent,
  formatSeconds,
  formatVolts,
  formatWatts,
} from '../../../src/core/units/format.js';

describe('format', () => {
  it.each([
    [12.345, '12.35 V'],
    [12, '12 V'],
    [5.3617, '5.362 V'],
    [0.9416, '0.942 V'],
    [0.0942, '94.2 mV'],
    [-0.0942, '-94.2 mV'],
    [-0.00001, '0 mV'],
    [0, '0 mV'],
    [115.04, '115 V'],
  ])('%d V is shown as %s', (volts, text) => {
    expect(formatVolts(volts)).toBe(text);
  });

  it.each([
    [4700, '4.7 kΩ'],
    [0.012, '12 mΩ'],
    [0.5, '500 mΩ'],
    [7.123, '7.12 Ω'],
    [999.9, '1 kΩ'],
    [1e6, '1 MΩ'],
    [1e10, '10 GΩ'],
    [0, '0 Ω'],
    [0.0005, '500 µΩ'],
  ])('%d Ω is shown as %s', (ohms, text) => {
    expect(formatOhms(ohms)).toBe(text);
  });

  it.each([
    [0.25, '250 mA'],
    [15, '15 A'],
    [0.9996, '1 A'],
    [1234, '1.23 kA'],
    [-0.25, '-250 mA'],
    [0, '0 A'],
  ])('%d A is shown as %s', (amps, text) => {
    expect(formatAmps(amps)).toBe(text);
  });

  it('shows the other quantities', () => {
    expect(formatMetres(1.3)).toBe('1.3 m');
    expect(formatMetres(0.025)).toBe('25 mm');
    expect(formatWatts(55)).toBe('55 W');
    expect(formatWatts(1200)).toBe('1.2 kW');
    expect(formatCelsius(25)).toBe('25 °C');
    expect(formatPercent(3.47)).toBe('3.5 %');
    expect(formatSeconds(0.02)).toBe('20 ms');
    expect(formatSeconds(600)).toBe('10 min');
    expect(formatSeconds(360_000)).toBe('100 h');
  });

  it('never shows NaN or Infinity', () => {
    for (const format of [formatVolts, formatAmps, formatOhms, formatMetres, formatWatts, formatSeconds]) {
      expect(format(Number.NaN)).toBe('n/a');
      expect(format(Number.POSITIVE_INFINITY)).toBe('n/a');
    }
  });
});
