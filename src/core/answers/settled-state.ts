/**
 * One operating state of a model, settled once for all answers that are asked about it: a person asks many things of one state.
 * It must not answer anything; what is kept follows from model and state alone, so nobody can tell whether it was kept.
 */
import { createProber, type Prober } from '../circuit/prober.js';
import type { ResolvedState } from '../circuit/resolved-state.js';
import { settle } from '../circuit/settle.js';
import { type Outcome, type Solution, solutionsOf } from '../circuit/solution.js';
import type { Model } from './model.js';
import { type Predictions, predictionsOf } from './predicted.js';

/** A solution with what-ifs and bands at hand; both are made when first asked for. */
export interface Workbench {
  readonly model: Model;
  readonly state: ResolvedState;
  readonly settled: Solution;
  readonly prober: Prober;
  readonly predictions: Predictions;
}

export interface SettledState {
  readonly outcome: Outcome;
  /** Of the first solution; null when there is none. */
  readonly bench: Workbench | null;
}

/** States kept for a model: some megabytes each for 5,000 wires. */
const STATES_KEPT = 12;

const kept = new WeakMap<Model, Map<string, SettledState>>();

/** `settle` of this state without changes, and a bench to work on. */
export function settledState(model: Model, state: ResolvedState): SettledState {
  const states = kept.get(model) ?? new Map<string, SettledState>();
  kept.set(model, states);
  const key = JSON.stringify(state, plain);
  const found = states.get(key) ?? settleNow(model, state);
  // taken out first: a map keeps the order in which its keys came in, and the oldest goes
  states.delete(key);
  states.set(key, found);
  for (const oldest of states.keys()) {
    if (states.size <= STATES_KEPT) break;
    states.delete(oldest);
  }
  return found;
}

function settleNow(model: Model, state: ResolvedState): SettledState {
  const outcome = settle(model.circuit, state);
  const settled = solutionsOf(outcome)[0];
  return { outcome, bench: settled === undefined ? null : new LazyWorkbench(model, state, settled) };
}

class LazyWorkbench implements Workbench {
  private madeProber: Prober | undefined;
  private madePredictions: Predictions | undefined;

  constructor(
    readonly model: Model,
    readonly state: ResolvedState,
    readonly settled: Solution,
  ) {}

  get prober(): Prober {
    this.madeProber ??= createProber(this.model.circuit, this.state, this.settled);
    return this.madeProber;
  }

  get predictions(): Predictions {
    this.madePredictions ??= predictionsOf(this.model, this.state, this.settled);
    return this.madePredictions;
  }
}

/** Maps and sets as lists, which is all that JSON knows. */
function plain(_key: string, value: unknown): unknown {
  return value instanceof Map || value instanceof Set ? [...value] : value;
}
