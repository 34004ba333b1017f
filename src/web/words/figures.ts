// Figures as a hand-held meter of 6,000 counts would show them, and bands as words.
// It must not round what is sent to the API; it is for reading only.

import type { Predicted } from '../api/types.js';

/** `12.43 V`, `412 mV`, `0 mV`: two decimals from 6 V on, three below, millivolts under 0.6 V. */
export function voltsText(volts: number | null | undefined): string {
  if (volts === null || volts === undefined) return 'floats';
  const size = Math.abs(volts);
  if (size < 0.6) {
    const milli = volts * 1000;
    const text = Math.abs(milli) < 10 ? milli.toFixed(1) : milli.toFixed(0);
    return `${minus(zeroless(text))}\u00a0mV`;
  }
  return `${minus(volts.toFixed(size < 6 ? 3 : 2))}\u00a0V`;
}

/** Always in volts, for columns that are compared. */
export const plainVolts = (volts: number): string => `${minus(volts.toFixed(2))}\u00a0V`;

export function ampsText(amps: number | null | undefined): string {
  if (amps === null || amps === undefined) return 'not known';
  const size = Math.abs(amps);
  if (size < 1e-6) return '0 A';
  if (size < 1) return `${minus((amps * 1000).toFixed(size < 0.01 ? 2 : 0))}\u00a0mA`;
  return `${minus(amps.toFixed(size < 10 ? 2 : size < 100 ? 1 : 0))}\u00a0A`;
}

export function ohmsText(ohms: number | null | undefined): string {
  if (ohms === null || ohms === undefined) return 'OL';
  const size = Math.abs(ohms);
  if (size < 0.1) return `${(ohms * 1000).toFixed(1)}\u00a0mΩ`;
  if (size < 600) return `${ohms.toFixed(size < 10 ? 2 : 1)}\u00a0Ω`;
  if (size < 6e5) return `${(ohms / 1000).toFixed(2)}\u00a0kΩ`;
  return `${(ohms / 1e6).toFixed(2)}\u00a0MΩ`;
}

export function figureText(value: number | null, unit: 'V' | 'Ω' | 'A' | 'lamp'): string {
  if (unit === 'Ω') return ohmsText(value);
  if (unit === 'A') return ampsText(value);
  return voltsText(value);
}

/** `12.31 to 12.52 V`, or null where no band is known. */
export function bandText(
  predicted: Pick<Predicted, 'low' | 'high'>,
  unit: 'V' | 'Ω' | 'A' | 'lamp' = 'V',
): string | null {
  const { low, high } = predicted;
  if (low === null || high === null) return null;
  return `${figureText(low, unit)} to ${figureText(high, unit)}`;
}

export function shareText(share: number): string {
  const percent = share * 100;
  return percent >= 99.5
    ? 'all of the current'
    : `${percent < 1 ? percent.toFixed(1) : percent.toFixed(0)} % of the current`;
}

/** Under this no hand-held meter can be trusted to tell good from bad. */
export const tooSmallToJudgeVolts = 0.005;

const minus = (text: string): string => text.replace(/^-/, '−');
const zeroless = (text: string): string => text.replace(/^-(0(\.0+)?)$/, '$1');
