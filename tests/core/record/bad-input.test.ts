// Every mistake of fixtures/invalid gets exactly its own error: the code that its file is named after, at the place expected.
// It must not test wording; only that there is a reason and that what is accepted is named.

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parseRecord } from '../../../src/core/record/parse-record.js';
import { readCsv } from '../../../src/core/record/read-csv.js';
import type { ParsedRecord, RecordIssue } from '../../../src/core/record/record-issue.js';

const folder = join(import.meta.dirname, '..', '..', '..', 'fixtures', 'invalid');
const sourceFolder = join(import.meta.dirname, '..', '..', '..', 'src', 'core', 'record');

/** Place of the mistake and a part of what the error says is accepted. */
const EXPECTED: Readonly<Record<string, readonly [path: string, accepted: string]>> = {
  'not-a-record.json': ['', 'an object'],
  'record-too-deep.json': [`/notes${'/0'.repeat(31)}`, '32 levels'],
  'forbidden-key.json': ['/__proto__', 'another key'],
  'text-not-clean.json': ['/parts/1/name', 'plain text'],
  'missing-field.json': ['/parts/1/ratingAmps', '10 A'],
  'missing-field.rotary.json': ['/parts/2/positions', 'positions'],
  'unknown-field.json': ['/wires/1/lenghtMetres', 'lengthMetres'],
  'wrong-type.json': ['/parts/5/functions', 'a list'],
  'unknown-word.json': ['/parts/3/contacts', 'change-over'],
  'unknown-kind.json': ['/parts/8/kind', 'fusible-link'],
  'bad-format.address.json': ['/parts/3/address', 'a letter followed by'],
  'bad-quantity.json': ['/parts/1/ratingAmps', 'A'],
  'bad-quantity.unit.json': ['/wires/2/lengthMetres', 'm'],
  'not-positive.zero-length.json': ['/wires/2/lengthMetres', 'more than 0'],
  'not-positive.negative-length.json': ['/wires/2/lengthMetres', 'more than 0'],
  'too-small.json': ['/wires/2/insulationCelsius', '40'],
  'too-large.json': ['/parts/4/rows', '20'],
  'too-few.json': ['/parts/5/functions', '1 entry'],
  'unknown-size.json': ['/wires/2/size', '1.5, 2, 2.5'],
  'unknown-colour.json': ['/wires/2/colour', 'RD/BK'],
  'duplicate-address.json': ['/parts/8/address', 'upper or lower case'],
  'duplicate-address.wire.json': ['/wires/3/label', 'upper or lower case'],
  'duplicate-state.json': ['/states/2/name', 'no other state'],
  'duplicate-position.json': ['/parts/2/positions/1/name', 'each position'],
  'duplicate-function.json': ['/parts/5/functions/1/name', 'each function'],
  'reserved-name.json': ['/parts/5/functions/0/name', 'another name'],
  'unknown-part.json': ['/wires/1/to', 'S1'],
  'unknown-terminal.relay.json': ['/wires/1/to', 'K1/30, K1/85, K1/86, K1/87'],
  'unknown-terminal.cavity.json': ['/wires/2/to', 'X1.plug/3'],
  'unknown-terminal.spare.json': ['/parts/4/spare/0', '1, 2, 3'],
  'unknown-terminal.bridge.json': ['/parts/4/bridges/0/cavities/1', '1, 2, 3'],
  'unknown-terminal.module.json': ['/parts/8/outputs/0/from', 'GND'],
  'unknown-terminal.condition.json': ['/parts/8/outputs/0/on', 'IN1, KL30'],
  'unknown-terminal.cathode.json': ['/parts/3/suppressor/cathode', '85, 86'],
  'terminal-missing.json': ['/wires/1/to', 'K1/30'],
  'half-missing.json': ['/wires/2/to', 'X1.plug/1 or X1.receptacle/1'],
  'wire-to-itself.json': ['/wires/2/to', 'two different points'],
  'wire-on-body.json': ['/wires/4/to', 'G1'],
  'wire-on-bar.json': ['/wires/1/to', 'B1/1, B1/2'],
  'wire-inside-plug.json': ['/wires/1/to', 'K1/30'],
  'wire-on-wire.json': ['/wires/4/to', 'splice'],
  'wrong-kind.body.json': ['/parts/7/on', 'FRAME'],
  'wrong-kind.measured.json': ['/states/0/measured/F1', 'BAT1'],
  'joined-to-itself.strap.json': ['/parts/8/between/1', 'two different'],
  'joined-to-itself.function.json': ['/parts/5/functions/1/return', 'two different'],
  'terminal-named-twice.json': ['/parts/8/inputs/0/terminal', 'one role'],
  'terminal-named-twice.cavity.json': ['/parts/4', 'more than case'],
  'thresholds-crossed.json': ['/parts/3/dropOutVolts', 'at most 6'],
  'repeated-temperature.json': ['/parts/8/points/1/celsius', 'once'],
  'bad-condition.json': ['/parts/8/outputs/0/on', 'parentheses'],
  'unknown-position.rest.json': ['/parts/2/rest', 'off, on'],
  'unknown-position.state.json': ['/states/1/positions/S1', 'off, on'],
  'switch-joins-nothing.json': ['/parts/8/positions', 'at least one'],
  'not-switched.json': ['/states/0/positions/K1', 'a switch'],
  'unknown-output.json': ['/states/0/commands/U1~1IN1', 'U1/O1'],
  'not-pulsed.json': ['/states/0/commands/U1~1O1', 'on, off'],
  'not-unpluggable.json': ['/states/0/unplugged/0', 'a connector, a fuse'],
  'unknown-wire.json': ['/states/0/detached/0', 'label'],
  'unknown-termination.json': ['/states/0/detached/0', 'L1@BAT1/pos'],
  'unknown-state.after.json': ['/states/1/after', 'Rest'],
  'unknown-state.function.json': ['/parts/5/functions/0/runsIn/0', 'Lamp on'],
  'state-ring.json': ['/states/0/after', 'first state'],
  'repeated-entry.json': ['/states/1/positions/s1', 'once'],
  'unknown-segment.json': ['/wires/2/route/0', 'segments'],
  'unknown-assembly.json': ['/parts/1/assembly', 'assemblies'],
  'double-crimp-elsewhere.json': ['/doubleCrimps/0/wires/1', 'ends there'],
  'double-crimp-repeated.json': ['/doubleCrimps/0/wires/1', 'each wire once'],
  'sheet-empty': ['wires.csv', 'header row'],
  'sheet-without-rows': ['wires.csv', 'one row below'],
  'sheet-missing': ['wires', 'wires sheet'],
  'sheet-unknown': ['holiday.csv', 'parts and wires'],
  'sheet-not-text': ['wires.csv', 'CSV'],
  'delimiter-unknown': ['wires.csv row 1', 'comma, semicolon or tab'],
  'delimiter-mixed': ['wires.csv row 4', 'one delimiter'],
  'quote-not-closed': ['wires.csv row 4', 'a quote at both ends'],
  'cell-without-column': ['wires.csv row 4 column 7', 'as many cells'],
  'unknown-kind': ['parts.csv row 4 column kind', 'lamp, LED, motor'],
  'bad-quantity': ['parts.csv row 4 column rating', 'W, A, V'],
  'bad-quantity.two-filaments': ['parts.csv row 4 column rating', '56a 56b 31'],
  'not-positive': ['wires.csv row 3 column length', 'more than 0'],
  'unknown-part': ['wires.csv row 3 column to', 'E1'],
  'unknown-size': ['wires.csv row 5 column size', '10, 12, 16'],
  'unknown-colour': ['wires.csv row 3 column colour', 'RD/BK'],
  'duplicate-address': ['wires.csv row 5 column label', 'upper or lower case'],
  'unknown-terminal': ['wires.csv row 3 column from', 'F1/in, F1/out'],
  'unknown-field': ['record.csv row 3 column field', 'vehicle'],
  'missing-field': ['wires.csv row 3 column size', '18 AWG'],
  'unknown-word': ['states.csv row 3 column what', 'position'],
  'unknown-part.functions': ['functions.csv row 2 column part', 'parts sheet'],
};

