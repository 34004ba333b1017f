// The bare harness as a resistor netlist for SPICE, written from the record alone, with one injected fault.
// It must not import graph, circuit or answers: it is the other side of the check.

import type { HarnessRecord } from '../../src/core/record/record.js';

export interface WireEnd {
  readonly wire: string;
  readonly end: 'from' | 'to';
}

export type InjectedFault =
  | { readonly kind: 'none' }
  /** A conductor by name: a wire, a contact `X1:3`, a stud, a strap, a leg of a bar. */
  | { readonly kind: 'open'; readonly name: string }
  | { readonly kind: 'short'; readonly a: string; readonly b: string }
  /** Two wire ends sit on each other's points. */
  | { readonly kind: 'swap'; readonly a: WireEnd; readonly b: WireEnd };

export interface Conductor {
  readonly name: string;
  readonly a: string;
  readonly b: string;
  readonly ohms: number;
}

/** ISO 6722-1, mΩ/m at 20 °C (from memory); other sizes by area. */
const MILLIOHMS: ReadonlyMap<string, number> = new Map([
  ['0.5 mm²', 37.1],
  ['0.75 mm²', 24.7],
  ['1 mm²', 18.5],
  ['1.5 mm²', 12.7],
  ['2.5 mm²', 7.6],
  ['4 mm²', 4.71],
  ['6 mm²', 3.14],
  ['10 mm²', 1.82],
]);

export interface Netlist {
  readonly conductors: readonly Conductor[];
  /** SPICE node of an address; undefined where nothing of the bare harness ends. */
  nodeOf(address: string): string | undefined;
  /** Resistor lines, without source and analysis. */
  readonly lines: readonly string[];
}

/**
 * Wires, splices, bars, mated cavities, studs on their bodies, straps: what stays when every device is off. `lifted`: ends that the plan
 * has taken off, `L12@G1` or a strap's terminal `ST1/1`.
 */
export function bareHarnessNetlist(
  record: HarnessRecord,
  fault: InjectedFault,
  lifted: ReadonlySet<string> = new Set(),
): Netlist {
  const conductors: Conductor[] = [];
  const add = (name: string, a: string, b: string, ohms: number): void => {
    if (fault.kind !== 'open' || fault.name !== name) conductors.push({ name, a, b, ohms });
  };
  addWires(record, fault, lifted, add);
  for (const part of record.parts) addPart(part, lifted, add);
  if (fault.kind === 'short') add('short', fault.a, fault.b, 0.05);
  return Object.assign(spiceLines(conductors), { conductors });
}

/** Numbered when first asked for: most faults are read without SPICE. */
function spiceLines(conductors: readonly Conductor[]): Pick<Netlist, 'lines' | 'nodeOf'> {
  const nodes = new Map<string, string>();
  const node = (address: string): string => {
    const known = nodes.get(address) ?? `n${nodes.size + 1}`;
    nodes.set(address, known);
    return known;
  };
  let lines: readonly string[] | null = null;
  const written = (): readonly string[] => {
    lines ??= conductors.map(({ a, b, ohms }, i) => `r${i + 1} ${node(a)} ${node(b)} ${ohms}`);
    return lines;
  };
  return {
    get lines() {
      return written();
    },
    nodeOf: (address) => {
      written();
      return nodes.get(address);
    },
  };
}

type Add = (name: string, a: string, b: string, ohms: number) => void;

function addWires(record: HarnessRecord, fault: InjectedFault, lifted: ReadonlySet<string>, add: Add): void {
  const byLabel = new Map(record.wires.map((wire) => [wire.label, wire]));
  const pointOf = (label: string, end: WireEnd['end']): string => {
    const at = (one: WireEnd): boolean => one.wire === label && one.end === end;
    const instead = fault.kind !== 'swap' ? null : at(fault.a) ? fault.b : at(fault.b) ? fault.a : null;
    const { wire, end: which } = instead ?? { wire: label, end };
    const point = byLabel.get(wire)?.[which] ?? '';
    return lifted.has(`${label}@${point}`) ? `${label}@${point}` : point;
  };
  for (const { label, size, lengthMetres } of record.wires) {
    const area = Number.parseFloat(size);
    const perMetre = (MILLIOHMS.get(size) ?? (size.includes('AWG') ? 20 : 18 / area)) / 1000;
    add(label, pointOf(label, 'from'), pointOf(label, 'to'), perMetre * (lengthMetres ?? 1.5) + 0.001);
  }
}

