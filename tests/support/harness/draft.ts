// The record of a generated harness while it grows: addresses, parts, wires, and what each function needs in order to run.
// It must not decide what to build; the circuits do.

import type { Part } from '../../../src/core/record/part.js';
import type { Segment, Wire } from '../../../src/core/record/record.js';
import type { OperatingState } from '../../../src/core/record/state.js';
import type { Random } from '../random.js';
import { chooseSize } from './wire-choice.js';

/** What a state must say for a function to run: every clause holds. */
export interface Needs {
  readonly key?: boolean;
  readonly engine?: 'stopped' | 'running';
  readonly lit?: boolean;
  /** Switch -> positions that will do. */
  readonly positions?: Readonly<Record<string, readonly string[]>>;
  /** Module output points that must be on. */
  readonly commands?: readonly string[];
  /** At least one of these. */
  readonly anyOf?: readonly Needs[];
}

export interface Net {
  readonly circuit: string;
  readonly amps: number;
  readonly fuseAmps: number;
  readonly colour: string;
  readonly marks?: Wire['marks'];
}

type LoadPart = Extract<Part, { kind: 'load' }>;
type FunctionFields = LoadPart['functions'][number];

const BASE_COLOURS = ['BK', 'BN', 'RD', 'OG', 'YE', 'GN', 'BU', 'VT', 'GY', 'WH', 'PK'] as const;

export class HarnessDraft {
  readonly parts: Part[] = [];
  readonly wires: Wire[] = [];
  readonly segments: Segment[] = [];
  readonly assemblies: { address: string; name: string }[] = [];
  /** Switches in the order made, with the positions that a state may choose. */
  readonly switches: { readonly address: string; readonly positions: readonly string[] }[] = [];
  readonly outputs: string[] = [];
  private readonly needs: { readonly fields: FunctionFields; readonly needs: Needs }[] = [];
  private readonly counters = new Map<string, number>();

  constructor(
    readonly random: Random,
    readonly systemVolts: 12 | 24,
  ) {}

  /** Next free address with these letters: `K1`, `K2`... */
  address(letters: string): string {
    const next = (this.counters.get(letters) ?? 0) + 1;
    this.counters.set(letters, next);
    return `${letters}${next}`;
  }

  add<P extends Part>(part: P): P {
    this.parts.push(part);
    return part;
  }

  colour(): string {
    const base = this.random.pick(BASE_COLOURS);
    const stripe = this.random.pick(BASE_COLOURS);
    return base === stripe ? base : `${base}/${stripe}`;
  }

  wire(from: string, to: string, metres: number, net: Net, route: readonly string[], ends: Partial<Wire> = {}): void {
    const lengthMetres = Math.round(metres * 100) / 100;
    this.wires.push({
      label: this.address('L'),
      from,
      to,
      size: chooseSize(net.amps, net.fuseAmps, lengthMetres, this.systemVolts * 0.012),
      lengthMetres,
      colour: net.colour,
      circuit: net.circuit,
      ...(route.length > 0 ? { route: [...route] } : {}),
      ...(net.marks ? { marks: net.marks } : {}),
      ...ends,
    });
  }

  /** Adds a load and remembers what each of its functions needs. */
  load(part: LoadPart, needs: readonly Needs[]): LoadPart {
    part.functions.forEach((fields, index) => {
      this.needs.push({ fields, needs: needs[index] ?? needs[0]! });
    });
    return this.add(part);
  }

  /** Adds a switch that rests in `off`; a state may put it in any of `choices`. */
  switch(fields: Omit<Extract<Part, { kind: 'switch' }>, 'kind' | 'address'>, choices: readonly string[]): string {
    const address = this.address('S');
    this.add({ ...fields, kind: 'switch', address, rest: 'off' });
    this.switches.push({ address, positions: choices });
    return address;
  }

  /** Every terminal or cavity that more than one wire ends on, for the record's `doubleCrimps`. */
  doubleCrimps(): { point: string; wires: string[] }[] {
    const ends = new Map<string, string[]>();
    for (const { from, to, label } of this.wires) {
      for (const point of [from, to]) ends.set(point, [...(ends.get(point) ?? []), label]);
    }
    const shared = [...ends].filter(([point, labels]) => labels.length > 1 && point.includes('/'));
    return shared.map(([point, wires]) => ({ point, wires }));
  }

  /** Writes into every function the names of the states that give it what it needs. */
  stateExpectations(states: readonly OperatingState[], ignitions: ReadonlySet<string>): void {
    for (const { fields, needs } of this.needs) {
      fields.runsIn = states.filter((state) => isMet(needs, state, ignitions)).map((state) => state.name);
    }
  }
}

function isMet(needs: Needs, state: OperatingState, ignitions: ReadonlySet<string>): boolean {
  const positions = state.positions ?? {};
  const keyOn = [...ignitions].every((address) => (positions[address] ?? 'off') === 'run');
  if (needs.key === true && !keyOn) return false;
  if (needs.engine !== undefined && (state.engine ?? 'stopped') !== needs.engine) return false;
  if (needs.lit === true && state.flash !== 'lit') return false;
  for (const [address, accepted] of Object.entries(needs.positions ?? {})) {
    if (!accepted.includes(positions[address] ?? 'off')) return false;
  }
  if (needs.anyOf !== undefined && !needs.anyOf.some((one) => isMet(one, state, ignitions))) return false;
  return (needs.commands ?? []).every((output) => state.commands?.[output] === true);
}
