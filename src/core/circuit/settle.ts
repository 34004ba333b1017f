/**
 * What a circuit does in a state: relays, modules, fuses and sources come to rest, or it is said why they do not.
 * Pure: the same circuit, state and options give the same outcome; nothing is kept between calls.
 */
import type { Circuit } from './compile.js';
import { conductionOf, firmEdges } from './conduction.js';
import { impossibleSources, meaninglessLaw } from './impossible.js';
import { isAtLimit } from './laws.js';
import { type Budget, OperatingPointSolver } from './operating-point.js';
import { firstToOpen, letsGo, mayOpen, type Opening } from './protection.js';
import { allAtOnce, type Bench, oneAtATime, type Relaxed, relax, type Stand } from './relaxation.js';
import type { ResolvedState } from './resolved-state.js';
import { type Carry, carryOf, settledSolution } from './settled-solution.js';
import { type Situation, situationOf } from './situation.js';
import { type Change, type Outcome, type Overload, type Solution, solutionsOf } from './solution.js';
import { isMoving, type SwitchVariable } from './switch-variables.js';

export interface SettleOptions {
  /** Departures from the record, imposed before settling. */
  readonly changes?: readonly Change[];
  /** Start from where this solution ended: blown fuses stay blown, latched relays hold. Takes the place of `state.after`. */
  readonly from?: Solution;
  /** Asked before every network solve; true ends the work with the outcome `stopped`. */
  readonly isCancelled?: () => boolean;
  /** Network solves allowed before the outcome is `stopped`; 20,000 when absent. */
  readonly maxSolves?: number;
}

const MOST_SOLVES = 20_000;

/**
 * Settles from the de-energised state (all released), or from where `from` or the state before ended.
 *
 * All that closes by itself moves at once, round after round. At rest the worst overload opens, and all settles again. A
 * cycle is redone one relay at a time in address order: if that rests it is a race, else chatter. Without a state before,
 * the same is done from all relays pulled in; another end means several stable states (a lower bound on their number).
 *
 * Throws a RangeError when a change names an element or point that the harness lacks.
 */
export function settle(circuit: Circuit, state: ResolvedState, options: SettleOptions = {}): Outcome {
  const changes = options.changes ?? [];
  const before = beginning(circuit, state, options);
  if (before !== null && before.kind !== 'from') return before;
  const situation = situationOf(circuit, state, changes);
  const meaningless = meaninglessLaw(situation.network);
  if (meaningless !== null) return meaningless;
  return new Settling(circuit, state, situation, budgetOf(options)).run(before === null ? null : before.carry);
}

type Beginning = { readonly kind: 'from'; readonly carry: Carry } | Exclude<Outcome, { kind: 'settled' }>;

/** Where to start: null for the de-energised state. A state before that cannot be solved is the outcome. */
function beginning(circuit: Circuit, state: ResolvedState, options: SettleOptions): Beginning | null {
  if (options.from !== undefined) return { kind: 'from', carry: carryOf(options.from) };
  if (state.after === null) return null;
  const outcome = settle(circuit, state.after, options);
  const last = solutionsOf(outcome).at(outcome.kind === 'chatter' ? -1 : 0);
  if (last !== undefined) return { kind: 'from', carry: carryOf(last) };
  return outcome as Exclude<Outcome, { kind: 'settled' }>;
}

function budgetOf({ isCancelled, maxSolves = MOST_SOLVES }: SettleOptions): Budget {
  let solves = 0;
  return () => {
    solves += 1;
    if (solves > maxSolves) return `more than ${maxSolves} network solves`;
    return isCancelled?.() === true ? 'cancelled' : null;
  };
}

/** A stand at which nothing moves and nothing opens any more, or why there is none. */
type Ending =
  | { readonly kind: 'rest'; readonly stand: Stand; readonly raced: readonly string[] }
  | { readonly kind: 'chatter'; readonly coils: readonly string[]; readonly stands: readonly Stand[] }
  | { readonly kind: 'known' }
  | { readonly kind: 'failed'; readonly outcome: Outcome };

