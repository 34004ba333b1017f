/**
 * What stands on the display of a meter: digits of its range, OL beyond the last, and how far the meter itself may be off.
 * It must not read the circuit.
 */
import type { Shown } from './meter.js';
import { COUNTS, clampError, meterError, type RANGE_ENDS, rangeEnd } from './meter-data.js';
import type { Display, MeterKind } from './shapes/readings.js';

type Quantity = keyof typeof RANGE_ENDS;

const QUANTITIES: { readonly [K in Exclude<MeterKind, 'test-lamp'>]: Quantity } = {
  voltmeter: 'volts',
  'low-impedance-voltmeter': 'volts',
  ohmmeter: 'ohms',
  clamp: 'amps',
};
const SYMBOLS = { volts: 'V', ohms: 'Ω', amps: 'A' } as const;

const OVER_LIMIT: Display = { text: 'OL', low: null, high: null, errorPlusMinus: null };

/** Null for a lamp, and where there is nothing definite to show. */
export function displayOf(meter: MeterKind, { value, band, ghostVolts, overLimit }: Shown): Display | null {
  if (meter === 'test-lamp') return null;
  if (overLimit) return OVER_LIMIT;
  if (value === null) return null;
  const quantity = QUANTITIES[meter];
  const error = meterError(quantity, value);
  if (error === null) return OVER_LIMIT;
  const errorPlusMinus = meter === 'clamp' ? clampError(value) : error;
  const ghost = ghostVolts ?? 0;
  const low = band === null && ghostVolts !== null ? Math.min(value, ghost) : (band?.low ?? null);
  const high = band === null && ghostVolts !== null ? Math.max(value, ghost) : (band?.high ?? null);
  return {
    text: displayText(quantity, value),
    low: low === null ? null : low - errorPlusMinus,
    high: high === null ? null : high + errorPlusMinus,
    errorPlusMinus,
  };
}

/** Digits of the lowest range that holds the value: 12.34 V, 94.2 mV, 1.234 kΩ; OL beyond the last. */
export function displayText(quantity: Quantity, value: number): string {
  const end = rangeEnd(quantity, value);
  if (end === null) return 'OL';
  const [perUnit, prefix] = end < 1 ? [1e-3, 'm'] : end < 1e3 ? [1, ''] : end < 1e6 ? [1e3, 'k'] : [1e6, 'M'];
  const digit = end / COUNTS / perUnit;
  const decimals = Math.max(0, -Math.floor(Math.log10(digit) + 1e-9));
  const text = (Math.round(value / perUnit / digit) * digit).toFixed(decimals);
  return `${Number(text) === 0 ? text.replace('-', '') : text} ${prefix}${SYMBOLS[quantity]}`;
}
