// Reads a document from outside into a record: every problem at once, each with place, value, reason and what is accepted.
// It must not throw on any document, and must not return a record while a problem is left.

import type { z } from 'zod';
import { checkNames } from './checks/check-names.js';
import { checkParts } from './checks/check-parts.js';
import { checkStates } from './checks/check-states.js';
import { checkWhole } from './checks/check-whole.js';
import { checkWires } from './checks/check-wires.js';
import { CheckContext, type DeclaredName, type Draft, type Entry } from './checks/draft.js';
import { dropEmptyFields } from './empty-fields.js';
import { type Part, partKinds, partSchema } from './part.js';
import { readQuantities } from './quantities.js';
import {
  acceptedFindingSchema,
  assemblySchema,
  doubleCrimpSchema,
  type HarnessRecord,
  recordSchema,
  segmentSchema,
  wireSchema,
} from './record.js';
import { IssueList, type ParsedRecord, pointer } from './record-issue.js';
import { repairEntry } from './repair-entry.js';
import { addSchemaIssues, asText } from './schema-issues.js';
import { operatingStateSchema } from './state.js';
import { tidyDocument } from './tidy-document.js';

/** Entries that a record may hold, by list. A larger record is refused with the limit. */
export const RECORD_LIMITS = {
  parts: 40_000,
  wires: 20_000,
  segments: 5_000,
  assemblies: 500,
  doubleCrimps: 5_000,
  states: 500,
  acceptedFindings: 2_000,
} as const;

type ListName = keyof typeof RECORD_LIMITS;

/** A schema of an object with named fields. */
type EntrySchema<T> = z.ZodType<T> & { readonly shape: object };

const partSchemas = new Map(partSchema.options.map((option) => [option.shape.kind.value as string, option]));
const headSchema = recordSchema.omit({
  parts: true,
  wires: true,
  segments: true,
  assemblies: true,
  doubleCrimps: true,
  states: true,
  acceptedFindings: true,
});

/**
 * Reads a record from a parsed JSON document. Numeric fields may be numbers in the unit of the field's name or texts as people
 * write them (`12.4 V`, `4 ft 3 in`); references may be in any case and use the usual other names of terminals (`BAT1/+`).
 */
export function parseRecord(document: unknown): ParsedRecord {
  const issues = new IssueList();
  const warnings = new IssueList();
  const tidy = tidyDocument(document, issues);
  if (tidy === null) return { ok: false, issues: issues.listed(), warnings: [] };
  if (typeof tidy.value !== 'object' || tidy.value === null || Array.isArray(tidy.value)) {
    issues.add(
      'not-a-record',
      '',
      document,
      'the document is not an object',
      'an object with format, name, parts and wires',
    );
    return { ok: false, issues: issues.listed(), warnings: [] };
  }
  const fields = tidy.value as Record<string, unknown>;
  const reader = new DocumentReader(fields, issues);
  const draft = reader.draft();
  if (draft === null) return { ok: false, issues: issues.listed(), warnings: [] };
  const acceptedFindings = reader.list('acceptedFindings', acceptedFindingSchema).map(({ value }) => value);
  const context = new CheckContext(draft, issues, warnings);
  checkNames(context);
  checkParts(context);
  checkWires(context);
  checkStates(context);
  checkWhole(context);
  if (!issues.empty) return { ok: false, issues: issues.listed(), warnings: warnings.listed() };
  return { ok: true, record: assemble(draft, acceptedFindings), warnings: warnings.listed() };
}

class DocumentReader {
  private readonly declared: DeclaredName[] = [];

  constructor(
    private readonly fields: Record<string, unknown>,
    private readonly issues: IssueList,
  ) {}

  /** All entries that the schema accepts; null when a list is beyond its limit. */
  draft(): Draft | null {
    const tooMany = (Object.keys(RECORD_LIMITS) as ListName[]).filter((name) => this.tellTooMany(name));
    if (tooMany.length > 0) return null;
    const head = this.head();
    const parts = this.parts();
    const wires = this.list('wires', wireSchema, 'label');
    const segments = this.list('segments', segmentSchema, 'address');
    const assemblies = this.list('assemblies', assemblySchema, 'address');
    const doubleCrimps = this.list('doubleCrimps', doubleCrimpSchema);
    const states = this.list('states', operatingStateSchema);
    return {
      head,
      parts,
      wires,
      segments,
      assemblies,
      doubleCrimps,
      states,
      declared: this.declared,
      declaredStates: this.stateNames(),
    };
  }

  /** The accepted entries of a list with their places; `nameField` is the field that carries their address. */
  list<T>(name: ListName, schema: EntrySchema<T>, nameField?: string): readonly Entry<T>[] {
    return this.entries(name).flatMap((raw, i) => {
      const path = pointer(name, i);
      this.declare(raw, nameField, name.replace(/ies$/, 'y').replace(/s$/, ''), path);
      return this.entry(raw, schema, path);
    });
  }