class Settling {
  private readonly bench: Bench;
  /** Edges that have opened, by how; in the order in which they went. */
  private openings: Opening[] = [];
  /** Holding breakers among them that the state before left open. */
  private heldOpen: Opening[] = [];

  constructor(
    circuit: Circuit,
    state: ResolvedState,
    private readonly situation: Situation,
    budget: Budget,
  ) {
    const conduction = conductionOf(circuit, situation.network, state, situation.forced);
    const solver = new OperatingPointSolver(situation.network, situation.measured, budget, firmEdges(conduction));
    this.bench = { circuit, state, conduction, network: situation.network, solver };
  }

  run(carry: Carry | null): Outcome {
    const { variables } = this.bench.circuit;
    if (carry !== null) this.resume(carry);
    const start = Uint8Array.from(variables, ({ name }) => (carry?.variablesOn.has(name) === true ? 1 : 0));
    const ending = this.comeToRest(start);
    if (ending.kind === 'failed') return ending.outcome;
    if (ending.kind === 'known') throw new Error('settle: nothing was known');
    if (ending.kind === 'chatter') {
      return { kind: 'chatter', coils: ending.coils, visited: ending.stands.map((stand) => this.solution(stand)) };
    }
    const impossible = impossibleSources(ending.stand.picture);
    if (impossible !== null) return impossible;
    const solution = this.solution(ending.stand);
    if (ending.raced.length > 0) return { kind: 'race', coils: ending.raced, solution };
    const other = carry === null ? this.fromAllPulled(ending.stand) : null;
    return other === null ? { kind: 'settled', solution } : { kind: 'several-stable', solutions: [solution, other] };
  }

  /**
   * Rest from a start, opening what is overloaded one at a time. Every turn opens one more edge, or closes one that was open
   * at the start and never again, so it ends. `known`:
   * variables that rest with what is open at the start.
   */
  private comeToRest(start: Uint8Array, known?: Uint8Array): Ending {
    let variables = start;
    const raced = new Set<string>();
    const openAtFirst = this.openings.length;
    for (;;) {
      const relaxed = this.relax(variables, allAtOnce, this.openings.length === openAtFirst ? known : undefined);
      if (relaxed.kind === 'failed') return this.failure(relaxed.outcome);
      if (relaxed.kind === 'known') return relaxed;
      if (relaxed.kind === 'rest') {
        if (!this.open([relaxed.stand]) && !this.letGo(relaxed.stand)) {
          return { kind: 'rest', stand: relaxed.stand, raced: [...raced] };
        }
        variables = relaxed.stand.variables;
        continue;
      }
      // A fuse that is overloaded in any stand of a cycle heats up in it.
      if (this.open(relaxed.stands)) {
        variables = relaxed.stands[0].variables;
        continue;
      }
      const coils = this.movers(relaxed.stands);
      const slowly = this.relax(relaxed.stands[0].variables, oneAtATime);
      if (slowly.kind === 'failed') return this.failure(slowly.outcome);
      if (slowly.kind === 'known') return slowly;
      if (slowly.kind === 'cycle') {
        if (this.open(slowly.stands)) {
          variables = slowly.stands[0].variables;
          continue;
        }
        return { kind: 'chatter', coils: this.movers(slowly.stands), stands: slowly.stands };
      }
      for (const coil of coils) raced.add(coil);
      if (!this.open([slowly.stand])) return { kind: 'rest', stand: slowly.stand, raced: [...raced] };
      variables = slowly.stand.variables;
    }
  }

  private relax(start: Uint8Array, turn: typeof allAtOnce, known?: Uint8Array): Relaxed {
    return relax(this.bench, start, new Set(this.openings.map(({ edge }) => edge)), turn, known);
  }

  /** Opens the worst overload of these stands; false when there is none. */
  private open(stands: readonly Stand[]): boolean {
    const { conduction } = this.bench;
    const found = stands.flatMap(({ picture }) => firstToOpen(picture, conduction) ?? []);
    const worst = found.reduce<Opening | null>(
      (most, it) => (most === null || it.ratio > most.ratio ? it : most),
      null,
    );
    if (worst === null) return false;
    this.openings.push(worst);
    return true;
  }

