/**
 * Many what-ifs against one settled state: each change is solved on chords first, and settled in full only when something would flip.
 * Answers as `settle` does from the same base, to the millivolt; it must not give a number that `settle` would not.
 */
import { ABSENT, ChordNetwork, type Line, lineOf } from './chord-network.js';
import type { Circuit } from './compile.js';
import { type Conduction, conductionOf } from './conduction.js';
import { islandsOf } from './islands.js';
import { formOf, freshMemory, isAtLimit, type LawMemory, shouldTurn } from './laws.js';
import { edgeNumber, type Network } from './network.js';
import { Picture } from './picture.js';
import { firstToOpen, mayOpen } from './protection.js';
import type { ResolvedState } from './resolved-state.js';
import { settle } from './settle.js';
import { type Carry, carryOf, settledSolution } from './settled-solution.js';
import { situationOf } from './situation.js';
import type { Change, Outcome, Solution } from './solution.js';

export interface Prober {
  /** As `settle(circuit, state, { changes, from: base })`. */
  probe(changes: readonly Change[]): Outcome;
  /** How many probes were answered by chords, and how many had to be settled. */
  readonly counts: { chords: number; settled: number };
}

/** A law and its chord may differ by this share of the current, plus some amps: well below a millivolt on any wire. */
const SHARE = 1e-6;
const LEAST_AMPS = 1e-7;
/** Rounds of new chords before the full solver is asked. */
const MOST_ROUNDS = 12;

/** A prober for one base, which must come from `settle` of the same circuit and state without changes. */
export function createProber(circuit: Circuit, state: ResolvedState, base: Solution): Prober {
  const full = (changes: readonly Change[]): Outcome => settle(circuit, state, { changes, from: base });
  const counts = { chords: 0, settled: 0 };
  // pulse-width outputs make two pictures of one state: those are settled in full
  const chords = base.isMean ? null : new ChordProber(circuit, state, base);
  return {
    counts,
    probe(changes) {
      const solution = chords?.probe(changes) ?? null;
      if (solution === null) {
        counts.settled += 1;
        return full(changes);
      }
      counts.chords += 1;
      return { kind: 'settled', solution };
    },
  };
}

class ChordProber {
  private readonly carry: Carry;
  private readonly network: Network;
  private readonly conduction: Conduction;
  private readonly chords: ChordNetwork;
  /** Of each curved edge that conducts in the base. */
  private readonly memories: ReadonlyMap<number, LawMemory>;
  private readonly volts: Float64Array;

  constructor(
    private readonly circuit: Circuit,
    private readonly state: ResolvedState,
    private readonly base: Solution,
  ) {
    this.carry = carryOf(base);
    const { picture } = this.carry;
    this.network = picture.network;
    this.conduction = conductionOf(circuit, this.network, state, situationOf(circuit, state, []).forced);
    const memories = new Map<number, LawMemory>();
    for (const edge of this.network.curvedEdges) {
      if (picture.closed[edge] === 1)
        memories.set(edge, this.carry.memories.get(this.network.elements[edge].id) ?? freshMemory());
    }
    this.memories = memories;
    this.chords = new ChordNetwork(this.network, picture, memories, floatingSources(picture));
    this.volts = new Float64Array(this.network.pointIds.length);
  }

  /** Null when the change is none that chords can follow, or when something would flip. */
  probe(changes: readonly Change[]): Solution | null {
    const edits = this.editsOf(changes);
    (globalThis as any).why ??= {}; if (edits === null || !this.fitChords(edits)) {(globalThis as any).why['fit']=((globalThis as any).why['fit']??0)+1; return null;}
    const picture = this.picture(edits);
    return this.isAtRest(picture) ? this.solution(picture) : null;
  }

  private editsOf(changes: readonly Change[]): Map<number, Line> | null {
    const { network } = this;
    const { closed } = this.carry.picture;
    const edits = new Map<number, Line>();
    for (const change of changes) {
      if (change.kind === 'bridge' || change.kind === 'moved') return null;
      const edge = edgeNumber(network, change.element);
      const law = network.laws[edge];
      switch (change.kind) {
        case 'open':
          edits.set(edge, ABSENT);
          break;
        case 'stuck':
          if (change.closed && closed[edge] === 0) {
            if (law.kind !== 'ohmic') return null;
            edits.set(edge, { siemens: 1 / law.ohms, amps: 0 });
          } else if (!change.closed) edits.set(edge, ABSENT);
          break;
        case 'series':
          if (law.kind !== 'ohmic') return null;
          if (closed[edge] === 1) edits.set(edge, { siemens: 1 / (law.ohms + change.ohms), amps: 0 });
          break;
        case 'law':
          if (change.law.kind !== 'ohmic') return null;
          if (closed[edge] === 1) edits.set(edge, { siemens: 1 / change.law.ohms, amps: 0 });
          break;
      }
    }
    return edits;
  }

