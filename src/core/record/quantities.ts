// Turns what people write in a record (`12.4 V`, `4 ft 3 in`, `18 awg`, `rot/schwarz`) into canonical numbers and spellings.
// It must not know part kinds: the unit word at the end of a field's name says what the field holds.

import { parseColour } from '../units/colour.js';
import { headValue, NUMBER_ACCEPTED, readNumberHead } from '../units/number-text.js';
import { accept, type Parsed, quoteText, refuse } from '../units/parsed.js';
import { plainText } from '../units/plain-text.js';
import {
  parseAmpHours,
  parseAmps,
  parseCelsius,
  parseLengthMetres,
  parseOhms,
  parsePercent,
  parseVolts,
  parseWatts,
} from '../units/quantity.js';
import { parseWireSize } from '../units/wire-size.js';
import { type IssueList, pointer } from './record-issue.js';

type Reader = (text: string) => Parsed<number | string | boolean>;

const signed = { allowNegative: true };

/** By the unit word that ends a field's name, longest first. A sign is read here; the schema says where it is not accepted. */
const READERS: readonly (readonly [ending: string, read: Reader])[] = [
  ['AmpHours', (text) => parseAmpHours(text, signed)],
  ['Celsius', (text) => parseCelsius(text)],
  ['Metres', (text) => parseLengthMetres(text, signed)],
  ['Volts', (text) => parseVolts(text, signed)],
  ['Watts', (text) => parseWatts(text, signed)],
  ['Amps', (text) => parseAmps(text, signed)],
  ['Ohms', (text) => parseOhms(text, signed)],
];

/** Numbers without a unit. */
const PLAIN_NUMBERS: ReadonlySet<string> = new Set(['efficiency', 'rows', 'ptcRiseRatio', 'ageYears', 'restTravel']);

/** Maps from an address to a quantity, in a state. */
const MAP_READERS: ReadonlyMap<string, Reader> = new Map([
  ['measured', (text) => parseVolts(text, signed)],
  ['celsius', (text) => parseCelsius(text)],
  ['travel', readShare],
  ['commands', readCommand],
]);

/**
 * Reads the texts of numeric fields, sizes and colours inside one part, wire or state, and puts the values in their place.
 * `path` is its JSON pointer. Returns the pointers of what could not be read; they are told already: `bad-quantity`,
 * `unknown-size`, `unknown-colour`.
 */
export function readQuantities(entry: unknown, path: string, issues: IssueList, part?: string): ReadonlySet<string> {
  const failed = new Set<string>();
  const way: (string | number)[] = [];

  function walk(value: object): void {
    for (const [key, item] of Object.entries(value)) {
      way.push(key);
      const read = readField(value, key, item);
      if (read !== item) (value as Record<string, unknown>)[key] = read;
      way.pop();
    }
  }

  function readField(owner: object, key: string, item: unknown): unknown {
    if (typeof item === 'object' && item !== null) {
      const map = Array.isArray(item) ? undefined : MAP_READERS.get(key);
      if (map === undefined) walk(item);
      else readMap(item, map);
      return item;
    }
    if (Array.isArray(owner)) return item;
    if (key === 'size') return readNamed(item, sizeText, 'unknown-size');
    if (key === 'colour') return readNamed(item, colourText, 'unknown-colour');
    const reader = typeof item === 'string' ? readerOf(key) : null;
    return reader === null ? item : readText(item as string, reader, 'bad-quantity');
  }

  function readMap(map: object, reader: Reader): void {
    for (const [key, item] of Object.entries(map)) {
      if (typeof item !== 'string') continue;
      way.push(key);
      (map as Record<string, unknown>)[key] = readText(item, reader, 'bad-quantity');
      way.pop();
    }
  }

  function readNamed(item: unknown, reader: Reader, code: string): unknown {
    return typeof item === 'string' || typeof item === 'number' ? readText(String(item), reader, code) : item;
  }

  function readText(text: string, reader: Reader, code: string): unknown {
    const parsed = reader(text);
    if (parsed.ok) return parsed.value;
    const at = path + pointer(...way);
    failed.add(at);
    issues.add(code, at, text, parsed.reason, parsed.accepted, part);
    return text;
  }

  if (typeof entry === 'object' && entry !== null) walk(entry);
  return failed;
}

function readerOf(key: string): Reader | null {
  if (PLAIN_NUMBERS.has(key)) return readNumber;
  const found = READERS.find(([ending]) => key.endsWith(ending) || key === ending.toLowerCase());
  return found === undefined ? null : found[1];
}

function sizeText(text: string): Parsed<string> {
  const size = parseWireSize(text);
  return size.ok ? accept(size.value.text) : size;
}

function colourText(text: string): Parsed<string> {
  const colour = parseColour(text);
  return colour.ok ? accept(colour.value.text) : colour;
}

/** A number and nothing else. */
function readNumber(text: string): Parsed<number> {
  const head = readNumberHead(plainText(text));
  if (!head.ok) return head;
  if (head.value.rest !== '') return refuse(`${quoteText(text)} is not only a number`, NUMBER_ACCEPTED);
  return accept(headValue(head.value));
}

/** `0.3` or `30 %`. */
function readShare(text: string): Parsed<number> {
  if (!text.includes('%')) return readNumber(text);
  const percent = parsePercent(text);
  return percent.ok ? accept(percent.value / 100) : percent;
}

/** On or off in words, or a duty as a share or in percent. */
function readCommand(text: string): Parsed<number | boolean> {
  if (/^(on|true|yes)$/i.test(text)) return accept(true);
  if (/^(off|false|no)$/i.test(text)) return accept(false);
  return readShare(text);
}
