// Arbitrary records of every part kind, with every field of the schema now and then present and all references right.
// It must not go through the code under test but for the points and positions of parts, to know what may be named.

import fc from 'fast-check';
import type { z } from 'zod';
import { contactTableOf } from '../../src/core/record/contact-tables.js';
import { type Part, type PartOf, partSchema } from '../../src/core/record/part.js';
import { mountOf, pointsOf } from '../../src/core/record/points.js';
import {
  type HarnessRecord,
  recordSchema,
  type Segment,
  segmentSchema,
  type Wire,
  wireSchema,
} from '../../src/core/record/record.js';
import { type OperatingState, operatingStateSchema } from '../../src/core/record/state.js';
import { arbitraryOf, keptText } from './schema-arbitrary.js';

type Pick = <T>(among: readonly T[]) => T;
type LoadFunction = PartOf<'load'>['functions'][number];

const SIZES = ['18 AWG', '2/0 AWG', '0.75 mm²', '1.5 mm²', '35 mm²'];
const COLOURS = ['RD', 'RD/BK', 'GN/YE', 'BU/WH/BK'];
const TERMINALS = [
  '1',
  '2',
  '3',
  '30',
  '87a',
  'B+',
  'x_1',
  'L-2',
  '49a',
  'Z9',
  '15',
  '7',
  '58R',
  'q',
  'H',
  'P0',
  'P1',
  'P2',
  'P3',
  'P4',
];

const drawOf = <T>(schema: z.core.$ZodType): fc.Arbitrary<T> => arbitraryOf(schema) as fc.Arbitrary<T>;
const headSchema = recordSchema.omit({
  parts: true,
  wires: true,
  segments: true,
  assemblies: true,
  doubleCrimps: true,
  states: true,
  acceptedFindings: true,
});
const nameKey = (name: string): string =>
  name
    .normalize('NFKC')
    .replace(/[\s\p{Cf}]/gu, '')
    .toLowerCase();

/** A document that `parseRecord` accepts. Empty lists are left in; the record leaves them out. */
export const arbitraryDocument: fc.Arbitrary<HarnessRecord> = fc
  .record({
    head: drawOf<Partial<HarnessRecord>>(headSchema),
    parts: fc.array(fc.oneof(...partSchema.options.map((option) => drawOf<Part>(option))), { maxLength: 7 }),
    wires: fc.array(drawOf<Wire>(wireSchema), { maxLength: 5 }),
    segments: fc.array(drawOf<Segment>(segmentSchema), { maxLength: 2 }),
    assemblyNames: fc.array(fc.option(keptText(40), { nil: undefined }), { maxLength: 2 }),
    states: fc.array(drawOf<OperatingState>(operatingStateSchema), { maxLength: 3 }),
    stateNames: fc.uniqueArray(keptText(40), { minLength: 3, maxLength: 3, selector: nameKey }),
    findings: drawOf<HarnessRecord['acceptedFindings']>(recordSchema.shape.acceptedFindings),
    choices: fc.array(fc.nat(999), { minLength: 40, maxLength: 40 }),
    crimp: fc.boolean(),
  })
  .map((drawn) => {
    let at = 0;
    const pick: Pick = (among) => {
      at += 1;
      return among[drawn.choices[at % drawn.choices.length]! % among.length]!;
    };
    const assemblies = drawn.assemblyNames.map((name, i) => clean({ address: `BOX${i}`, name }));
    const segments = drawn.segments.map((segment, i) =>
      clean({ ...segment, address: `R${i}`, passes: segment.passes && 'FRAME' }),
    );
    const stateNames = drawn.stateNames.slice(0, drawn.states.length);
    const parts: Part[] = [
      { address: 'FRAME', kind: 'body' },
      { address: 'Cab-1', kind: 'body' },
      ...drawn.parts.map((part, i) =>
        rightPart({ ...part, address: `${pick(['K', 'X', 'plug', 'S'])}_${i}` }, assemblies, stateNames, pick),
      ),
    ];
    const points = parts.flatMap((part) => pointsOf(part)).map(({ address }) => address);
    for (const part of parts) {
      if (part.kind === 'tie') part.between = ['FRAME', pick(points.slice(1))];
      if (part.kind === 'alternator' && part.sense !== undefined) part.sense = pick(points);
    }
    const ends = parts
      .flatMap((part) => pointsOf(part).filter((point) => point.wireable))
      .map(({ address }) => address);
    const wires = ends.length < 3 ? [] : drawn.wires.map((wire, i) => rightWire(wire, i, ends, segments, pick));
    const crimp = drawn.crimp ? crimpPoint(parts) : undefined;
    const others = ends.filter((end) => end !== crimp);
    const crimped = crimp === undefined || others.length < 2 ? [] : crimpWires(crimp, others);
    return clean({
      ...drawn.head,
      reference: drawn.head.reference && pick(points),
      parts,
      wires: [...wires, ...crimped],
      segments,
      assemblies,
      doubleCrimps: crimped.length === 0 ? [] : [{ point: crimp!, wires: crimped.map(({ label }) => label) }],
      states: drawn.states.map((state, i) => rightState(state, i, stateNames, parts, wires, points, pick)),
      acceptedFindings: drawn.findings,
    }) as HarnessRecord;
  });

