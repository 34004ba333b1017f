// One state of a record by our circuit and by SPICE, point by point. SPICE's netlist is written from the record alone.
// It must not judge the differences; tests and the command do.

import type { Circuit } from '../../src/core/circuit/compile.js';
import { resolveState } from '../../src/core/circuit/resolve-state.js';
import type { ResolvedState } from '../../src/core/circuit/resolved-state.js';
import { settle } from '../../src/core/circuit/settle.js';
import { type Outcome, type Solution, solutionsOf } from '../../src/core/circuit/solution.js';
import type { HarnessRecord } from '../../src/core/record/record.js';
import type { OperatingState } from '../../src/core/record/state.js';
import { type SpiceRest, settleBySpice } from './settle-by-spice.js';
import { sketchRecord } from './sketch-record.js';
import { meterOf, type SpiceAnswer, solveBySpice } from './solve-by-spice.js';
import type { SpiceEngine } from './spice-engine.js';

/** Records below this many elements are solved by SPICE from nothing if it can; others start from our volts, which it must confirm. */
const SMALL = 250;

export type Comparison =
  /** There is nothing to compare: the state has no solution, or begins where SPICE has none. */
  | { readonly kind: 'not-compared'; readonly reason: string }
  /** SPICE found no operating point that confirms its flags. */
  | { readonly kind: 'failed'; readonly reason: string }
  | Compared;

interface Compared {
  readonly kind: 'compared';
  /** Points with definite volts. */
  readonly points: number;
  readonly worst: { readonly point: string; readonly volts: number };
  /** Points that float by one of the two alone. */
  readonly floatByOne: readonly string[];
  /** Coils that are pulled, outputs that are on, fuses that are open by one of the two alone. */
  readonly otherwise: readonly string[];
}

/** With parts that are not linear: a millivolt. */
const MOST_VOLTS = 1e-3;
const NEAR_VOLTS = 1e-6;

export const isAlike = ({ worst, floatByOne, otherwise }: Compared): boolean =>
  worst.volts <= MOST_VOLTS && floatByOne.length === 0 && otherwise.length === 0;

/** Throws when the state names what is not there, or when SPICE finds no operating point. */
export async function compareState(
  record: HarnessRecord,
  circuit: Circuit,
  state: OperatingState,
  engine: SpiceEngine,
): Promise<Comparison> {
  const resolution = resolveState(circuit.graph, state);
  if (!resolution.ok) throw new Error(`${state.name}: ${resolution.issues.map(({ reason }) => reason).join('; ')}`);
  return (await new RecordComparison(record, circuit, engine).of(resolution.state)).comparison;
}

interface Side {
  readonly comparison: Comparison;
  /** Where SPICE came to rest, for a state after this one. */
  readonly rest: SpiceRest | null;
}

class RecordComparison {
  constructor(
    private readonly record: HarnessRecord,
    private readonly circuit: Circuit,
    private readonly engine: SpiceEngine,
  ) {}

  async of(state: ResolvedState): Promise<Side> {
    const before = state.after === null ? null : await this.of(state.after);
    if (before !== null && before.rest === null) return nothing('the state before has no one rest');
    const outcome = settle(this.circuit, state);
    const solutions = solutionsOf(outcome);
    if (solutions.length === 0) return nothing(outcome.kind);
    if (solutions.some(({ isMean }) => isMean)) return nothing('pulsed');
    if (outcome.kind === 'chatter') return { comparison: await this.visited(state.source, outcome), rest: null };
    const sides: Side[] = [];
    for (const solution of solutions) sides.push(await this.rest(state.source, solution, before?.rest ?? null));
    const [first] = sides;
    const worst = sides.find(({ comparison }) => comparison.kind !== 'compared' || !isAlike(comparison)) ?? first;
    return { comparison: worst.comparison, rest: first.rest };
  }

