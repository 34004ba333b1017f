// Says in trade words what the schema refused in one part, wire or state: place, value, reason, what is accepted.
// It must not check anything itself.

import type { z } from 'zod';
import { type IssueList, pointer, shortList } from './record-issue.js';

type SchemaIssue = z.core.$ZodIssue;

interface Place {
  /** JSON pointer of the value that was checked. */
  readonly path: string;
  /** The value that was checked. */
  readonly value: unknown;
  /** Fields that it may have, for `unknown-field`. */
  readonly fields: readonly string[];
  readonly part?: string | undefined;
  /** Pointers that are told already. */
  readonly told: ReadonlySet<string>;
}

const UNITS: readonly (readonly [ending: string, words: string])[] = [
  ['AmpHours', 'ampere hours, as 60 or `60 Ah`'],
  ['Celsius', 'degrees Celsius, as 80 or `80 °C`'],
  ['Metres', 'a length, as 1.2 (metres), `1.2 m` or `4 ft 3 in`'],
  ['Volts', 'volts, as 12.6 or `12.6 V`'],
  ['Watts', 'watts, as 55 or `55 W`'],
  ['Amps', 'amperes, as 10 or `10 A`'],
  ['Ohms', 'ohms, as 85, `85 Ω` or `4k7`'],
];

const UNION_ACCEPTED: ReadonlyMap<string, string> = new Map([
  ['systemVolts', '6, 12, 24, 48'],
  ['cavities', 'how many cavities, or the list of their names (at most 200)'],
  ['terminals', 'how many terminals, or the list of their names (at most 60)'],
]);

/** Adds one issue of ours for each issue of the schema's. */
export function addSchemaIssues(found: readonly SchemaIssue[], place: Place, issues: IssueList): void {
  for (const issue of found) {
    const at = place.path + pointer(...issue.path.map((step) => (typeof step === 'number' ? step : String(step))));
    if (place.told.has(at)) continue;
    const value = valueAt(place.value, issue.path);
    if (issue.code === 'unrecognized_keys') {
      const known =
        issue.path.length === 0 ? `the fields ${shortList(place.fields, 40)}` : 'only the fields of this entry';
      for (const key of issue.keys) {
        issues.add(
          'unknown-field',
          at + pointer(key),
          valueAt(value, [key]),
          `there is no field ${key} here`,
          known,
          place.part,
        );
      }
      continue;
    }
    const { code, reason, accepted } = describe(issue, value, lastName(issue.path));
    issues.add(code, at, value, reason, accepted, place.part);
  }
}

interface Description {
  readonly code: string;
  readonly reason: string;
  readonly accepted: string;
}

function describe(issue: SchemaIssue, value: unknown, name: string): Description {
  if (value === undefined)
    return { code: 'missing-field', reason: `${name} is missing`, accepted: acceptedType(issue, name) };
  switch (issue.code) {
    case 'invalid_type':
      return { code: 'wrong-type', reason: `${name} is ${typeWord(value)}`, accepted: acceptedType(issue, name) };
    case 'invalid_value':
      return {
        code: 'unknown-word',
        reason: `${quoted(value)} is none of the words for ${name}`,
        accepted: issue.values.map(String).join(', '),
      };
    case 'invalid_format':
      return { code: 'bad-format', reason: `${quoted(value)} is no ${name}`, accepted: formatWords(issue.message) };
    case 'too_small':
      return tooSmall(issue, value, name);
    case 'too_big':
      return {
        code: 'too-large',
        reason: `${name} ${sizeWords(issue.origin, value)} is too ${sizeWord(issue.origin, 'large')}`,
        accepted: `at most ${limitWords(issue.origin, Number(issue.maximum))}`,
      };
    case 'invalid_key':
      return {
        code: 'bad-format',
        reason: `${name} is no address`,
        accepted: formatWords(issue.issues[0]?.message ?? ''),
      };
    case 'invalid_union':
      return {
        code: 'wrong-type',
        reason: `${name} is ${typeof value === 'string' || typeof value === 'number' ? quoted(value) : typeWord(value)}`,
        accepted: acceptedType(issue, name),
      };
    default:
      return { code: 'not-accepted', reason: `${name} is not accepted`, accepted: issue.message };
  }
}