function crimpPoint(parts: readonly Part[]): string | undefined {
  const crimpable = parts.filter((part) => part.kind !== 'splice' && mountOf(part) !== 'bolted');
  return crimpable.flatMap((part) => pointsOf(part).filter((point) => point.wireable))[0]?.address;
}

function crimpWires(point: string, others: readonly string[]): readonly Wire[] {
  return [
    { label: 'C1', from: point, to: others[0]!, size: '1.5 mm²' },
    { label: 'C2', from: others[1]!, to: point, size: '1.5 mm²' },
  ];
}

function rightPart(
  part: Part,
  assemblies: readonly { address: string }[],
  states: readonly string[],
  pick: Pick,
): Part {
  if (part.assembly !== undefined) part.assembly = assemblies.length === 0 ? undefined : pick(assemblies).address;
  if ('caseOn' in part && part.caseOn !== undefined) part.caseOn = pick(['FRAME', 'Cab-1']);
  if ('on' in part && part.on !== undefined) part.on = 'FRAME';
  switch (part.kind) {
    case 'load':
      part.functions = byKey(part.functions, (fn) => fn.name.toLowerCase())
        .filter((fn) => fn.name.toLowerCase() !== 'case')
        .map((fn) => rightFunction(fn, states));
      if (part.functions.length === 0) part.functions = [{ name: 'main', law: 'led' }];
      for (const contact of part.limitContacts ?? []) contact.between = ['53', '31b'];
      break;
    case 'strap':
      part.between = ['FRAME', 'Cab-1'];
      break;
    case 'connector':
      rightConnector(part);
      break;
    case 'busbar':
    case 'ground-block':
      if (typeof part.terminals !== 'number') part.terminals = TERMINALS.slice(0, part.terminals.length);
      break;
    case 'diode-isolator':
      if (part.outputs !== undefined) part.outputs = TERMINALS.slice(2, 2 + part.outputs.length);
      break;
    case 'switch':
      rightSwitch(part, pick);
      break;
    case 'module':
      rightModule(part, pick);
      break;
    case 'relay':
      if (part.suppressor?.cathode !== undefined) part.suppressor.cathode = '85';
      if (part.dropOutVolts !== undefined && part.pullInVolts !== undefined) {
        [part.dropOutVolts, part.pullInVolts] = ordered(part.dropOutVolts, part.pullInVolts);
      }
      break;
    case 'starter':
      if (part.dropOutVolts !== undefined && part.pullInVolts !== undefined) {
        [part.dropOutVolts, part.pullInVolts] = ordered(part.dropOutVolts, part.pullInVolts);
      }
      break;
    case 'split-charge-relay':
      if (part.disconnectVolts !== undefined && part.connectVolts !== undefined) {
        [part.disconnectVolts, part.connectVolts] = ordered(part.disconnectVolts, part.connectVolts);
      }
      break;
    case 'thermistor':
      part.points = part.points.map((point, i) => ({ ...point, celsius: i * 60 - 40.5 }));
      break;
    case 'fusible-link':
      part.size = pick(SIZES);
      break;
  }
  return clean(part);
}

function rightFunction(fn: LoadFunction, states: readonly string[]): LoadFunction {
  const right: LoadFunction = {
    ...fn,
    feed: fn.feed && '56a',
    return: fn.return && '31',
    runsIn: fn.runsIn && states.slice(0, fn.runsIn.length),
  };
  if (right.deadBelowVolts !== undefined && right.weakBelowVolts !== undefined) {
    [right.deadBelowVolts, right.weakBelowVolts] = ordered(right.deadBelowVolts, right.weakBelowVolts);
  }
  return clean(right);
}

function rightConnector(part: PartOf<'connector'>): void {
  if (typeof part.cavities !== 'number') part.cavities = TERMINALS.slice(0, part.cavities.length);
  const cavities =
    typeof part.cavities === 'number' ? Array.from({ length: part.cavities }, (_, i) => String(i + 1)) : part.cavities;
  part.spare = part.spare && cavities.slice(0, part.spare.length);
  part.bridges =
    cavities.length < 2 ? undefined : part.bridges?.map((bridge) => ({ ...bridge, cavities: cavities.slice(-2) }));
}