  /** Solves, and draws new chords for the loads whose current no longer fits, until all fit. `edits` grows by those. */
  private fitChords(edits: Map<number, Line>): boolean {
    const given = new Set(edits.keys());
    for (let round = 0; round < MOST_ROUNDS; round++) {
      if (!this.chords.solve(edits, this.volts)) return false;
      let fits = true;
      for (const [edge, memory] of this.memories) {
        if (given.has(edge)) continue;
        const across = this.across(edge);
        const seen = { ...memory, assumedVolts: across };
        const wanted = formOf(this.network.laws[edge]).amps(this.network.laws[edge], across, seen);
        if (Math.abs(wanted - this.chords.amps(edge, this.volts)) <= SHARE * Math.abs(wanted) + LEAST_AMPS) continue;
        edits.set(edge, lineOf(this.network.laws[edge], across, seen));
        fits = false;
      }
      if (fits) return true;
    }
    return false;
  }

  private across(edge: number): number {
    const { from, to } = this.network;
    return (from[edge] < 0 ? 0 : this.volts[from[edge]]) - (to[edge] < 0 ? 0 : this.volts[to[edge]]);
  }

  private picture(edits: ReadonlyMap<number, Line>): Picture {
    const { network, carry } = this;
    const closed = carry.picture.closed.slice();
    const slopes = carry.picture.slopes.slice();
    let isCut = false;
    for (const [edge, line] of edits) {
      const conducts = line === ABSENT ? 0 : 1;
      isCut ||= conducts !== closed[edge];
      closed[edge] = conducts;
      slopes[edge] = line.siemens;
    }
    const edgeAmps = new Float64Array(network.elements.length);
    for (let edge = 0; edge < edgeAmps.length; edge++) edgeAmps[edge] = this.chords.amps(edge, this.volts);
    const islands = isCut ? islandsOf(network, closed) : carry.picture.islandOf;
    return new Picture(network, this.volts.slice(), edgeAmps, edgeAmps, slopes, closed, islands, Number.NaN);
  }

  /** No coil, module, output, motor, fuse or sensed regulator would move. */
  private isAtRest(picture: Picture): boolean {
    const { circuit, state, network } = this;
    const { variablesOn } = this.carry;
    for (const variable of circuit.variables) {
      const isOn = variablesOn.has(variable.name);
      if (variable.decide(isOn, picture, state) !== isOn) { (globalThis as any).why ??= {}; (globalThis as any).why[variable.name]=((globalThis as any).why[variable.name]??0)+1; return false;}
    }
    for (const [edge, memory] of this.memories) {
      const law = network.laws[edge];
      if (
        law.kind === 'motor' &&
        picture.closed[edge] === 1 &&
        shouldTurn(law, picture.voltsAcross(edge)) !== memory.isTurning
      )
        return false;
      if (memory.offsetVolts !== 0 || law.kind === 'converter-input') {
        if (Math.abs(picture.voltsAcross(edge) - this.carry.picture.voltsAcross(edge)) > 1e-4) { (globalThis as any).why['offs '+law.kind]=((globalThis as any).why['offs '+law.kind]??0)+1; return false;}
      }
    }
    const alreadyOpen = new Set(this.base.blown.map(({ element }) => element));
    const opening = firstToOpen(picture, this.conduction, circuit.trips);
    return opening === null || alreadyOpen.has(network.elements[opening.edge].id);
  }

  private solution(picture: Picture): Solution {
    const { base, network } = this;
    const limited = network.elements.filter(
      (_, edge) => picture.closed[edge] === 1 && isAtLimit(network.laws[edge], picture.edgeAmps[edge]),
    );
    return settledSolution(
      picture,
      {
        pulledCoils: base.pulledCoils,
        outputsOn: base.outputsOn,
        awakeModules: base.awakeModules,
        blown: base.blown,
        mayBlow: mayOpen(picture, this.conduction),
        cycling: base.cycling,
        limited: limited.map(({ id }) => id),
        tripped: base.tripped,
        isMean: false,
      },
      this.carry,
    );
  }
}

/** One node of each floating island that has a source, as the full solver grounds them. */
function floatingSources(picture: Picture): number[] {
  const { network } = picture;
  const nodes = new Map<number, number>();
  for (const edge of network.curvedEdges) {
    const { kind } = network.laws[edge];
    if (picture.closed[edge] === 0 || (kind !== 'battery' && kind !== 'regulated') || network.to[edge] < 0) continue;
    const island = picture.island(network.to[edge]);
    if (island !== 0 && !nodes.has(island)) nodes.set(island, network.to[edge]);
  }
  return [...nodes.values()];
}
