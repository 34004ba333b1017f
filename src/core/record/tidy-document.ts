// First gate of a document from outside: refuses hostile shapes, copies the rest with texts trimmed and empty values left out.
// It must not know the record's fields.

import { type IssueList, pointer } from './record-issue.js';

/** Levels of nesting; a record needs seven. */
const DEEPEST = 32;
/** Values of any kind in one document; a record of 20,000 wires has about a million. */
export const MOST_VALUES = 4_000_000;

const FORBIDDEN_KEY = '__proto__';
const LONE_SURROGATE = /[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/;
/** Control characters other than tab and line ends. */
const CONTROL = /[^\P{Cc}\t\n\r]/u;

/**
 * A plain copy: texts trimmed and with LF line ends; null, undefined and empty texts left out of objects. Null when the
 * document is too deep or too large to look at; then the only issue says which limit.
 */
export function tidyDocument(document: unknown, issues: IssueList): { readonly value: unknown } | null {
  let count = 0;
  let refused = false;
  /** Way to the value at hand; joined to a pointer only where a problem is told. */
  const way: (string | number)[] = [];

  function copy(value: unknown): unknown {
    if (refused) return undefined;
    count += 1;
    if (count > MOST_VALUES) {
      refuse('record-too-large', `the document holds more than ${MOST_VALUES} values`, `at most ${MOST_VALUES}`);
      return undefined;
    }
    if (typeof value === 'string') return copyText(value);
    if (typeof value !== 'object' || value === null) return value;
    if (way.length >= DEEPEST) {
      refuse('record-too-deep', `nested more than ${DEEPEST} levels deep`, `at most ${DEEPEST} levels`);
      return undefined;
    }
    return Array.isArray(value) ? value.map((entry, i) => copyAt(i, entry)) : copyFields(value);
  }

  function copyAt(step: string | number, value: unknown): unknown {
    way.push(step);
    const copied = copy(value);
    way.pop();
    return copied;
  }

  function copyFields(value: object): Record<string, unknown> {
    const result: Record<string, unknown> = {};
    for (const [key, entry] of Object.entries(value)) {
      if (key === FORBIDDEN_KEY) {
        const at = pointer(...way, key);
        issues.add('forbidden-key', at, key, `the key ${key} is not accepted in any document`, 'another key');
        continue;
      }
      const copied = copyAt(key, entry);
      if (copied !== undefined && copied !== null && copied !== '') result[key] = copied;
    }
    return result;
  }

  function copyText(text: string): string {
    if (LONE_SURROGATE.test(text) || CONTROL.test(text)) {
      const shown = text.replace(/[^\x20-\x7E]/g, '?');
      const reason = 'holds control characters or half a character';
      issues.add('text-not-clean', pointer(...way), shown, reason, 'plain text');
      return 'x';
    }
    return text.replace(/\r\n?/g, '\n').trim();
  }

  function refuse(code: string, reason: string, accepted: string): void {
    refused = true;
    const path = pointer(...way);
    issues.add(code, path.length > 200 ? `${path.slice(0, 200)}…` : path, null, reason, accepted);
  }

  const value = copy(document);
  return refused ? null : { value };
}
