/**
 * One operating state of a model, settled once for all answers that are asked about it: a person asks many things of one state.
 * It must not answer anything; what is kept follows from model and state alone, so nobody can tell whether it was kept.
 */
import { createProber, type Prober } from '../circuit/prober.js';
import type { ResolvedState } from '../circuit/resolved-state.js';
import { type Outcome, type Solution, solutionsOf } from '../circuit/solution.js';
import type { Model } from './model.js';
import { type Known, NOTHING_KNOWN, type Predictions, predictionsOf } from './predicted.js';
import { type IsCancelled, never, settleUnlessStopped } from './stopped.js';

/** A solution with what-ifs and bands at hand; both are made when first asked for. */
export interface Workbench {
  readonly model: Model;
  readonly state: ResolvedState;
  readonly settled: Solution;
  readonly prober: Prober;
  readonly predictions: Predictions;
  /** What the predictions know beyond the record. */
  readonly known: Known;
  readonly isCancelled: IsCancelled;
}

export interface SettledState {
  readonly outcome: Outcome;
  /** Of the first solution; null when there is none. */
  readonly bench: Workbench | null;
}

/** States kept for a model: some megabytes each for 5,000 wires. */
const STATES_KEPT = 12;

const kept = new WeakMap<Model, Map<string, Kept>>();

/** `settle` of this state without changes, and a bench to work on. Throws `AnswerStopped` when cancelled, now or while the bench is used. */
export function settledState(model: Model, state: ResolvedState, isCancelled: IsCancelled = never): SettledState {
  const states = kept.get(model) ?? new Map<string, Kept>();
  kept.set(model, states);
  const key = JSON.stringify(state, plain);
  const found = states.get(key) ?? settleNow(model, state, isCancelled);
  // taken out first: a map keeps the order in which its keys came in, and the oldest goes
  states.delete(key);
  states.set(key, found);
  for (const oldest of states.keys()) {
    if (states.size <= STATES_KEPT) break;
    states.delete(oldest);
  }
  if (found.bench !== null) found.bench.isCancelled = isCancelled;
  return found;
}

/** The bench of a harness on which something was measured. */
export function knowingBench(bench: Workbench, known: Known): Workbench {
  const { model, state, settled, prober, isCancelled } = bench;
  return new LazyWorkbench(model, state, settled, isCancelled, known, prober);
}

interface Kept extends SettledState {
  readonly bench: LazyWorkbench | null;
}

function settleNow(model: Model, state: ResolvedState, isCancelled: IsCancelled): Kept {
  const outcome = settleUnlessStopped(model.circuit, state, [], isCancelled);
  const settled = solutionsOf(outcome)[0];
  const bench = settled === undefined ? null : new LazyWorkbench(model, state, settled, isCancelled);
  return { outcome, bench };
}

class LazyWorkbench implements Workbench {
  private madePredictions: Predictions | undefined;

  constructor(
    readonly model: Model,
    readonly state: ResolvedState,
    readonly settled: Solution,
    /** Of whoever asked last: benches are kept from one question to the next. */
    public isCancelled: IsCancelled,
    readonly known: Known = NOTHING_KNOWN,
    private madeProber?: Prober,
  ) {}

  get prober(): Prober {
    this.madeProber ??= createProber(this.model.circuit, this.state, this.settled);
    return this.madeProber;
  }

  get predictions(): Predictions {
    const { model, state, settled: solution, known } = this;
    const isCancelled: IsCancelled = () => this.isCancelled();
    this.madePredictions ??= predictionsOf({ model, state, solution, changes: [], known, isCancelled });
    return this.madePredictions;
  }
}

/** Maps and sets as lists, which is all that JSON knows. */
function plain(_key: string, value: unknown): unknown {
  return value instanceof Map || value instanceof Set ? [...value] : value;
}