function namesOf(list: number | readonly string[]): readonly string[] {
  return typeof list === 'number' ? Array.from({ length: list }, (_, i) => String(i + 1)) : list;
}

function addPart(part: HarnessRecord['parts'][number], lifted: ReadonlySet<string>, add: Add): void {
  const { address } = part;
  if (part.kind === 'connector') {
    for (const cavity of namesOf(part.cavities))
      add(`${address}:${cavity}`, `${address}.plug/${cavity}`, `${address}.receptacle/${cavity}`, 0.003);
    for (const { half, cavities: joined } of part.bridges ?? []) {
      for (const cavity of joined.slice(1))
        add(
          `${address}:${half}.${joined[0]}.${cavity}`,
          `${address}.${half}/${joined[0]}`,
          `${address}.${half}/${cavity}`,
          0.001,
        );
    }
  } else if (part.kind === 'busbar' || part.kind === 'ground-block') {
    for (const terminal of namesOf(part.terminals))
      add(`${address}:${terminal}`, `${address}/${terminal}`, address, 0.0001);
    if (part.kind === 'ground-block' && part.on !== undefined) add(address, address, part.on, 0.0005);
  } else if (part.kind === 'ground') add(address, address, part.on, 0.0005);
  else if (part.kind === 'strap') {
    const ends = part.between.map((body, i) => (lifted.has(`${address}/${i + 1}`) ? `${address}/${i + 1}` : body));
    add(address, ends[0], ends[1], 0.0006);
  } else if (part.kind === 'tie') add(address, part.between[0], part.between[1], part.resistanceOhms ?? 0.1);
}

/** Each node leaks so many ohms to ground, so that no net floats; far above any reading, far below OL's limit times nets. */
const LEAK_OHMS = 1e9;
/** What a meter calls over the range. */
const OVER_OHMS = 1e6;

/**
 * An ngspice deck that takes readings in ohms one after the other: 1 mA in at red, out at black. Several points on one side are
 * tied to a bar. Addresses where no wire ends are lone nodes.
 */
export function readingDeck(
  netlist: Netlist,
  readings: readonly { readonly red: readonly string[]; readonly black: readonly string[] }[],
): string {
  const nodes = new Set(netlist.lines.flatMap((line) => line.split(' ').slice(1, 3)));
  const lone = new Map<string, string>();
  const at = (address: string): string => {
    const known = netlist.nodeOf(address) ?? lone.get(address) ?? `lone${lone.size + 1}`;
    if (!nodes.has(known)) {
      nodes.add(known);
      lone.set(address, known);
    }
    return known;
  };
  const bars: string[] = [];
  const commands: string[] = [];
  readings.forEach(({ red, black }, i) => {
    for (const [side, points] of [
      ['p', red],
      ['m', black],
    ] as const) {
      points.forEach((point, k) => {
        bars.push(`rb${i}${side}${k} ${at(point)} bar${i}${side} ${SWITCHED_OFF}`);
      });
      bars.push(`i${i}${side} 0 bar${i}${side} dc 0`, `rl${i}${side} bar${i}${side} 0 ${LEAK_OHMS}`);
    }
    const set = (ohms: string, amps: number): string[] => [
      ...red.map((_, k) => `alter rb${i}p${k} = ${ohms}`),
      ...black.map((_, k) => `alter rb${i}m${k} = ${ohms}`),
      `alter i${i}p = ${amps}`,
      `alter i${i}m = ${-amps}`,
    ];
    commands.push(...set('1e-6', 1e-3), 'op', `print v(bar${i}p)-v(bar${i}m)`, ...set(SWITCHED_OFF, 0));
  });
  const leaks = [...nodes].map((node, i) => `rleak${i} ${node} 0 ${LEAK_OHMS}`);
  return [
    '* bare harness',
    ...netlist.lines,
    ...leaks,
    ...bars,
    '.control',
    'set numdgt=12',
    ...commands,
    '.endc',
    '.end',
    '',
  ].join('\n');
}

const SWITCHED_OFF = '1e12';

/** Ohms of each reading in order, null for OL, from what ngspice printed. */
export function ohmsPrinted(output: string): (number | null)[] {
  return [...output.matchAll(/^v\(bar\d+p\)-v\(bar\d+m\) = (\S+)/gm)].map(([, text]) => {
    const ohms = Number(text) / 1e-3;
    return ohms > OVER_OHMS ? null : ohms;
  });
}