function tooSmall(issue: z.core.$ZodIssueTooSmall, value: unknown, name: string): Description {
  const minimum = Number(issue.minimum);
  if (issue.origin === 'number' || issue.origin === 'int') {
    if (minimum === 0 && !issue.inclusive) {
      return {
        code: 'not-positive',
        reason: `${name} is ${value === 0 ? 'zero' : 'negative'}`,
        accepted: 'more than 0',
      };
    }
    return {
      code: 'too-small',
      reason: `${name} ${String(value)} is too small`,
      accepted: `${issue.inclusive ? 'at least' : 'more than'} ${minimum}`,
    };
  }
  return {
    code: 'too-few',
    reason: `${name} ${sizeWords(issue.origin, value)} is too ${sizeWord(issue.origin, 'small')}`,
    accepted: `at least ${limitWords(issue.origin, minimum)}`,
  };
}

function sizeWords(origin: string, value: unknown): string {
  if (origin === 'string' || origin === 'array')
    return `of ${limitWords(origin, (value as { length: number }).length)}`;
  return typeof value === 'number' ? String(value) : '';
}

function sizeWord(origin: string, direction: 'large' | 'small'): string {
  if (origin === 'number' || origin === 'int') return direction;
  return direction === 'large' ? 'long' : 'short';
}

function limitWords(origin: string, limit: number): string {
  if (origin === 'string') return limit === 1 ? '1 character' : `${limit} characters`;
  if (origin === 'array') return limit === 1 ? '1 entry' : `${limit} entries`;
  return String(limit);
}

function acceptedType(issue: SchemaIssue, name: string): string {
  const unit = UNITS.find(([ending]) => name.endsWith(ending) || name === ending.toLowerCase());
  if (unit !== undefined) return unit[1];
  const union = UNION_ACCEPTED.get(name);
  if (union !== undefined) return union;
  if (name === 'size') return 'a wire size, as `18 AWG` or `0.75 mm²`';
  if (issue.code === 'invalid_value') return issue.values.map(String).join(', ');
  if (issue.code === 'invalid_union') return 'on, off or a duty from 0 to 1';
  if (issue.code !== 'invalid_type') return 'a value';
  switch (issue.expected) {
    case 'string':
      return name === 'from' || name === 'to' ? 'a point, as K2/87 or X4.plug/3' : 'a text';
    case 'number':
    case 'int':
      return 'a number';
    case 'boolean':
      return 'true or false';
    case 'array':
    case 'tuple':
      return 'a list';
    default:
      return 'an object with named fields';
  }
}

function formatWords(message: string): string {
  return message.startsWith('Invalid string')
    ? 'letters, digits, blanks, _ or -, at most 24, beginning with a letter or digit'
    : message;
}

function typeWord(value: unknown): string {
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'number') return Number.isFinite(value) ? 'a number' : 'not a finite number';
  if (typeof value === 'string') return `the text ${quoted(value)}`;
  if (typeof value === 'boolean') return String(value);
  return typeof value === 'object' ? 'an object' : typeof value;
}

/** Any value out of JSON as text. An object is written out: its own `toString` may be anything. */
export function asText(value: unknown): string {
  return typeof value === 'object' && value !== null ? JSON.stringify(value) : String(value);
}

function quoted(value: unknown): string {
  const text = asText(value);
  return `"${text.length > 40 ? `${text.slice(0, 40)}…` : text}"`;
}

/** Name of the field that a path ends in; of a list entry the name of its list. */
function lastName(path: readonly PropertyKey[]): string {
  return String(path.findLast((step) => typeof step === 'string') ?? 'value');
}

function valueAt(value: unknown, path: readonly PropertyKey[]): unknown {
  let at: unknown = value;
  for (const step of path) {
    if (typeof at !== 'object' || at === null || !Object.hasOwn(at, step)) return undefined;
    at = (at as Record<PropertyKey, unknown>)[step];
  }
  return at;
}
