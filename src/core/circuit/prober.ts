/**
 * Many what-ifs against one settled state: each change is solved on chords first, and settled in full only when something would flip.
 * Answers as `settle` does from the same base, to the millivolt; it must not give a number that `settle` would not.
 */
import { ABSENT, ChordNetwork, type Line, lineOf } from './chord-network.js';
import { voltsAcross } from './companion-network.js';
import type { Circuit } from './compile.js';
import { type Conduction, closedEdges, conductionOf } from './conduction.js';
import { followVolts } from './follow-volts.js';
import { islandsOf } from './islands.js';
import { formOf, freshMemory, isAtLimit, type LawMemory, shouldTurn } from './laws.js';
import { edgeNumber, type Network } from './network.js';
import type { MeasuredVolts } from './operating-point.js';
import { Picture } from './picture.js';
import { firstToOpen, mayOpen, type Opening } from './protection.js';
import type { ResolvedState } from './resolved-state.js';
import { settle } from './settle.js';
import { type Carry, carryOf, settledSolution } from './settled-solution.js';
import { situationOf } from './situation.js';
import type { Change, Outcome, Overload, Solution } from './solution.js';
import type { SwitchVariable } from './switch-variables.js';

export interface Prober {
  /** As `settle(circuit, state, { changes, from: base })`. */
  probe(changes: readonly Change[]): Outcome;
  /** How many probes were answered by chords, and how many had to be settled. */
  readonly counts: { chords: number; settled: number };
}

/** A law and its chord may differ by this share of the current, plus some amps: well below a millivolt on any wire. */
const SHARE = 1e-6;
const LEAST_AMPS = 1e-7;
/** A load that keeps its volts this well keeps its chord. */
const NEGLIGIBLE_VOLTS = 1e-8;
/** Rounds of new chords before the full solver is asked. */
const MOST_ROUNDS = 40;

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

/** One what-if on its way to rest. */
interface Trial {
  /** Lines that the change imposes, whatever gates say. */
  readonly imposed: ReadonlyMap<number, Line>;
  /** How the circuit's variables stand, 1 = on. */
  variables: Uint8Array;
  readonly opened: Map<number, Opening>;
  /** Memories that differ from the base's, by curved edge. */
  readonly memories: Map<number, LawMemory>;
}

class ChordProber {
  private readonly carry: Carry;
  private readonly network: Network;
  private readonly conduction: Conduction;
  private readonly measured: MeasuredVolts;
  private readonly chords: ChordNetwork;
  private readonly baseVariables: Uint8Array;
  private readonly baseOpened: ReadonlySet<number>;
  /** Of each curved edge, as the base left it. */
  private readonly baseMemories: ReadonlyMap<number, LawMemory>;
  private readonly volts: Float64Array;

  constructor(
    private readonly circuit: Circuit,
    private readonly state: ResolvedState,
    private readonly base: Solution,
  ) {
    this.carry = carryOf(base);
    const { picture, memories, variablesOn, blown, tripped } = this.carry;
    this.network = picture.network;
    const { forced, measured } = situationOf(circuit, state, []);
    this.conduction = conductionOf(circuit, this.network, state, forced);
    this.measured = measured;
    this.baseMemories = new Map(
      Array.from(this.network.curvedEdges, (edge) => [
        edge,
        memories.get(this.network.elements[edge].id) ?? freshMemory(),
      ]),
    );
    this.chords = new ChordNetwork(this.network, picture, this.baseMemories, floatingSources(picture));
    this.baseVariables = Uint8Array.from(circuit.variables, ({ name }) => (variablesOn.has(name) ? 1 : 0));
    this.baseOpened = new Set([...blown, ...tripped].map(({ element }) => edgeNumber(this.network, element)));
    this.volts = new Float64Array(this.network.pointIds.length);
  }

  /** Null when the change is none that chords can follow, or does not come to rest round after round. */
  probe(changes: readonly Change[]): Solution | null {
    const imposed = this.linesOf(changes);
    if (imposed === null) return null;
    const trial: Trial = { imposed, variables: this.baseVariables, opened: new Map(), memories: new Map() };
    const seen = new Set<string>();
    for (;;) {
      const picture = this.solve(trial);
      if (picture === null) return null;
      const wanted = this.decideAll(trial.variables, picture);
      if (!isSame(wanted, trial.variables)) {
        seen.add(trial.variables.join(''));
        if (seen.has(wanted.join(''))) return null;
        trial.variables = wanted;
        continue;
      }
      const opening = firstToOpen(picture, this.conduction, this.circuit.trips);
      if (opening === null) return this.solution(picture, trial);
      if (opening.how === 'cycling' || imposed.has(opening.edge) || trial.opened.has(opening.edge)) return null;
      trial.opened.set(opening.edge, opening);
      seen.clear();
    }
  }

  private linesOf(changes: readonly Change[]): Map<number, Line> | null {
    const { network } = this;
    const { closed } = this.carry.picture;
    const lines = new Map<number, Line>();
    for (const change of changes) {
      if (change.kind === 'bridge' || change.kind === 'moved') return null;
      const edge = edgeNumber(network, change.element);
      const law = network.laws[edge];
      if (change.kind === 'open') lines.set(edge, ABSENT);
      else if (change.kind === 'stuck' && !change.closed) lines.set(edge, ABSENT);
      else if (change.kind === 'stuck' && law.kind === 'ohmic') lines.set(edge, { siemens: 1 / law.ohms, amps: 0 });
      else if (closed[edge] === 0 || network.elements[edge].gates.length > 0) return null;
      else if (change.kind === 'series' && law.kind === 'ohmic')
        lines.set(edge, { siemens: 1 / (law.ohms + change.ohms), amps: 0 });
      else if (change.kind === 'law' && change.law.kind === 'ohmic')
        lines.set(edge, { siemens: 1 / change.law.ohms, amps: 0 });
      else return null;
    }
    return lines;
  }

