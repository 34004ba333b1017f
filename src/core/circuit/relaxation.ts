/**
 * Lets the variables of a circuit come to rest: solve, let each decide, again, until nothing moves or a cycle shows.
 * It must not open fuses and must not judge the end; `settle` does both.
 */
import type { Circuit } from './compile.js';
import { type Conduction, closedEdges } from './conduction.js';
import type { Network } from './network.js';
import {
  type Accuracy,
  COARSE,
  FINE,
  type OperatingPointSolver,
  type PointOutcome,
  SKETCH,
} from './operating-point.js';
import type { Picture } from './picture.js';
import { solvePeriod } from './pulse-period.js';
import type { ResolvedState } from './resolved-state.js';
import { isMoving } from './switch-variables.js';

/** A circuit in one state with its solver: all that relaxing needs. */
export interface Bench {
  readonly circuit: Circuit;
  readonly state: ResolvedState;
  readonly conduction: Conduction;
  readonly network: Network;
  readonly solver: OperatingPointSolver;
}

/** How the variables stand (1 = on) and what that looks like. */
export interface Stand {
  readonly variables: Uint8Array;
  readonly picture: Picture;
}

export type Relaxed =
  | { readonly kind: 'rest'; readonly stand: Stand }
  /** The variables have come to stand as in a stand that is known to rest. */
  | { readonly kind: 'known' }
  | { readonly kind: 'cycle'; readonly stands: readonly [Stand, ...Stand[]] }
  | { readonly kind: 'failed'; readonly outcome: Exclude<PointOutcome, { kind: 'found' }> };

/** Which of the variables that want to move may do so in one round. */
type Turn = (circuit: Circuit, now: Uint8Array, wanted: Uint8Array) => Uint8Array;

/** All at once: how coils of one make behave. */
export const allAtOnce: Turn = (_circuit, _now, wanted) => wanted;

/** What follows without a mechanism first, then one moving part at a time, in address order. */
export const oneAtATime: Turn = (circuit, now, wanted) => {
  const next = now.slice();
  let followed = false;
  let mover = -1;
  circuit.variables.forEach((variable, i) => {
    if (wanted[i] === now[i]) return;
    if (isMoving(variable)) {
      if (mover === -1) mover = i;
      return;
    }
    next[i] = wanted[i];
    followed = true;
  });
  if (!followed && mover !== -1) next[mover] = wanted[mover];
  return next;
};

/**
 * Rounds from a start until the variables rest or repeat a stand. `opened` edges stay open throughout. `known`: variables
 * that are known to rest with these edges open.
 */
export function relax(
  bench: Bench,
  start: Uint8Array,
  opened: ReadonlySet<number>,
  turn: Turn,
  known?: Uint8Array,
): Relaxed {
  // The pictures of a pulse period are held side by side, so none may be overwritten by the next.
  const quick = bench.conduction.duties.length > 0 ? COARSE : SKETCH;
  const trail: Stand[] = [];
  const seen = new Map<string, number>();
  let variables = start;
  for (;;) {
    if (known !== undefined && isSame(variables, known)) return { kind: 'known' };
    seen.set(variables.join(''), trail.length);
    const reached = standOf(bench, variables, opened, quick);
    if (reached.kind === 'failed') return reached;
    trail.push(reached.stand);
    let wanted = decideAll(bench, reached.stand);
    if (isSame(wanted, variables)) {
      // Only a fine picture may say that nothing moves.
      const refined = standOf(bench, variables, opened, FINE);
      if (refined.kind === 'failed') return refined;
      wanted = decideAll(bench, refined.stand);
      if (isSame(wanted, variables)) return { kind: 'rest', stand: refined.stand };
    }
    variables = turn(bench.circuit, variables, wanted);
    const again = seen.get(variables.join(''));
    if (again !== undefined) return cycleOf(bench, trail.slice(again), opened);
  }
}

/** A cycle with fine pictures, since its readings will be shown. */
function cycleOf(bench: Bench, trail: readonly Stand[], opened: ReadonlySet<number>): Relaxed {
  const stands: Stand[] = [];
  for (const { variables } of trail) {
    const refined = standOf(bench, variables, opened, FINE);
    if (refined.kind === 'failed') return refined;
    stands.push(refined.stand);
  }
  const [first, ...others] = stands;
  return { kind: 'cycle', stands: [first, ...others] };
}

type Reached = { readonly kind: 'reached'; readonly stand: Stand } | Extract<Relaxed, { kind: 'failed' }>;

function standOf(bench: Bench, variables: Uint8Array, opened: ReadonlySet<number>, accuracy: Accuracy): Reached {
  const outcome = pictureOf(bench, variables, opened, accuracy);
  if (outcome.kind !== 'found') return { kind: 'failed', outcome };
  return { kind: 'reached', stand: { variables, picture: outcome.picture } };
}

function isSame(one: Uint8Array, other: Uint8Array): boolean {
  for (let i = 0; i < one.length; i++) if (one[i] !== other[i]) return false;
  return true;
}

/** The picture of one stand: the mean over the pulse period where outputs are pulsed. */
function pictureOf(bench: Bench, variables: Uint8Array, opened: ReadonlySet<number>, accuracy: Accuracy): PointOutcome {
  const { conduction, solver } = bench;
  const closedAt = (position: number): Uint8Array => closedEdges(conduction, variables, opened, position);
  if (conduction.duties.length === 0) return solver.find(closedAt(0), accuracy);
  const begins = [0, ...conduction.duties];
  const parts = begins.map((position, i) => ({
    share: (begins[i + 1] ?? 1) - position,
    closed: closedAt(position),
  }));
  return solvePeriod(solver, bench.network, parts, accuracy);
}

function decideAll({ circuit, state }: Bench, { variables, picture }: Stand): Uint8Array {
  return Uint8Array.from(circuit.variables, (variable, i) =>
    variable.decide(variables[i] === 1, picture, state) ? 1 : 0,
  );
}
