// The one way from text or number to an SI value: a number, a unit from a table, limits of sense.
// It must not know any single quantity; those are tables in quantity.ts.

import { headValue, NUMBER_ACCEPTED, type NumberOptions, readNumberHead } from './number-text.js';
import { accept, type Parsed, quoteText, refuse } from './parsed.js';
import { LONGEST_TEXT, plainText } from './plain-text.js';

/** No quantity of a vehicle harness comes near this in any SI unit; beyond it something was mistyped. */
export const LARGEST_MAGNITUDE = 1e12;

/** value = (number x 10^power + offset) x factor. The power of ten is applied without a rounding step. */
export interface Unit {
  readonly power: number;
  readonly offset?: number;
  readonly factor?: number;
}

export interface Measure {
  /** As in "a length", for messages. */
  readonly name: string;
  readonly accepted: string;
  /** Spellings whose capitals matter (mΩ and MΩ). */
  readonly symbols: ReadonlyMap<string, Unit>;
  /** Spellings in lower case whose capitals do not matter (ohms, AMPS). */
  readonly words: ReadonlyMap<string, Unit>;
  /** Spellings that look like a unit here and must not be guessed, with the reason. */
  readonly refused?: ReadonlyMap<string, string>;
  /** Unit of a number without one. */
  readonly bareUnit: Unit;
}

export interface QuantityOptions extends NumberOptions {
  /** Readings may be negative, ratings may not. Default false. */
  readonly allowNegative?: boolean;
  /** Unit of a number written without one, as a column header may state it: `length (cm)`. */
  readonly bareUnit?: string;
}

/** Reads one number with one unit. A number as input is taken as SI already. */
export function parseMeasure(input: string | number, measure: Measure, options: QuantityOptions = {}): Parsed<number> {
  if (typeof input === 'number') return withinSense(input, String(input), measure, options);
  const prepared = prepareText(input, measure);
  if (!prepared.ok) return prepared;
  const text = prepared.value;
  const several = severalValues(text);
  if (several !== null) return refuse(`${quoteText(input)} ${several}`, measure.accepted);
  const head = readNumberHead(text, options);
  if (!head.ok) return refuse(head.reason, head.accepted === NUMBER_ACCEPTED ? measure.accepted : head.accepted);
  const unit = unitOf(head.value.rest, input, measure, options);
  if (!unit.ok) return unit;
  const { power, offset = 0, factor = 1 } = unit.value;
  const value = (headValue(head.value, power) + offset) * factor;
  return withinSense(value, input, measure, options);
}

/** Plain spelling, or a refusal of what is empty or far too long to be a quantity. */
export function prepareText(input: string, measure: Pick<Measure, 'name' | 'accepted'>): Parsed<string> {
  if (typeof input !== 'string') return refuse('not a text and not a number', measure.accepted);
  const text = plainText(input);
  if (text === '') return refuse(`empty: ${measure.name} is missing`, measure.accepted);
  if (text.length > LONGEST_TEXT) return refuse(`longer than ${LONGEST_TEXT} characters`, measure.accepted);
  return accept(text);
}

/** The last gate of every quantity: finite, of a sensible size, not negative unless allowed. */
export function withinSense(
  value: number,
  shown: string,
  measure: Pick<Measure, 'name' | 'accepted'>,
  options: QuantityOptions = {},
): Parsed<number> {
  if (!Number.isFinite(value)) return refuse(`${quoteText(shown)} is not a finite number`, measure.accepted);
  if (Math.abs(value) > LARGEST_MAGNITUDE) {
    return refuse(`${quoteText(shown)} is too large for ${measure.name}`, measure.accepted);
  }
  if (value < 0 && options.allowNegative !== true) {
    return refuse(`${quoteText(shown)} is negative`, measure.accepted);
  }
  return accept(value === 0 ? 0 : value);
}

/** The unit for what follows the number, or why it is none. */
export function unitOf(spelling: string, input: string, measure: Measure, options: QuantityOptions): Parsed<Unit> {
  if (spelling === '') {
    if (options.bareUnit === undefined) return accept(measure.bareUnit);
    const bare = lookUp(plainText(options.bareUnit), measure);
    return (
      bare ?? refuse(`the column's unit ${quoteText(options.bareUnit)} is no unit of ${measure.name}`, measure.accepted)
    );
  }
  return (
    lookUp(spelling, measure) ??
    refuse(`${quoteText(input)}: ${quoteText(spelling)} is no unit of ${measure.name}`, measure.accepted)
  );
}

function lookUp(spelling: string, measure: Measure): Parsed<Unit> | null {
  const bare = spelling.replace(/\.$/, '').trim();
  const why = measure.refused?.get(bare);
  if (why !== undefined) return refuse(why, measure.accepted);
  const unit = measure.symbols.get(bare) ?? measure.words.get(bare.toLowerCase());
  return unit === undefined ? null : accept(unit);
}

function severalValues(text: string): string | null {
  if (/\d ?\/ ?[\d.,]/.test(text)) return 'holds two values with a slash; give each its own field';
  if (/\d ?-+ ?[\d.,]/.test(text.replace(/e-/gi, 'e'))) return 'is a range; one value is needed';
  return null;
}
