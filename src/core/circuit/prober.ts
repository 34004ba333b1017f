/**
 * Many what-ifs against one settled state: each change is solved on chords first, and settled in full only when something would flip.
 * Answers as `settle` does from the same base, to the millivolt; it must not give a number that `settle` would not.
 */

import { GROUND } from '../numeric/types.js';
import { ABSENT, ChordNetwork, type ExtraLine, type Line, lineOf } from './chord-network.js';
import { voltsAcross } from './companion-network.js';
import type { Circuit } from './compile.js';
import { type Conduction, closedEdges, conductionOf } from './conduction.js';
import { followVolts } from './follow-volts.js';
import { islandsOf } from './islands.js';
import { type CircuitLaw, formOf, freshMemory, isAtLimit, type LawMemory, shouldTurn } from './laws.js';
import { edgeNumber, type Network, nodeNumber } from './network.js';
import type { MeasuredVolts } from './operating-point.js';
import { Picture } from './picture.js';
import { firstToOpen, mayOpen, type Opening } from './protection.js';
import type { ResolvedState } from './resolved-state.js';
import { settle } from './settle.js';
import { type Carry, carryOf, settledSolution } from './settled-solution.js';
import { LEAST_BRIDGE_OHMS, situationOf } from './situation.js';
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

/** What changes impose whatever gates say: lines of edges, and lines where the network has no edge. */
interface Imposed {
  readonly lines: Map<number, Line>;
  readonly extras: ExtraLine[];
  /** Elements that sit on other points: edge -> its place in `extras`. */
  readonly moved: Map<number, number>;
}

