// One problem of a record as data, and the list in which a check collects them.
// It must not decide what is a problem.

import type { HarnessRecord } from './record.js';

export interface RecordIssue {
  /** Stable code, one meaning each: `unknown-part`, `not-positive`. */
  readonly code: string;
  /** JSON pointer (`/wires/12/lengthMetres`), or for sheets `wires.csv row 7 column length`. */
  readonly path: string;
  /** What was found there; long or nested values are shortened. */
  readonly value: unknown;
  readonly reason: string;
  readonly accepted: string;
  /** Address of the part, label of the wire or name of the state concerned, where it is known. */
  readonly part?: string;
}

export type ParsedRecord =
  | { readonly ok: true; readonly record: HarnessRecord; readonly warnings: readonly RecordIssue[] }
  | { readonly ok: false; readonly issues: readonly RecordIssue[]; readonly warnings: readonly RecordIssue[] };

/** More problems than this are counted, not listed. */
export const MOST_ISSUES = 1000;

const LONGEST_SHOWN = 120;

export class IssueList {
  readonly items: RecordIssue[] = [];
  private beyond = 0;

  add(code: string, path: string, value: unknown, reason: string, accepted: string, part?: string): void {
    if (this.items.length >= MOST_ISSUES) {
      this.beyond += 1;
      return;
    }
    const issue = { code, path, value: shownValue(value), reason, accepted };
    this.items.push(part === undefined ? issue : { ...issue, part });
  }

  /** All issues; the last one says how many more there are beyond the limit. */
  listed(): readonly RecordIssue[] {
    if (this.beyond === 0) return this.items;
    const reason = `${this.beyond} more problems are not listed`;
    return [
      ...this.items,
      { code: 'more-issues', path: '', value: this.beyond, reason, accepted: 'a record without these problems' },
    ];
  }

  get empty(): boolean {
    return this.items.length === 0;
  }
}

/** JSON pointer of RFC 6901. */
export function pointer(...steps: readonly (string | number)[]): string {
  return steps.map((step) => `/${String(step).replaceAll('~', '~0').replaceAll('/', '~1')}`).join('');
}

/** A value small enough to repeat in a message. */
function shownValue(value: unknown): unknown {
  if (typeof value === 'string') return value.length > LONGEST_SHOWN ? `${value.slice(0, LONGEST_SHOWN)}…` : value;
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === 'object' && value !== null) return 'an object';
  if (typeof value === 'number' || typeof value === 'boolean' || value === null) return value;
  return value === undefined ? null : typeof value;
}

/** `K1, K2 and 7 more`: a list short enough for a message. */
export function shortList(names: readonly string[], most = 12): string {
  if (names.length === 0) return 'none';
  if (names.length <= most) return names.join(', ');
  return `${names.slice(0, most).join(', ')} and ${names.length - most} more`;
}
