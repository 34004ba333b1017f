// Reads the quantities of a harness record as people write them: metres, volts, amperes, ohms, watts and their like.
// It must not know parts or defaults; a number as input is taken to be in the unit of the function's name.

import { footInchMetres, metreCentimetres } from './length-text.js';
import { type Measure, parseMeasure, prepareText, type QuantityOptions, withinSense } from './measure.js';
import { accept, type Parsed, quoteText, refuse } from './parsed.js';
import {
  AMP_HOURS,
  AMPS,
  CELSIUS,
  LENGTH,
  OHMS,
  PERCENT,
  SECONDS,
  SQUARE_MILLIMETRES,
  VOLTS,
  WATTS,
} from './quantity-tables.js';
import { resistorCode } from './resistor-code.js';

export type { QuantityOptions } from './measure.js';

const ABSOLUTE_ZERO_CELSIUS = -273.15;

/** Metres. Bare numbers are metres unless `bareUnit` says otherwise; feet and inches may carry fractions. */
export function parseLengthMetres(input: string | number, options: QuantityOptions = {}): Parsed<number> {
  const mixed = mixedForm(input, LENGTH, (text) => footInchMetres(text) ?? metreCentimetres(text));
  if (mixed === null) return parseMeasure(input, LENGTH, options);
  return mixed.ok ? withinSense(mixed.value, String(input), LENGTH, options) : mixed;
}

/** Volts. */
export function parseVolts(input: string | number, options: QuantityOptions = {}): Parsed<number> {
  return parseMeasure(input, VOLTS, options);
}

/** Amperes. */
export function parseAmps(input: string | number, options: QuantityOptions = {}): Parsed<number> {
  return parseMeasure(input, AMPS, options);
}

/** Ohms; also the codes of IEC 60062 (4k7, R47). `m` is milli and `M` is mega. */
export function parseOhms(input: string | number, options: QuantityOptions = {}): Parsed<number> {
  const code = mixedForm(input, OHMS, (text) => {
    if (/^\d+E\d+ ?(?:Ω|[Oo]hms?)?$/.test(text)) {
      return refuse(`${quoteText(text)} can be a resistor code or a power of ten`, '4R7, 4.7 or 47000000');
    }
    const ohms = resistorCode(text);
    return ohms === null ? null : accept(ohms);
  });
  if (code === null) return parseMeasure(input, OHMS, options);
  return code.ok ? withinSense(code.value, String(input), OHMS, options) : code;
}

/** Watts. Two powers in one text (21/5 W) are refused: each filament is a function of its own. */
export function parseWatts(input: string | number, options: QuantityOptions = {}): Parsed<number> {
  return parseMeasure(input, WATTS, options);
}

/** Degrees Celsius; also °F and K. Below absolute zero is refused, negative is not. */
export function parseCelsius(input: string | number, options: QuantityOptions = {}): Parsed<number> {
  const celsius = parseMeasure(input, CELSIUS, { ...options, allowNegative: true });
  if (!celsius.ok || celsius.value >= ABSOLUTE_ZERO_CELSIUS) return celsius;
  return refuse(`${quoteText(String(input))} is below absolute zero`, CELSIUS.accepted);
}

/** Percent as a number of percent: `3 %` gives 3. */
export function parsePercent(input: string | number, options: QuantityOptions = {}): Parsed<number> {
  return parseMeasure(input, PERCENT, options);
}

/** Seconds. `m` alone is refused: minutes are written min. */
export function parseSeconds(input: string | number, options: QuantityOptions = {}): Parsed<number> {
  return parseMeasure(input, SECONDS, options);
}

/** Ampere hours. */
export function parseAmpHours(input: string | number, options: QuantityOptions = {}): Parsed<number> {
  return parseMeasure(input, AMP_HOURS, options);
}

/** Square millimetres of any conductor or joint area; for wire sizes of the standards see `parseWireSize`. */
export function parseSquareMillimetres(input: string | number, options: QuantityOptions = {}): Parsed<number> {
  return parseMeasure(input, SQUARE_MILLIMETRES, options);
}

function mixedForm(
  input: string | number,
  measure: Measure,
  read: (text: string) => Parsed<number> | null,
): Parsed<number> | null {
  if (typeof input === 'number') return null;
  const text = prepareText(input, measure);
  return text.ok ? read(text.value) : text;
}