  /** The working point with the variables held still: motors start and stop, chords are drawn anew until all fit. */
  private solve(trial: Trial): Picture | null {
    const { network } = this;
    const base = this.carry.picture;
    const closed = closedEdges(
      this.conduction,
      trial.variables,
      new Set([...this.baseOpened, ...trial.opened.keys()]),
      0,
    );
    for (const [edge, line] of trial.imposed) closed[edge] = line === ABSENT ? 0 : 1;
    const lines = new Map(trial.imposed);
    for (let edge = 0; edge < closed.length; edge++) {
      if (closed[edge] === base.closed[edge] || lines.has(edge)) continue;
      if (closed[edge] === 0) lines.set(edge, ABSENT);
      else if (network.ohmicSiemens[edge] > 0) lines.set(edge, { siemens: network.ohmicSiemens[edge], amps: 0 });
      else lines.set(edge, lineOf(network.laws[edge], base.voltsAcross(edge), this.memoryOf(trial, edge)));
    }
    for (let round = 0; round < MOST_ROUNDS; round++) {
      if (!this.chords.solve(lines, this.volts)) return null;
      if (!this.redrawn(trial, closed, lines)) return this.picture(closed);
    }
    return null;
  }

  /** Draws new lines for the curves that the last ones do not fit; true when there were any. */
  private redrawn(trial: Trial, closed: Uint8Array, lines: Map<number, Line>): boolean {
    const { network, volts } = this;
    const base = this.carry.picture;
    let any = false;
    for (const edge of network.curvedEdges) {
      if (closed[edge] === 0 || trial.imposed.has(edge)) continue;
      const law = network.laws[edge];
      const across = voltsAcross(network, edge, volts);
      if (!lines.has(edge) && Math.abs(across - base.voltsAcross(edge)) <= NEGLIGIBLE_VOLTS) continue;
      const seen = { ...this.memoryOf(trial, edge) };
      followVolts(network, edge, seen, {
        volts,
        ampsOf: (other) => this.chords.amps(other, volts),
        measured: this.measured,
      });
      seen.assumedVolts = across;
      if (law.kind === 'motor') seen.isTurning = shouldTurn(law, across);
      const wanted = formOf(law).amps(law, across, seen);
      if (Math.abs(wanted - this.chords.amps(edge, volts)) <= SHARE * Math.abs(wanted) + LEAST_AMPS) continue;
      trial.memories.set(edge, seen);
      lines.set(edge, lineOf(law, across, seen));
      any = true;
    }
    return any;
  }

  private memoryOf(trial: Trial, edge: number): LawMemory {
    return trial.memories.get(edge) ?? this.baseMemories.get(edge) ?? freshMemory();
  }

  private picture(closed: Uint8Array): Picture {
    const { network, volts } = this;
    const base = this.carry.picture;
    const edgeAmps = new Float64Array(closed.length);
    const slopes = new Float64Array(closed.length);
    for (let edge = 0; edge < closed.length; edge++) {
      edgeAmps[edge] = this.chords.amps(edge, volts);
      slopes[edge] = this.chords.line(edge).siemens;
    }
    const islands = isSame(closed, base.closed) ? base.islandOf : islandsOf(network, closed);
    return new Picture(
      network,
      volts.slice(),
      edgeAmps,
      edgeAmps,
      slopes,
      closed,
      islands,
      this.chords.residual(volts),
    );
  }

  private decideAll(variables: Uint8Array, picture: Picture): Uint8Array {
    return Uint8Array.from(this.circuit.variables, (variable, i) =>
      variable.decide(variables[i] === 1, picture, this.state) ? 1 : 0,
    );
  }

  private solution(picture: Picture, trial: Trial): Solution {
    const { base, network, circuit } = this;
    const on = (kind?: SwitchVariable['kind']): Set<string> =>
      new Set(
        circuit.variables
          .filter((it, i) => trial.variables[i] === 1 && (kind ?? it.kind) === it.kind)
          .map(({ name }) => name),
      );
    const gone = (how: Opening['how']): Overload[] =>
      [...trial.opened.values()].filter((it) => it.how === how).map(({ overload }) => overload);
    const blown = [...base.blown, ...gone('blown')];
    const tripped = [...this.carry.tripped, ...gone('tripped')];
    const limited = network.elements.filter(
      (_, edge) => picture.closed[edge] === 1 && isAtLimit(network.laws[edge], picture.edgeAmps[edge]),
    );
    return settledSolution(
      picture,
      {
        pulledCoils: on('coil'),
        outputsOn: on('output'),
        awakeModules: on('awake'),
        blown,
        mayBlow: mayOpen(picture, this.conduction),
        cycling: base.cycling,
        limited: limited.map(({ id }) => id),
        tripped: tripped.map(({ element }) => element),
        isMean: false,
      },
      { memories: this.memoriesByElement(trial), variablesOn: on(), blown, tripped },
    );
  }

  private memoriesByElement(trial: Trial): ReadonlyMap<string, LawMemory> {
    if (trial.memories.size === 0) return this.carry.memories;
    const memories = new Map(this.carry.memories);
    for (const [edge, memory] of trial.memories) memories.set(this.network.elements[edge].id, memory);
    return memories;
  }
}

function isSame(one: Uint8Array, other: Uint8Array): boolean {
  return one.every((value, i) => value === other[i]);
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
