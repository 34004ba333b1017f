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

export interface Quantities {
  readonly value: unknown;
  /** Pointers of values that could not be read; they are told already. */
  readonly failed: ReadonlySet<string>;
}

/**
 * Reads the texts of numeric fields, sizes and colours inside one part, wire or state. `path` is its JSON pointer.
 * Problems: `bad-quantity`, `unknown-size`, `unknown-colour`.
 */
export function readQuantities(value: unknown, path: string, issues: IssueList, part?: string): Quantities {
  const failed = new Set<string>();

  function read(key: string, entry: unknown, at: string): unknown {
    if (typeof entry === 'object' && entry !== null) {
      const map = Array.isArray(entry) ? undefined : MAP_READERS.get(key);
      return map === undefined ? walk(entry, at) : readMap(entry, map, at);
    }
    if (key === 'size') return readNamed(entry, (text) => sizeText(text), 'unknown-size', at);
    if (key === 'colour') return readNamed(entry, (text) => colourText(String(text)), 'unknown-colour', at);
    const reader = readerOf(key);
    return typeof entry === 'string' && reader !== null ? readText(entry, reader, 'bad-quantity', at) : entry;
  }

  function readText(text: string, reader: Reader, code: string, at: string): unknown {
    const parsed = reader(text);
    if (parsed.ok) return parsed.value;
    failed.add(at);
    issues.add(code, at, text, parsed.reason, parsed.accepted, part);
    return text;
  }

  function readNamed(entry: unknown, reader: Reader, code: string, at: string): unknown {
    return typeof entry === 'string' || typeof entry === 'number' ? readText(String(entry), reader, code, at) : entry;
  }

  function readMap(map: object, reader: Reader, at: string): unknown {
    return Object.fromEntries(
      Object.entries(map).map(([key, entry]) => [
        key,
        typeof entry === 'string' ? readText(entry, reader, 'bad-quantity', at + pointer(key)) : entry,
      ]),
    );
  }

  function walk(entry: unknown, at: string): unknown {
    if (Array.isArray(entry)) return entry.map((item, i) => walk(item, `${at}/${i}`));
    if (typeof entry !== 'object' || entry === null) return entry;
    return Object.fromEntries(Object.entries(entry).map(([key, item]) => [key, read(key, item, at + pointer(key))]));
  }

  return { value: walk(value, path), failed };
}

function readerOf(key: string): Reader | null {
  if (PLAIN_NUMBERS.has(key)) return readNumber;
  const capital = key.charAt(0).toUpperCase() + key.slice(1);
  return READERS.find(([ending]) => key.endsWith(ending) || capital === ending)?.[1] ?? null;
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