  private head(): Entry<Partial<HarnessRecord>> {
    const own = Object.fromEntries(Object.entries(this.fields).filter(([key]) => !Object.hasOwn(RECORD_LIMITS, key)));
    const known = Object.keys(recordSchema.shape);
    const told = readQuantities(own, '', this.issues);
    const parsed = headSchema.safeParse(own);
    if (!parsed.success) {
      addSchemaIssues(parsed.error.issues, { path: '', value: own, fields: known, told }, this.issues);
      return { value: {}, path: '' };
    }
    return { value: parsed.data, path: '' };
  }

  private parts(): readonly Entry<Part>[] {
    return this.entries('parts').flatMap((raw, i) => {
      const path = pointer('parts', i);
      const kind = fieldOf(raw, 'kind');
      this.declare(raw, 'address', typeof kind === 'string' ? kind : 'part', path);
      const schema = typeof kind === 'string' ? partSchemas.get(kind) : undefined;
      if (schema !== undefined) return this.entry<Part>(raw, schema as unknown as EntrySchema<Part>, path);
      if (typeof raw !== 'object' || raw === null || Array.isArray(raw)) {
        this.issues.add('wrong-type', path, raw, 'a part is an object', 'an object with address and kind');
      } else {
        const reason = kind === undefined ? 'kind is missing' : `there is no kind of part ${asText(kind).slice(0, 40)}`;
        const code = kind === undefined ? 'missing-field' : 'unknown-kind';
        this.issues.add(code, `${path}/kind`, kind, reason, partKinds.join(', '), nameOf(raw, 'address'));
      }
      return [];
    });
  }

  private entry<T>(raw: unknown, schema: EntrySchema<T>, path: string): readonly Entry<T>[] {
    const part = nameOf(raw, 'address') ?? nameOf(raw, 'label') ?? nameOf(raw, 'name');
    const told = readQuantities(raw, path, this.issues, part);
    const parsed = schema.safeParse(raw);
    const refused = [...told].map((at) => at.slice(path.length + 1).split('/')[0] ?? '');
    if (parsed.success && refused.length === 0) return [{ value: dropEmptyFields(parsed.data), path }];
    if (!parsed.success) {
      const fields = Object.keys(schema.shape);
      addSchemaIssues(parsed.error.issues, { path, value: raw, fields, part, told }, this.issues);
      refused.push(...parsed.error.issues.flatMap(refusedFields));
    }
    const repaired = schema.safeParse(repairEntry(raw, refused));
    return repaired.success ? [{ value: dropEmptyFields(repaired.data), path }] : [];
  }

  private entries(name: ListName): readonly unknown[] {
    const list = this.fields[name];
    if (Array.isArray(list)) return list;
    if (list !== undefined) this.issues.add('wrong-type', pointer(name), list, `${name} is not a list`, 'a list');
    else if (name === 'parts' || name === 'wires')
      this.issues.add('missing-field', pointer(name), undefined, `${name} is missing`, 'a list, which may be empty');
    return [];
  }

  private tellTooMany(name: ListName): boolean {
    const list = this.fields[name];
    const limit = RECORD_LIMITS[name];
    if (!Array.isArray(list) || list.length <= limit) return false;
    this.issues.add(
      'record-too-large',
      pointer(name),
      list.length,
      `the record has ${list.length} ${name}`,
      `at most ${limit} ${name}`,
    );
    return true;
  }

  private declare(raw: unknown, field: string | undefined, what: string, path: string): void {
    const name = field === undefined ? undefined : nameOf(raw, field);
    if (name !== undefined && field !== undefined) this.declared.push({ name, what, path, field });
  }

  private stateNames(): readonly string[] {
    const list = this.fields.states;
    return Array.isArray(list) ? list.flatMap((raw) => nameOf(raw, 'name') ?? []) : [];
  }
}

function assemble(draft: Draft, acceptedFindings: NonNullable<HarnessRecord['acceptedFindings']>): HarnessRecord {
  const values = <T>(entries: readonly Entry<T>[]): T[] => entries.map(({ value }) => value);
  const record = {
    ...draft.head.value,
    parts: values(draft.parts),
    wires: values(draft.wires),
    segments: values(draft.segments),
    assemblies: values(draft.assemblies),
    doubleCrimps: values(draft.doubleCrimps),
    states: values(draft.states),
    acceptedFindings,
  };
  const lists = Object.entries(record).filter(([, value]) => Array.isArray(value) && value.length === 0);
  const absent = new Set(lists.map(([key]) => key).filter((key) => key !== 'parts' && key !== 'wires'));
  // The schema has accepted every entry and the head; the checks only replaced texts by their canonical spelling.
  return Object.fromEntries(Object.entries(record).filter(([key]) => !absent.has(key))) as HarnessRecord;
}

/** Names of the entry's own fields that an issue of the schema concerns. */
function refusedFields(issue: z.core.$ZodIssue): readonly string[] {
  if (issue.path.length > 0) return [String(issue.path[0])];
  return issue.code === 'unrecognized_keys' ? issue.keys : ['kind'];
}

function fieldOf(raw: unknown, field: string): unknown {
  return typeof raw === 'object' && raw !== null && Object.hasOwn(raw, field)
    ? (raw as Record<string, unknown>)[field]
    : undefined;
}

function nameOf(raw: unknown, field: string): string | undefined {
  const value = fieldOf(raw, field);
  return typeof value === 'string' && value.length <= 80 ? value : undefined;
}
