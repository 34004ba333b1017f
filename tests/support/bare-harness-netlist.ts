// The bare harness as a resistor netlist for SPICE, written from the record alone, with one injected fault.
// It must not import graph, circuit or answers: it is the other side of the check.

import type { HarnessRecord } from '../../src/core/record/record.js';

export type InjectedFault =
  | { readonly kind: 'none' }
  | { readonly kind: 'open'; readonly wire: string }
  | { readonly kind: 'short'; readonly a: string; readonly b: string }
  /** The `to` ends of two wires sit on each other's points. */
  | { readonly kind: 'swap'; readonly a: string; readonly b: string };

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
  /** SPICE node of an address; undefined where nothing of the bare harness ends. */
  nodeOf(address: string): string | undefined;
  /** Resistor lines, without source and analysis. */
  readonly lines: readonly string[];
}

/** Wires, splices, bars, mated cavities, studs on their bodies, straps: what stays when every device is off. */
export function bareHarnessNetlist(record: HarnessRecord, fault: InjectedFault): Netlist {
  const nodes = new Map<string, string>();
  const lines: string[] = [];
  const node = (address: string): string => {
    const known = nodes.get(address);
    if (known !== undefined) return known;
    const name = `n${nodes.size + 1}`;
    nodes.set(address, name);
    return name;
  };
  const resistor = (a: string, b: string, ohms: number): void => {
    lines.push(`r${lines.length + 1} ${node(a)} ${node(b)} ${ohms}`);
  };
  const toOf = (label: string, own: string): string => {
    if (fault.kind !== 'swap') return own;
    const other = label === fault.a ? fault.b : label === fault.b ? fault.a : null;
    return other === null ? own : (record.wires.find((wire) => wire.label === other)?.to ?? own);
  };
  for (const wire of record.wires) {
    if (fault.kind === 'open' && fault.wire === wire.label) continue;
    const area = Number.parseFloat(wire.size);
    const perMetre = (MILLIOHMS.get(wire.size) ?? (wire.size.includes('AWG') ? 20 : 18 / area)) / 1000;
    resistor(wire.from, toOf(wire.label, wire.to), perMetre * (wire.lengthMetres ?? 1.5) + 0.001);
  }
  for (const part of record.parts) {
    if (part.kind === 'connector') {
      const cavities = Array.isArray(part.cavities)
        ? part.cavities
        : Array.from({ length: part.cavities }, (_, i) => String(i + 1));
      for (const cavity of cavities)
        resistor(`${part.address}.plug/${cavity}`, `${part.address}.receptacle/${cavity}`, 0.003);
      for (const { half, cavities: joined } of part.bridges ?? []) {
        for (const cavity of joined.slice(1))
          resistor(`${part.address}.${half}/${joined[0]}`, `${part.address}.${half}/${cavity}`, 0.001);
      }
    } else if (part.kind === 'busbar' || part.kind === 'ground-block') {
      const terminals = Array.isArray(part.terminals)
        ? part.terminals
        : Array.from({ length: part.terminals }, (_, i) => String(i + 1));
      for (const terminal of terminals) resistor(`${part.address}/${terminal}`, part.address, 0.0001);
      if (part.kind === 'ground-block' && part.on !== undefined) resistor(part.address, part.on, 0.0005);
    } else if (part.kind === 'ground') resistor(part.address, part.on, 0.0005);
    else if (part.kind === 'strap') resistor(part.between[0], part.between[1], 0.0006);
    else if (part.kind === 'tie') resistor(part.between[0], part.between[1], part.resistanceOhms ?? 0.1);
  }
  if (fault.kind === 'short') resistor(fault.a, fault.b, 0.05);
  return { nodeOf: (address) => nodes.get(address), lines };
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
