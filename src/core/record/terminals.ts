// Which terminals each part kind has, and the other names people give them.
// It must not build point addresses (points.ts) and must not check a record.

import { contactTableOf } from './contact-tables.js';
import type { Part, PartOf } from './part.js';

const POSITIVE = ['+', 'pos', 'positive', 'plus', 'b+', 'bat', 'bat+', '30'] as const;
const NEGATIVE = [
  '-',
  'neg',
  'negative',
  'minus',
  'b-',
  'bat-',
  '31',
  'gnd',
  'ground',
  'earth',
  'mass',
  'masse',
] as const;
const FEED = [...POSITIVE, 'feed', 'in', '1', 'a', 'anode', 'hot', 'live', 'supply', '15'] as const;
const RETURN = [...NEGATIVE, 'return', 'out', '2', 'k', 'cathode'] as const;

/** Aliases by canonical terminal; a name that is itself a terminal of the part is never taken as an alias. */
export type TerminalAliases = ReadonlyMap<string, readonly string[]>;

/** The terminals of a part in the order people read them; empty for parts of a single point and for ties. */
export function terminalsOf(part: Part): readonly string[] {
  switch (part.kind) {
    case 'battery':
    case 'external-supply':
    case 'jump-posts':
      return ['pos', 'neg'];
    case 'alternator':
      return part.caseOn === undefined ? ['B+', '61', '31'] : ['B+', '61', 'case'];
    case 'converter':
      return part.isolated === true ? ['in', 'out', 'neg', 'outneg'] : ['in', 'out', 'neg'];
    case 'split-charge-relay':
      return ['A', 'B', '31'];
    case 'diode-isolator':
      return ['in', ...(part.outputs ?? ['A1', 'A2'])];
    case 'fuse':
    case 'fusible-link':
    case 'breaker':
      return ['in', 'out'];
    case 'relay':
      return relayTerminals(part);
    case 'switch':
      return unique((contactTableOf(part)?.positions ?? []).flatMap((position) => position.joins.flat()));
    case 'flasher':
      return ['49', '49a', '31'];
    case 'sensor-switch':
    case 'thermistor':
      return part.caseOn === undefined ? ['1', '2'] : ['1', 'case'];
    case 'connector':
      return numbered(part.cavities);
    case 'busbar':
    case 'ground-block':
      return numbered(part.terminals);
    case 'load':
      return loadTerminals(part);
    case 'starter':
      return part.caseOn === undefined ? ['30', '50', '31'] : ['30', '50', 'case'];
    case 'module':
      return moduleTerminals(part);
    case 'diode':
    case 'suppressor':
      return ['a', 'k'];
    case 'potentiometer':
      return ['1', '2', '3'];
    case 'master-switch':
    case 'strap':
    case 'resistor':
    case 'shunt':
    case 'bus-terminator':
      return ['1', '2'];
    case 'splice':
    case 'ground':
    case 'body':
    case 'tie':
      return [];
    default:
      return part satisfies never;
  }
}

/** Names beside the canonical ones, by terminal. */
export function terminalAliasesOf(part: Part): TerminalAliases {
  const terminals = terminalsOf(part);
  const own = new Set(terminals.map((terminal) => terminal.toLowerCase()));
  const taken = new Set<string>();
  const aliases = new Map<string, readonly string[]>();
  for (const [terminal, names] of aliasRows(part)) {
    if (!terminals.includes(terminal)) continue;
    const free = names.filter((name) => !own.has(name) && !taken.has(name));
    for (const name of free) taken.add(name);
    aliases.set(terminal, [...(aliases.get(terminal) ?? []), ...free]);
  }
  return aliases;
}

type AliasRow = readonly [terminal: string, names: readonly string[]];