const names = readdirSync(folder).sort();

function read(name: string): ParsedRecord {
  if (name.endsWith('.json')) return parseRecord(JSON.parse(readFileSync(join(folder, name), 'utf8')));
  const files = readdirSync(join(folder, name)).sort();
  return readCsv(files.map((file) => ({ name: file, text: readFileSync(join(folder, name, file), 'utf8') })));
}

function issuesOf(parsed: ParsedRecord): readonly RecordIssue[] {
  return parsed.ok ? [] : parsed.issues;
}

describe('a bad document or sheet', () => {
  it('stands in the table above, each one', () => {
    expect(Object.keys(EXPECTED).sort()).toEqual(names);
  });

  it.each(names)('%s is refused for its one mistake', (name) => {
    const [path, accepted] = EXPECTED[name]!;
    const issues = issuesOf(read(name));
    expect(issues.map((issue) => issue.code)).toEqual(issues.map(() => name.split('.')[0]));
    expect(issues.map((issue) => issue.path)).toContain(path);
    expect(issues[0]!.accepted).toContain(accepted);
    expect(issues[0]!.reason.length).toBeGreaterThan(5);
  });
});

describe('the codes', () => {
  /** Told by tests of their own: they need a document too large for a file, or cannot come from a file. */
  const elsewhere = ['more-issues', 'record-too-large', 'not-accepted'];

  it('all have a fixture', () => {
    const told = new Set<string>();
    for (const file of readdirSync(sourceFolder, { recursive: true, encoding: 'utf8' }).filter((entry) =>
      entry.endsWith('.ts'),
    )) {
      const text = readFileSync(join(sourceFolder, file), 'utf8');
      for (const match of text.matchAll(
        /(?:issues\.add|\.tell|refuse|readText|readNamed)\(\s*(?:[^'"`()]*,\s*)?'([a-z]+(?:-[a-z]+)+)'/g,
      ))
        told.add(match[1]!);
      for (const match of text.matchAll(/code: '([a-z]+(?:-[a-z]+)+)'/g)) told.add(match[1]!);
    }
    const covered = new Set([...names.map((name) => name.split('.')[0]!), ...elsewhere]);
    expect(told.size).toBeGreaterThan(50);
    expect([...told].filter((code) => !covered.has(code))).toEqual([]);
  });
});
