// Small edits to a record by address: add, replace, set fields, remove. Pure; the result is not yet checked.
// It must not judge the values: the whole edited record goes through the same check as any other.

import { normaliseAddress } from '../core/record/addresses.js';
import type { HarnessRecord } from '../core/record/record.js';
import type { Issue } from './errors.js';

/** The lists of a record that an edit can reach, with the key by which an entry is named. */
const lists = {
  part: { list: 'parts', key: 'address' },
  wire: { list: 'wires', key: 'label' },
  state: { list: 'states', key: 'name' },
  segment: { list: 'segments', key: 'address' },
  assembly: { list: 'assemblies', key: 'address' },
} as const;

export type EditTarget = keyof typeof lists;
export const editTargets = Object.keys(lists) as readonly EditTarget[];

type Fields = Readonly<Record<string, unknown>>;

export type Edit =
  | { readonly op: 'add'; readonly what: EditTarget; readonly value: Fields }
  /** The entry named becomes `value`; a new address in it renames. */
  | { readonly op: 'replace'; readonly what: EditTarget; readonly address: string; readonly value: Fields }
  /** Only the fields named change; null takes a field away. */
  | { readonly op: 'set'; readonly what: EditTarget; readonly address: string; readonly fields: Fields }
  | { readonly op: 'remove'; readonly what: EditTarget; readonly address: string }
  /** Fields of the record itself: name, vehicle, notes... */
  | { readonly op: 'set-record'; readonly fields: Fields };

export type EditOutcome =
  | { readonly ok: true; readonly document: Fields }
  | { readonly ok: false; readonly issues: readonly Issue[] };

/** Applies the edits in order to a copy of `record`. Every edit that names nothing is told, not only the first. */
export function editRecord(record: HarnessRecord, edits: readonly Edit[]): EditOutcome {
  const document: Record<string, unknown> = { ...record };
  const issues: Issue[] = [];
  edits.forEach((edit, index) => {
    const issue = applyEdit(document, edit, `/edits/${index}`);
    if (issue !== null) issues.push(issue);
  });
  return issues.length > 0 ? { ok: false, issues } : { ok: true, document };
}

function applyEdit(document: Record<string, unknown>, edit: Edit, path: string): Issue | null {
  if (edit.op === 'set-record') {
    const reached = Object.keys(edit.fields).find((key) => Object.values(lists).some(({ list }) => list === key));
    if (reached !== undefined) {
      return {
        code: 'edit-reaches-list',
        path: `${path}/fields/${reached}`,
        value: reached,
        reason: `${reached} is a list; its entries are edited one by one`,
        accepted: 'the fields of the record itself, such as name, vehicle, notes',
      };
    }
    assign(document, edit.fields);
    return null;
  }
  const { list, key } = lists[edit.what];
  const entries = [...((document[list] ?? []) as readonly Fields[])];
  if (edit.op === 'add') {
    document[list] = [...entries, edit.value];
    return null;
  }
  const wanted = normaliseAddress(edit.address);
  const at = entries.findIndex((entry) => normaliseAddress(String(entry[key])) === wanted);
  if (at < 0) {
    return {
      code: 'edit-target-missing',
      path: `${path}/address`,
      value: edit.address,
      reason: `the record has no ${edit.what} ${edit.address}`,
      accepted: `the ${key} of one of its ${list}`,
    };
  }
  if (edit.op === 'remove') entries.splice(at, 1);
  else if (edit.op === 'replace') entries[at] = edit.value;
  else {
    const changed = { ...entries[at] };
    assign(changed, edit.fields);
    entries[at] = changed;
  }
  document[list] = entries;
  return null;
}

function assign(target: Record<string, unknown>, fields: Fields): void {
  for (const [key, value] of Object.entries(fields)) {
    if (value === null) delete target[key];
    else target[key] = value;
  }
}
