// An entry of the record as the texts of a form, and back as the fields that changed.
// It must not send a field that the person did not touch.

import type { FieldSpec } from './field-input.js';

export type Draft = Readonly<Record<string, string>>;
type Fields = Readonly<Record<string, unknown>>;

export function draftOf(entry: Fields, specs: readonly FieldSpec[]): Draft {
  return Object.fromEntries(specs.map(({ key, kind }) => [key, textOf(entry[key], kind)]));
}

function textOf(value: unknown, kind: FieldSpec['kind']): string {
  if (value === undefined || value === null) return '';
  return kind === 'json' ? JSON.stringify(value, null, 2) : String(value);
}

interface BadJson {
  readonly key: string;
  readonly reason: string;
}

export interface ChangedFields {
  readonly fields: Record<string, unknown>;
  readonly bad: readonly BadJson[];
}

/** What differs from `before`. An emptied field becomes null, which takes it away. */
export function changedFields(before: Draft, now: Draft, specs: readonly FieldSpec[]): ChangedFields {
  const fields: Record<string, unknown> = {};
  const bad: BadJson[] = [];
  for (const { key, kind } of specs) {
    const text = (now[key] ?? '').trim();
    if (text === (before[key] ?? '').trim()) continue;
    if (text === '') fields[key] = null;
    else if (kind !== 'json') fields[key] = asWritten(text);
    else {
      try {
        fields[key] = JSON.parse(text);
      } catch (error) {
        bad.push({ key, reason: error instanceof Error ? error.message : 'not JSON' });
      }
    }
  }
  return { fields, bad };
}

/** `true` and `false` are words of the record; all other texts are read by the server, units and all. */
const asWritten = (text: string): unknown => (text === 'true' ? true : text === 'false' ? false : text);
