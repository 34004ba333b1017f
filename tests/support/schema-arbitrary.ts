// Makes a fast-check arbitrary from a zod schema, so that a field added to the record is generated without anyone remembering.
// It must not know which references make sense; arbitrary-record.ts puts those right.

import fc from 'fast-check';
import type { z } from 'zod';

type Schema = z.core.$ZodType;

/** Texts that have hurt spreadsheets and parsers before. */
const NASTY = [
  '=1+1',
  "'=A1",
  "''x",
  '+SUM(A1)',
  '-5',
  '@x',
  '"',
  'a"b',
  'a,b',
  'a;b',
  'a\\;b',
  'line\nbreak',
  'tab\there',
  '007',
  '1e5',
  'yes',
  'é ü ß 中 🚙',
  'x',
] as const;

/** Text as a record keeps it: trimmed, at least one character, at most `most`. */
export function keptText(most: number): fc.Arbitrary<string> {
  return fc
    .oneof(
      { weight: 3, arbitrary: fc.constantFrom(...NASTY) },
      { weight: 2, arbitrary: fc.string({ minLength: 1, maxLength: 12, unit: 'grapheme' }) },
      { weight: 1, arbitrary: fc.stringMatching(/^[A-Za-z0-9 .,;:'"=+@\\-]{1,20}$/) },
    )
    .map((text) =>
      text
        .replace(/[^\P{Cc}\t\n]/gu, '')
        .slice(0, most)
        .trim(),
    )
    .filter((text) => text !== '' && Buffer.from(text).toString() === text);
}

export function arbitraryOf(schema: Schema): fc.Arbitrary<unknown> {
  const def = schema._zod.def;
  switch (def.type) {
    case 'string':
      return stringOf(schema);
    case 'number':
      return numberOf(schema);
    case 'boolean':
      return fc.boolean();
    case 'literal':
      return fc.constantFrom(...(schema as z.ZodLiteral).values);
    case 'enum':
      return fc.constantFrom(...Object.values((schema as z.ZodEnum).enum));
    case 'optional':
      return fc.option(arbitraryOf((schema as z.ZodOptional).unwrap() as Schema), { nil: undefined, freq: 2 });
    case 'union':
      return fc.oneof(...((schema as z.ZodUnion).options as Schema[]).map(arbitraryOf));
    case 'tuple':
      return fc.tuple(...((def as z.core.$ZodTupleDef).items as Schema[]).map(arbitraryOf));
    case 'array': {
      const { least = 0, most = 4 } = limitsOf(schema);
      const element = arbitraryOf((schema as z.ZodArray).element as Schema);
      return fc.array(element, { minLength: least, maxLength: Math.min(most, Math.max(least, 3)) });
    }
    case 'object':
      return objectOf((schema as z.ZodObject).shape);
    case 'record':
      // Keys are addresses; the caller fills these in.
      return fc.constant({});
    default:
      throw new RangeError(`no arbitrary for a ${def.type}`);
  }
}

function objectOf(shape: Readonly<Record<string, Schema>>): fc.Arbitrary<Record<string, unknown>> {
  const fields = Object.fromEntries(Object.entries(shape).map(([name, field]) => [name, arbitraryOf(field)]));
  return fc
    .record(fields)
    .map((entry) => Object.fromEntries(Object.entries(entry).filter(([, value]) => value !== undefined)));
}

function stringOf(schema: Schema): fc.Arbitrary<string> {
  const { pattern, most = 20 } = limitsOf(schema);
  return pattern === undefined ? keptText(most) : fc.stringMatching(pattern).map((text) => text.trim());
}

function numberOf(schema: Schema): fc.Arbitrary<number> {
  const { least = 0, most = 1e9, integer } = limitsOf(schema);
  if (integer) return fc.integer({ min: least, max: Math.min(most, 20) });
  const plain = [0.1, 0.25, 1, 1.5, 12, 12.65, 60, 1e-7, 0.1 + 0.2, -20].filter(
    (value) => value > least && value <= most,
  );
  return fc.oneof(
    fc.constantFrom(...(plain.length === 0 ? [most] : plain)),
    fc.double({ min: Math.max(least, -1e9), max: most, noNaN: true, minExcluded: true }).filter((value) => value !== 0),
  );
}

interface Limits {
  readonly least?: number;
  readonly most?: number;
  readonly pattern?: RegExp;
  readonly integer: boolean;
}

/** What the checks of a schema say of size and shape. */
function limitsOf(schema: Schema): Limits {
  let limits: Limits = { integer: (schema._zod.def as { format?: string }).format === 'safeint' };
  for (const check of (schema._zod.def as { checks?: z.core.$ZodCheck[] }).checks ?? []) {
    const def = check._zod.def as {
      check: string;
      value?: number;
      minimum?: number;
      maximum?: number;
      pattern?: RegExp;
    };
    if (def.check === 'greater_than') limits = { ...limits, least: def.value! };
    else if (def.check === 'less_than') limits = { ...limits, most: def.value! };
    else if (def.check === 'min_length') limits = { ...limits, least: def.minimum! };
    else if (def.check === 'max_length') limits = { ...limits, most: def.maximum! };
    else if (def.check === 'string_format' && def.pattern !== undefined) limits = { ...limits, pattern: def.pattern };
  }
  return limits;
}