function rightSwitch(part: PartOf<'switch'>, pick: Pick): void {
  if (part.positions === undefined) {
    if (part.style === 'rotary') part.style = 'momentary';
  } else {
    part.positions = byKey(part.positions, (position) => position.name.toLowerCase()).map((position) => ({
      ...position,
      joins: position.joins.map((set, i) => TERMINALS.slice(i, i + Math.max(2, set.length))),
    }));
    if (part.positions.length < 2) part.positions.push({ name: 'one more', joins: [] });
    part.positions[0]!.joins = [['1', '2']];
  }
  if (part.rest === undefined) return;
  part.rest = undefined;
  part.rest = pick(contactTableOf(part)!.positions).name;
}

function rightModule(part: PartOf<'module'>, pick: Pick): void {
  let next = 0;
  const lists = [part.supplies, part.grounds, part.outputs ?? [], part.inputs ?? [], part.sensorSupplies ?? []];
  for (const pin of lists.flat()) {
    pin.terminal = `P${next}`;
    next += 1;
  }
  const supplies = part.supplies.map(({ terminal }) => terminal);
  const grounds = part.grounds.map(({ terminal }) => terminal);
  const condition = [...(part.inputs ?? []), ...part.supplies]
    .map(({ terminal }, i) => (i % 2 === 0 ? terminal : `!${terminal}`))
    .join(' & ');
  part.outputs = part.outputs?.map((pin) =>
    clean({
      ...pin,
      from: pin.from && pick(pin.side === 'high' ? supplies : grounds),
      on: pin.on && condition,
    }),
  );
  part.inputs = part.inputs?.map((pin) =>
    clean({ ...pin, to: pin.to && pick(pin.pull === 'up' ? supplies : grounds) }),
  );
  part.sensorSupplies = part.sensorSupplies?.map((pin) => clean({ ...pin, ground: pin.ground && pick(grounds) }));
}

function rightWire(wire: Wire, i: number, ends: readonly string[], segments: readonly Segment[], pick: Pick): Wire {
  const from = pick(ends);
  return clean({
    ...wire,
    label: `L${i}`,
    from,
    to: pick(ends.filter((end) => end !== from)),
    size: pick(SIZES),
    colour: wire.colour && pick(COLOURS),
    route: wire.route && segments.map(({ address }) => address),
  });
}

function rightState(
  state: OperatingState,
  i: number,
  names: readonly string[],
  parts: readonly Part[],
  wires: readonly Wire[],
  points: readonly string[],
  pick: Pick,
): OperatingState {
  const of = (kinds: readonly string[]): string[] =>
    parts.filter(({ kind }) => kinds.includes(kind)).map(({ address }) => address);
  const filled = <T>(
    map: Record<string, T> | undefined,
    kinds: readonly string[],
    values: readonly T[],
  ): Record<string, T> | undefined => map && Object.fromEntries(of(kinds).map((address) => [address, pick(values)]));
  const positions = parts.flatMap((part) => {
    const table = contactTableOf(part);
    return table === null ? [] : [[part.address, pick(table.positions).name] as const];
  });
  const commands = parts.flatMap((part) => {
    const outputs = part.kind === 'module' ? (part.outputs ?? []) : [];
    return outputs.map(
      (pin) =>
        [
          `${part.address}/${pin.terminal}`,
          pick(pin.pulsed === true ? [0, 0.3, 1, true] : [0, 1, true, false]),
        ] as const,
    );
  });
  return clean({
    ...state,
    name: names[i]!,
    after: state.after && i > 0 ? pick(names.slice(0, i)) : undefined,
    positions: state.positions && Object.fromEntries(positions),
    commands: state.commands && Object.fromEntries(commands),
    unplugged: state.unplugged && of(['connector', 'fuse']),
    detached: state.detached && wires.slice(0, 2).map(({ label, to }, k) => (k === 0 ? label : `${label}@${to}`)),
    restored: state.restored && of(['fuse', 'breaker', 'fusible-link']),
    links: state.links?.map((link) => clean({ ...link, from: points[0]!, to: pick(points.slice(1)) })),
    attached: filled(
      state.attached,
      ['external-supply', 'jump-posts'],
      [{}, { outputVolts: 13.8 }, { outputVolts: 14, limitAmps: 5 }],
    ),
    measured: filled(state.measured, ['battery'], [12.4, 12.65, 1e-7]),
    celsius: filled(state.celsius, ['thermistor'], [-20, 0, 80.5]),
    travel: filled(state.travel, ['potentiometer'], [0, 0.25, 1]),
  });
}

function ordered(a: number, b: number): [number, number] {
  return a <= b ? [a, b] : [b, a];
}

function byKey<T>(entries: readonly T[], key: (entry: T) => string): T[] {
  return [...new Map(entries.map((entry) => [key(entry), entry])).values()];
}

function clean<T extends object>(entry: T): T {
  return Object.fromEntries(Object.entries(entry).filter(([, value]) => value !== undefined)) as T;
}