  /**
   * With many kinks at once SPICE may walk in a circle from nothing, or end in another of several stable states; what counts is
   * whether it confirms ours.
   */
  private async rest(state: OperatingState, solution: Solution, before: SpiceRest | null): Promise<Side> {
    const carried = before === null ? {} : { held: before.flags, opened: before.opened };
    const compared = (rest: SpiceRest): Side => ({
      comparison: this.against(solution, rest, rest.opened),
      rest,
    });
    const isSmall = this.circuit.graph.elements.size < SMALL;
    const cold = isSmall
      ? await settleBySpice(this.record, state, this.engine, carried).then(compared, () => null)
      : null;
    // Behavioural sources cost SPICE digits; straight lines, which need a start, cost none.
    const isNear = (it: Comparison): boolean => it.kind === 'compared' && isAlike(it) && it.worst.volts <= NEAR_VOLTS;
    if (cold !== null && isNear(cold.comparison)) return cold;
    const held = new Set([...this.standing(solution)].flatMap(([flag, isOn]) => (isOn ? [flag] : [])));
    const guess = (point: string): number | null => solution.volts(point);
    const opened = openedIn(solution);
    return compared(await settleBySpice(this.record, state, this.engine, { guess, held, opened, writing: 'chord' }));
  }

  /** Each stand of a cycle with all that moves held still; SPICE must agree on its volts, and want something to move. */
  private async visited(
    state: OperatingState,
    { visited }: Extract<Outcome, { kind: 'chatter' }>,
  ): Promise<Comparison> {
    let last: Compared | null = null;
    for (const solution of visited) {
      const pinned = this.standing(solution);
      const gone = openedIn(solution).map((branch) => ({ kind: 'open', branch }) as const);
      const { sketch, reference } = sketchRecord(this.record, state, gone);
      const guess = (point: string): number | null => solution.volts(point);
      const answer = await solveBySpice(sketch, reference, this.engine, { guess, pinned, writing: 'chord' });
      const next = sketch.next(
        answer.flags,
        meterOf((point) => answer.volts.get(point) ?? null),
      );
      const isMoving = [...pinned].some(([flag, isOn]) => next.has(flag) !== isOn);
      const compared = this.against(solution, answer, openedIn(solution));
      last = isMoving ? compared : { ...compared, otherwise: ['a stand that was visited is at rest'] };
      if (!isAlike(last)) return last;
    }
    return last ?? { kind: 'not-compared', reason: 'nothing was visited' };
  }

  /** How everything that closes by itself stands, in the flags of the sketch. */
  private standing(solution: Solution): Map<string, boolean> {
    const flags = new Map<string, boolean>();
    for (const { address, kind } of this.record.parts) {
      switch (kind) {
        case 'relay':
        case 'starter':
          flags.set(address, solution.pulledCoils.has(`${address}:coil`));
          break;
        case 'split-charge-relay':
          flags.set(address, solution.conducts(`${address}:contact`));
          break;
        case 'alternator':
          flags.set(address, solution.conducts(`${address}:output`));
          break;
        case 'converter':
          flags.set(`${address} on`, solution.conducts(`${address}:output`));
          break;
        case 'module':
          flags.set(address, solution.awakeModules.has(address));
          for (const { terminal } of this.circuit.graph.modules.get(address)?.outputs ?? []) {
            flags.set(`${address}/${terminal}`, solution.outputsOn.has(`${address}/${terminal}`));
          }
          break;
        default:
      }
    }
    return flags;
  }

  private against(solution: Solution, { volts, flags }: SpiceAnswer, opened: readonly string[]): Compared {
    const floatByOne: string[] = [];
    const worst = { point: '', volts: 0 };
    let points = 0;
    for (const point of this.circuit.graph.points.keys()) {
      const ours = solution.volts(point);
      const theirs = volts.get(point) ?? null;
      if ((ours === null) !== (theirs === null)) floatByOne.push(point);
      if (ours === null || theirs === null) continue;
      points += 1;
      // Not a number is never near.
      const apart = Number.isFinite(theirs) ? Math.abs(ours - theirs) : Number.POSITIVE_INFINITY;
      if (apart > worst.volts) Object.assign(worst, { point, volts: apart });
    }
    const otherFlags = [...this.standing(solution)].flatMap(([flag, isOn]) => (flags.has(flag) === isOn ? [] : [flag]));
    const gone = new Set(openedIn(solution));
    const otherOpened = [...gone, ...opened].filter((branch) => gone.has(branch) !== opened.includes(branch));
    return { kind: 'compared', points, worst, floatByOne, otherwise: [...otherFlags, ...otherOpened] };
  }
}

const nothing = (reason: string): Side => ({ comparison: { kind: 'not-compared', reason }, rest: null });

function openedIn({ blown, cycling, tripped }: Solution): readonly string[] {
  return [...blown.map(({ element }) => element), ...cycling.map(({ element }) => element), ...tripped];
}