/** One what-if on its way to rest. */
interface Trial extends Imposed {
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
  private readonly localReferences: readonly number[];
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
    this.localReferences = floatingSources(picture);
    this.chords = new ChordNetwork(this.network, picture, this.baseMemories, this.localReferences);
    this.baseVariables = Uint8Array.from(circuit.variables, ({ name }) => (variablesOn.has(name) ? 1 : 0));
    this.baseOpened = new Set([...blown, ...tripped].map(({ element }) => edgeNumber(this.network, element)));
    this.volts = new Float64Array(this.network.pointIds.length);
  }

  /** Null when the change is none that chords can follow, or does not come to rest round after round. */
  probe(changes: readonly Change[]): Solution | null {
    const imposed = this.imposedBy(changes);
    if (imposed === null) return null;
    const trial: Trial = { ...imposed, variables: this.baseVariables, opened: new Map(), memories: new Map() };
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
      if (opening.how === 'cycling' || imposed.lines.has(opening.edge) || trial.opened.has(opening.edge)) return null;
      trial.opened.set(opening.edge, opening);
      seen.clear();
    }
  }

  private imposedBy(changes: readonly Change[]): Imposed | null {
    const imposed: Imposed = { lines: new Map(), extras: [], moved: new Map() };
    for (const change of changes) {
      const done = change.kind === 'bridge' ? this.addBridge(imposed, change) : this.changeEdge(imposed, change);
      if (!done) return null;
    }
    return imposed;
  }

  private addBridge({ extras }: Imposed, change: Extract<Change, { kind: 'bridge' }>): boolean {
    const { nodeOf } = this.network;
    const [from, to] = [nodeNumber(nodeOf, change.from), nodeNumber(nodeOf, change.to)];
    if (!(change.ohms >= 0)) return false;
    if (from !== to) extras.push({ from, to, siemens: 1 / Math.max(change.ohms, LEAST_BRIDGE_OHMS) });
    return true;
  }

  /** False for what chords cannot follow: curves with a resistor before them, gates that still wait for a variable. */
  private changeEdge(imposed: Imposed, change: Exclude<Change, { kind: 'bridge' }>): boolean {
    const { network, conduction } = this;
    const edge = edgeNumber(network, change.element);
    const law = network.laws[edge];
    if (imposed.lines.has(edge)) return false;
    if (change.kind === 'open' || (change.kind === 'stuck' && !change.closed)) {
      imposed.lines.set(edge, ABSENT);
      return true;
    }
    const ohms = ohmsOf(change, law);
    const isHeld = change.kind === 'stuck' || (conduction.always[edge] === 1 && !this.baseOpened.has(edge));
    if (ohms === null || !isHeld) return false;
    if (change.kind !== 'moved') {
      imposed.lines.set(edge, { siemens: 1 / ohms, amps: 0 });
      return true;
    }
    const { coil, protection } = network.elements[edge];
    if (coil !== null || protection !== null) return false;
    const to = nodeNumber(network.nodeOf, change.to);
    const ends = change.end === 'a' ? { from: to, to: network.to[edge] } : { from: network.from[edge], to };
    imposed.lines.set(edge, ABSENT);
    if (ends.from === ends.to) return false;
    imposed.moved.set(edge, imposed.extras.length);
    imposed.extras.push({ ...ends, siemens: 1 / ohms });
    return true;
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
    for (const [edge, line] of trial.lines) closed[edge] = line === ABSENT ? 0 : 1;
    const islands = this.islandsUnder(trial, closed);
    if (this.joinsLocalReference(islands)) return null;
    const lines = new Map(trial.lines);
    for (let edge = 0; edge < closed.length; edge++) {
      if (closed[edge] === base.closed[edge] || lines.has(edge)) continue;
      if (closed[edge] === 0) lines.set(edge, ABSENT);
      else if (network.ohmicSiemens[edge] > 0) lines.set(edge, { siemens: network.ohmicSiemens[edge], amps: 0 });
      else lines.set(edge, lineOf(network.laws[edge], base.voltsAcross(edge), this.memoryOf(trial, edge)));
    }
    for (let round = 0; round < MOST_ROUNDS; round++) {
      if (!this.chords.solve(lines, trial.extras, this.volts)) return null;
      if (!this.redrawn(trial, closed, lines)) return this.picture(trial, closed, islands);
    }
    return null;
  }

  /** Draws new lines for the curves that the last ones do not fit; true when there were any. */
  private redrawn(trial: Trial, closed: Uint8Array, lines: Map<number, Line>): boolean {
    const { network, volts } = this;
    const base = this.carry.picture;
    let any = false;
    for (const edge of network.curvedEdges) {
      if (closed[edge] === 0 || trial.lines.has(edge)) continue;
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

  private islandsUnder({ extras }: Trial, closed: Uint8Array): Int32Array {
    const base = this.carry.picture;
    if (extras.length === 0 && isSame(closed, base.closed)) return base.islandOf;
    return islandsOf(
      this.network,
      closed,
      extras.map(({ from, to }) => [from, to]),
    );
  }

  /** A floating island with a source is held at one node; when it comes to hang on something else it must be let go. */
  private joinsLocalReference(islands: Int32Array): boolean {
    const joined = this.localReferences.map((node) => islands[node]);
    return joined.some((island, i) => island === 0 || joined.indexOf(island) !== i);
  }

  private picture(trial: Trial, closed: Uint8Array, islands: Int32Array): Picture {
    const { network, volts } = this;
    const edgeAmps = new Float64Array(closed.length);
    for (let edge = 0; edge < closed.length; edge++) edgeAmps[edge] = this.chords.amps(edge, volts);
    const slopes = this.chords.slopes();
    for (const [edge, place] of trial.moved) {
      const { from, to, siemens } = trial.extras[place];
      closed[edge] = 1;
      slopes[edge] = siemens;
      edgeAmps[edge] = siemens * ((from === GROUND ? 0 : volts[from]) - (to === GROUND ? 0 : volts[to]));
    }
    const residual = this.chords.residual(volts);
    return new Picture(network, volts.slice(), edgeAmps, edgeAmps, slopes, closed, islands, residual);
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
    const limited = Array.from(network.curvedEdges).filter(
      (edge) => picture.closed[edge] === 1 && isAtLimit(network.laws[edge], picture.edgeAmps[edge]),
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
        limited: limited.map((edge) => network.elements[edge].id),
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

/** Ohms of an element under a change that leaves it a resistor; null for every other. */
function ohmsOf(change: Exclude<Change, { kind: 'bridge' | 'open' }>, law: CircuitLaw): number | null {
  if (change.kind === 'law')
    return change.law.kind === 'ohmic' && law.kind !== 'driver' ? positive(change.law.ohms) : null;
  if (law.kind !== 'ohmic') return null;
  return positive(change.kind === 'series' ? law.ohms + change.ohms : law.ohms);
}

const positive = (ohms: number): number | null => (ohms > 0 && ohms < Number.POSITIVE_INFINITY ? ohms : null);

function isSame(one: Uint8Array, other: Uint8Array): boolean {
  for (let i = 0; i < one.length; i++) if (one[i] !== other[i]) return false;
  return true;
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
