// What the meters of the trade are: input resistances, ranges, accuracy. A data table.
// It must not compute readings.

/** Ohms between the leads of a voltmeter: 10 MΩ (Lessons In Electric Circuits vol. I, ch. 8); low-impedance mode some kΩ (common practice). */
export const METER_OHMS = { voltmeter: 10e6, 'low-impedance-voltmeter': 3e3 } as const;

/** Common hand-held ohmmeter (common practice): highest range, volts with open leads, most test current, lead resistance. */
export const OHMMETER = {
  limitOhms: 60e6,
  openVolts: 2,
  mostAmps: 1e-3,
  leadOhms: 0.1,
  /** More than this between the points means that the circuit is live: ohms are refused. */
  liveVolts: 0.01,
} as const;

/** A 12 V, 3 W lamp, in the middle of the 2 to 5 W of the trade; 24 V systems use a 24 V lamp of the same power. */
export const TEST_LAMP = { watts: 3, hotOverCold: 12, brightShare: 0.6, dimShare: 0.15 } as const;

/** Drift of a DC clamp's zero, amps (common practice: some tens of milliamps after zeroing). */
export const CLAMP_ZERO_AMPS = 0.03;

/** Leak between two neighbours that are damp, ohms (order of magnitude from memory; dry insulation is far above). */
export const DAMP_OHMS = 1e6;

/** A meter of 6,000 counts: the last digit of a range is its end over 6,000. 0.5 % + 2 digits (common data-sheet figures). */
export const COUNTS = 6_000;
export const RANGE_ENDS = {
  volts: [0.6, 6, 60, 600],
  ohms: [600, 6e3, 60e3, 600e3, 6e6, 60e6],
  amps: [6, 60, 600],
} as const;
const SHARE = 0.005;
const DIGITS = 2;

/** End of the lowest range that holds a value; null beyond the last. */
export function rangeEnd(quantity: keyof typeof RANGE_ENDS, value: number): number | null {
  return RANGE_ENDS[quantity].find((end) => Math.abs(value) <= end) ?? null;
}

/** Largest error of a reading on the lowest range that holds it; null beyond the last range. */
export function meterError(quantity: keyof typeof RANGE_ENDS, value: number): number | null {
  const end = rangeEnd(quantity, value);
  return end === null ? null : SHARE * Math.abs(value) + (DIGITS * end) / COUNTS;
}

/** Largest error of a DC clamp: that of its meter, and the drift of its zero. Throws beyond its ranges. */
export function clampError(value: number): number {
  return instrumentError('amps', value) + CLAMP_ZERO_AMPS;
}

/** As `meterError`, of a value that a meter has shown. */
export function instrumentError(quantity: keyof typeof RANGE_ENDS, value: number): number {
  const error = meterError(quantity, value);
  if (error === null) throw new RangeError(`${value} is beyond the ranges of a meter for ${quantity}`);
  return error;
}