  /** Closes the breakers of the state before that nothing holds open any more; false when there is none. */
  private letGo({ picture }: Stand): boolean {
    const released = this.heldOpen.filter(({ edge }) => letsGo(picture, edge));
    this.heldOpen = this.heldOpen.filter((opening) => !released.includes(opening));
    this.openings = this.openings.filter((opening) => !released.includes(opening));
    return released.length > 0;
  }

  /** Names of the moving variables that do not stand alike in all stands; of any variable when none moves. */
  private movers(stands: readonly Stand[]): string[] {
    const [first] = stands;
    const changing = this.bench.circuit.variables.filter((_, i) =>
      stands.some(({ variables }) => variables[i] !== first.variables[i]),
    );
    const moving = changing.filter(isMoving);
    return (moving.length > 0 ? moving : changing).map(({ name }) => name);
  }

  /** The other end that is reached from all relays pulled in, if it is another and a possible one. */
  private fromAllPulled(settled: Stand): Solution | null {
    const { variables } = this.bench.circuit;
    const pulled = settled.variables.map((value, i) => (isMoving(variables[i]) ? 1 : value));
    if (pulled.every((value, i) => value === settled.variables[i])) return null;
    const openings = [...this.openings];
    const ending = this.comeToRest(pulled, settled.variables);
    const isOther = ending.kind === 'rest' && ending.stand.variables.some((value, i) => value !== settled.variables[i]);
    const solution = isOther && impossibleSources(ending.stand.picture) === null ? this.solution(ending.stand) : null;
    this.openings = openings;
    return solution;
  }

  /** Takes over what a former end left open, warm or latched. */
  private resume(carry: Carry): void {
    const { network } = this.situation;
    const stillOpen = [
      ...carry.blown.map((overload) => ({ overload, how: 'blown' as const })),
      ...carry.tripped.map((overload) => ({ overload, how: 'tripped' as const })),
    ];
    for (const { overload, how } of stillOpen) {
      const edge = network.edgeOf.get(overload.element);
      if (edge === undefined || this.situation.forced.has(edge)) continue;
      if (this.bench.state.restored.has(network.elements[edge].owner)) continue;
      this.openings.push({ edge, overload, how, ratio: Math.abs(overload.amps) / overload.ratingAmps });
    }
    this.heldOpen = this.openings.filter(({ edge }) => network.elements[edge].protection?.style === 'holding');
    this.bench.solver.warmStart(carry);
  }

  private failure(outcome: Extract<Relaxed, { kind: 'failed' }>['outcome']): Ending {
    if (outcome.kind === 'stopped') return { kind: 'failed', outcome };
    const element = this.situation.network.elements[outcome.edge]?.id ?? '';
    return { kind: 'failed', outcome: { kind: 'no-convergence', element, detail: outcome.detail } };
  }

  private solution({ variables, picture }: Stand): Solution {
    const { circuit, conduction, solver } = this.bench;
    const { network } = this.situation;
    const on = (kind: SwitchVariable['kind']): Set<string> =>
      new Set(circuit.variables.filter((it, i) => it.kind === kind && variables[i] === 1).map(({ name }) => name));
    const gone = (how: Opening['how']): Overload[] =>
      this.openings.filter((opening) => opening.how === how).map(({ overload }) => overload);
    const limited = network.curvedEdges.filter(
      (edge) => picture.closed[edge] === 1 && isAtLimit(network.laws[edge], picture.edgeAmps[edge]),
    );
    return settledSolution(
      picture,
      {
        pulledCoils: on('coil'),
        outputsOn: on('output'),
        awakeModules: on('awake'),
        blown: gone('blown'),
        mayBlow: mayOpen(picture, conduction),
        cycling: gone('cycling'),
        limited: Array.from(limited, (edge) => network.elements[edge].id),
        tripped: gone('tripped').map(({ element }) => element),
        isMean: conduction.duties.length > 0,
      },
      {
        memories: solver.remembered(),
        variablesOn: new Set(circuit.variables.filter((_, i) => variables[i] === 1).map(({ name }) => name)),
        blown: gone('blown'),
        tripped: gone('tripped'),
      },
    );
  }
}
