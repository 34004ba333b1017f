// Reads a record from the sheets that builders keep: parts and wires suffice. Every problem with sheet, row and column.
// It must not decode bytes (a text comes in) and must not check what the record's reader checks.

import { normaliseAddress } from './addresses.js';
import { addEntries, addHead, addToParts, addWires, partFinder, respellReferences } from './csv/add-lists.js';
import { addPart } from './csv/add-parts.js';
import { addStates } from './csv/add-states.js';
import type { SheetName } from './csv/columns.js';
import { DocumentBuilder } from './csv/document-builder.js';
import type { HeaderMapping } from './csv/match-headers.js';
import { readSheet, type Sheet, type SheetText } from './csv/read-sheet.js';
import { Respellings } from './csv/respell.js';
import type { SheetPart } from './csv/sheet-part.js';
import { parseRecord } from './parse-record.js';
import { IssueList, type ParsedRecord } from './record-issue.js';

export type { SheetText } from './csv/read-sheet.js';

export interface CsvOptions {
  /** Name of the record where no record sheet gives one. */
  readonly name?: string;
  /** By sheet name as given: header -> field (`lengthMetres`) or header of ours (`length (m)`); an empty field leaves the column out. */
  readonly columns?: Readonly<Record<string, HeaderMapping>>;
}

const LISTS: readonly (readonly [sheet: SheetName, list: string])[] = [
  ['double-crimps', 'doubleCrimps'],
  ['routes', 'segments'],
  ['assemblies', 'assemblies'],
  ['findings', 'acceptedFindings'],
];

/**
 * Reads sheets into a record. A sheet is known by its name (`parts`, `wires.csv`, `Kabelliste`) or by its header; headers may be
 * in English, German, French or Spanish, cells as people write them. What was assumed or left out comes back as warnings.
 */
export function readCsv(sheets: readonly SheetText[], options: CsvOptions = {}): ParsedRecord {
  const issues = new IssueList();
  const warnings = new IssueList();
  const read = sheets.map((sheet) => readSheet(sheet, mappingFor(options, sheet.name), issues, warnings));
  const found = read.filter((sheet) => sheet !== null);
  const builder = new DocumentBuilder(issues, warnings);
  tellMissingSheets(found, sheets.length > found.length, issues);
  fill(builder, found);
  const document = {
    format: 'lastgood-record/1',
    name: options.name ?? 'Imported harness',
    ...builder.head,
    ...builder.document,
  };
  const parsed = parseRecord(document);
  const allWarnings = [...warnings.listed(), ...parsed.warnings.map((issue) => builder.atCell(issue))];
  const parsedIssues = parsed.ok
    ? []
    : parsed.issues.filter(({ path }) => !builder.told.has(path)).map((issue) => builder.atCell(issue));
  if (parsed.ok && issues.empty) return { ...parsed, warnings: allWarnings };
  // A sheet that could not be read makes references into it unknown; those follow from it and are not told.
  const unread = sheets.length > found.length;
  const own = unread ? parsedIssues.filter(({ code }) => !FOLLOWS_FROM_UNREAD.has(code)) : parsedIssues;
  return { ok: false, issues: [...issues.listed(), ...own], warnings: allWarnings };
}

const FOLLOWS_FROM_UNREAD: ReadonlySet<string> = new Set([
  'unknown-part',
  'unknown-wire',
  'unknown-segment',
  'unknown-assembly',
  'unknown-state',
  'missing-field',
]);

function mappingFor(options: CsvOptions, name: string): HeaderMapping {
  const columns = options.columns;
  if (columns === undefined) return {};
  const stem = name.replace(/\.[a-z]+$/i, '');
  const key = [name, stem, '*'].find((candidate) => Object.hasOwn(columns, candidate));
  return key === undefined ? {} : columns[key]!;
}

function tellMissingSheets(found: readonly Sheet[], someUnread: boolean, issues: IssueList): void {
  // A sheet of the record's own fields comes with a whole export, which leaves empty sheets out.
  if (someUnread || found.some((sheet) => sheet.kind === 'record')) return;
  for (const kind of ['parts', 'wires'] as const) {
    if (found.some((sheet) => sheet.kind === kind)) continue;
    const reason = `there is no ${kind} sheet among ${found.length === 0 ? 'none' : found.map(({ name }) => name).join(', ')}`;
    issues.add('sheet-missing', kind, null, reason, 'a parts sheet and a wires sheet');
  }
}

function fill(builder: DocumentBuilder, sheets: readonly Sheet[]): void {
  const of = (kind: SheetName): readonly Sheet[] => sheets.filter((sheet) => sheet.kind === kind);
  const respellings = new Respellings();
  const withFunctions = new Set(
    of('functions').flatMap((sheet) => sheet.rows.map((row) => normaliseAddress(row.cells.get('part')?.text ?? ''))),
  );
  const hasFunctions = (address: string): boolean => withFunctions.has(normaliseAddress(address));
  for (const sheet of of('record')) addHead(builder, sheet);
  const parts = of('parts').flatMap((sheet) =>
    sheet.rows.map((row) => addPart(builder, sheet, row, respellings, hasFunctions)),
  );
  const find = partFinder(parts, respellings);
  for (const kind of ['functions', 'contacts', 'modules', 'cavities'] as const) {
    for (const sheet of of(kind)) addToParts(builder, sheet, find);
  }
  for (const sheet of of('wires')) addWires(builder, sheet, respellings);
  for (const [kind, list] of LISTS) {
    for (const sheet of of(kind)) addEntries(builder, sheet, list);
  }
  addStates(builder, of('states'));
  respellReferences(builder.document, respellings);
  assumePlain(builder, parts, of('assemblies').length > 0);
}

/** What plain lists leave unsaid: the one body that grounds are on, and the assemblies that parts name. */
function assumePlain(builder: DocumentBuilder, parts: readonly SheetPart[], hasAssemblies: boolean): void {
  const bodies = parts.filter(({ kind }) => kind === 'body');
  for (const { entry, kind, sheet, row } of parts.filter((part) => part.kind === 'ground')) {
    if (kind === null || entry.on !== undefined || bodies.length > 1) continue;
    const body = bodies[0] === undefined ? 'CHASSIS' : String(bodies[0].entry.address);
    entry.on = body;
    builder.warn(
      'body-assumed',
      sheet,
      row,
      'on',
      `${String(entry.address)} is taken to be on ${body}`,
      'the body that the stud is fixed to',
      String(entry.address),
    );
  }
  const assumed = parts.find(({ kind, entry }) => kind === 'ground' && entry.on === 'CHASSIS');
  if (bodies.length === 0 && assumed !== undefined) builder.document.parts!.push({ address: 'CHASSIS', kind: 'body' });
  if (hasAssemblies) return;
  const names = new Map<string, string>();
  for (const { entry } of parts) {
    const name = entry.assembly;
    if (typeof name === 'string' && !names.has(normaliseAddress(name))) names.set(normaliseAddress(name), name);
  }
  if (names.size > 0) builder.document.assemblies = [...names.values()].map((address) => ({ address }));
}
