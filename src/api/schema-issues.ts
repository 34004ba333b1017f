// Turns what zod says of a request into issues that name field, value and what is accepted.
// It must not be used for records: those have checks of their own in the core.

import type { core } from 'zod';
import type { Issue } from '../service/errors.js';

/** Where in the request a schema stands, as an issue's path begins: nothing for the body, whose paths are JSON pointers. */
const prefixes: ReadonlyMap<string, string> = new Map([
  ['body', ''],
  ['querystring', 'query '],
  ['params', 'address '],
  ['headers', 'header '],
]);

/** One issue per complaint, unknown keys one by one. */
export function schemaIssues(complaints: readonly core.$ZodIssue[], value: unknown, part: string): Issue[] {
  const prefix = prefixes.get(part) ?? `${part} `;
  return complaints.flatMap((complaint): Issue[] => {
    const place = (path: readonly PropertyKey[]): string =>
      prefix === '' ? path.map((step) => `/${escaped(String(step))}`).join('') || '/' : prefix + path.join('.');
    if (complaint.code === 'unrecognized_keys') {
      return complaint.keys.map((key) => ({
        code: 'field-unknown',
        path: place([...complaint.path, key]),
        value: valueAt(value, [...complaint.path, key]) ?? null,
        reason: 'this operation has no such field',
        accepted: 'no such field',
      }));
    }
    if (complaint.code === 'invalid_union') {
      const branch = closestBranch(complaint);
      if (branch !== null) return schemaIssues(branch, value, part);
    }
    const found = valueAt(value, complaint.path);
    return [
      {
        code: found === undefined ? 'field-missing' : 'field-invalid',
        path: place(complaint.path),
        value: found ?? null,
        reason: found === undefined ? 'it is missing' : complaint.message,
        accepted: acceptedBy(complaint),
      },
    ];
  });
}

/**
 * Of the forms that a field may take, the one whose kind of value was sent (its complaints lie deeper than the field itself), with
 * paths from the root. Null: the value is of none of these kinds.
 */
function closestBranch({ path, errors }: core.$ZodIssueInvalidUnion): readonly core.$ZodIssue[] | null {
  const branch = errors.find(
    (complaints) =>
      complaints.length > 0 &&
      complaints.every(({ path: deeper, code }) => deeper.length > 0 || code !== 'invalid_type'),
  );
  return branch?.map((complaint) => ({ ...complaint, path: [...path, ...complaint.path] })) ?? null;
}

function acceptedBy(complaint: core.$ZodIssue): string {
  switch (complaint.code) {
    case 'invalid_type':
      return complaint.expected;
    case 'invalid_value':
      return complaint.values.map((value) => JSON.stringify(value)).join(', ');
    case 'too_small':
      return `${complaint.inclusive === false ? 'more than' : 'at least'} ${complaint.minimum}${unitOf(complaint.origin)}`;
    case 'too_big':
      return `${complaint.inclusive === false ? 'less than' : 'at most'} ${complaint.maximum}${unitOf(complaint.origin)}`;
    case 'invalid_union':
      return complaint.errors.map((branch) => branch.map(acceptedBy).join(' and ')).join(', or ') || complaint.message;
    case 'invalid_format':
      return complaint.pattern === undefined ? complaint.format : `text that matches ${complaint.pattern}`;
    default:
      return complaint.message;
  }
}

function unitOf(origin: string): string {
  if (origin === 'string') return ' characters';
  return origin === 'array' || origin === 'set' ? ' entries' : '';
}

function valueAt(value: unknown, path: readonly PropertyKey[]): unknown {
  let at = value;
  for (const step of path) {
    if (typeof at !== 'object' || at === null || !Object.hasOwn(at, step)) return undefined;
    at = (at as Record<PropertyKey, unknown>)[step];
  }
  return at;
}

const escaped = (step: string): string => step.replaceAll('~', '~0').replaceAll('/', '~1');