function aliasRows(part: Part): readonly AliasRow[] {
  switch (part.kind) {
    case 'battery':
    case 'external-supply':
    case 'jump-posts':
      return [
        ['pos', POSITIVE],
        ['neg', NEGATIVE],
      ];
    case 'alternator':
      return [
        ['B+', [...POSITIVE, 'b', 'out']],
        ['61', ['d+', 'l', 'lamp', 'ind']],
        ['31', NEGATIVE],
        ['case', NEGATIVE],
      ];
    case 'converter':
      return [
        ['in', ['in+', 'input', 'vin']],
        ['out', ['out+', 'output', 'vout']],
        ['neg', [...NEGATIVE, 'in-', 'common']],
        ['outneg', ['out-']],
      ];
    case 'split-charge-relay':
      return [
        ['A', ['main', 'starter', '1']],
        ['B', ['aux', 'second', '2']],
        ['31', NEGATIVE],
      ];
    case 'diode-isolator':
      return [['in', ['a', 'alt', 'alternator', ...POSITIVE]]];
    case 'fuse':
    case 'fusible-link':
    case 'breaker':
    case 'master-switch':
      return [
        ['in', ['1', 'a', 'line', 'feed', 'supply', 'bat', '30']],
        ['out', ['2', 'b', 'load', 'lo', '87']],
        ['1', ['in', 'a', 'bat']],
        ['2', ['out', 'b', 'load']],
      ];
    case 'relay':
      return [
        ['30', ['com', 'common', 'c']],
        ['86', ['coil+', 'coil1']],
        ['85', ['coil-', 'coil2']],
        ['87', ['no', 'make']],
        ['87a', ['nc', 'break']],
        ['87', ['out']],
      ];
    case 'switch':
      return [
        ['1', ['in', 'com', 'common', 'c', 'a']],
        ['2', ['out', 'b']],
        ['30', ['bat', 'b', 'b+', '+']],
        ['15', ['ign', 'run']],
        ['50', ['st', 'start']],
        ['75', ['acc', 'r']],
      ];
    case 'flasher':
      return [
        ['49', [...POSITIVE, 'x', 'in']],
        ['49a', ['l', 'load', 'out']],
        ['31', [...NEGATIVE, 'e']],
      ];
    case 'sensor-switch':
    case 'thermistor':
    case 'bus-terminator':
    case 'resistor':
    case 'shunt':
      return [
        ['1', ['in', 'a', 'signal', 'sig', 'h']],
        ['2', [...NEGATIVE, 'out', 'b', 'return', 'l']],
        ['case', NEGATIVE],
      ];
    case 'starter':
      return [
        ['30', [...POSITIVE, 'b']],
        ['50', ['s', 'sol', 'solenoid', 'start']],
        ['31', NEGATIVE],
        ['case', NEGATIVE],
      ];
    case 'diode':
    case 'suppressor':
      return [
        ['a', ['anode', '+', '1']],
        ['k', ['cathode', 'kathode', 'c', '-', '2']],
      ];
    case 'potentiometer':
      return [
        ['1', ['supply', '5v', 'vref', 'a', '+']],
        ['2', ['wiper', 'signal', 'sig', 's']],
        ['3', [...NEGATIVE, 'return', 'b']],
      ];
    case 'load':
      return loadAliases(part);
    case 'module':
      return [
        ...(part.supplies.length === 1 ? [[part.supplies[0]!.terminal, POSITIVE] as const] : []),
        ...(part.grounds.length === 1 ? [[part.grounds[0]!.terminal, NEGATIVE] as const] : []),
      ];
    case 'connector':
    case 'busbar':
    case 'ground-block':
    case 'strap':
    case 'splice':
    case 'ground':
    case 'body':
    case 'tie':
      return [];
    default:
      return part satisfies never;
  }
}

/** Only where all functions share one feed (or one return) does `+` (or `-`) mean a definite terminal. */
function loadAliases(part: PartOf<'load'>): readonly AliasRow[] {
  const feeds = unique(part.functions.map((fn) => fn.feed ?? 'feed'));
  const returns = unique(part.functions.map((fn) => fn.return ?? 'return'));
  return [
    ...(feeds.length === 1 ? [[feeds[0]!, FEED] as const] : []),
    ...(returns.length === 1 ? [[returns[0]!, RETURN] as const] : []),
  ];
}

function relayTerminals(part: PartOf<'relay'>): readonly string[] {
  switch (part.contacts ?? 'make') {
    case 'make':
      return ['30', '85', '86', '87'];
    case 'break':
      return ['30', '85', '86', '87a'];
    case 'change-over':
      return ['30', '85', '86', '87', '87a'];
    case 'twin-make':
      return ['30', '85', '86', '87', '87b'];
  }
}

function loadTerminals(part: PartOf<'load'>): readonly string[] {
  return unique([
    ...part.functions.flatMap((fn) => [fn.feed ?? 'feed', fn.return ?? 'return']),
    ...(part.limitContacts ?? []).flatMap((contact) => contact.between),
    ...(part.caseOn === undefined ? [] : ['case']),
  ]);
}

function moduleTerminals(part: PartOf<'module'>): readonly string[] {
  return unique([
    ...part.supplies.map((pin) => pin.terminal),
    ...part.grounds.map((pin) => pin.terminal),
    ...(part.outputs ?? []).map((pin) => pin.terminal),
    ...(part.inputs ?? []).map((pin) => pin.terminal),
    ...(part.sensorSupplies ?? []).map((pin) => pin.terminal),
    ...(part.caseOn === undefined ? [] : ['case']),
  ]);
}

/** `4` gives 1 to 4; a list gives itself. */
function numbered(count: number | readonly string[]): readonly string[] {
  return typeof count === 'number' ? Array.from({ length: count }, (_, i) => String(i + 1)) : count;
}

function unique(names: readonly string[]): readonly string[] {
  return [...new Set(names)];
}
