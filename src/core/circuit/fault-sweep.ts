/**
 * Every single fault of a state, one after another: what the asked points read and how every load fares, with all that follows settled.
 * It must not judge how likely a fault is; it streams, and keeps nothing.
 */
import type { LoadFunction } from '../graph/element.js';
import type { Circuit } from './compile.js';
import type { ElectricalFault } from './electrical-faults.js';
import { type LoadCondition, loadConditionAt } from './load-condition.js';
import { createProber } from './prober.js';
import type { ResolvedState } from './resolved-state.js';
import type { Outcome, Solution } from './solution.js';
import type { Glimpse } from './watch.js';

export interface SweepQuestion {
  /** Readings wanted: volts at `red` against `black`. */
  readonly pairs: readonly { readonly red: string; readonly black: string }[];
  /** Loads whose condition is wanted. */
  readonly functions: readonly LoadFunction[];
  /** Asked before every fault, and while a fault is settled in full; true ends the sweep. A deadline is one of these. */
  readonly isCancelled?: () => boolean;
  /** Network solves allowed to a fault that has to be settled in full; 2,000 when absent. */
  readonly maxSolves?: number;
}

/** One fault. The arrays are used again for the next fault: copy what you keep. */
export interface SweptFault {
  readonly fault: ElectricalFault;
  /** Number of the fault in the order given, from 0. */
  readonly index: number;
  /** `settled`, or why there is no one end; readings are then of the first solution, if any. */
  readonly outcome: Outcome['kind'];
  /** Volts per pair; NaN where nothing definite can be read (across islands, or no solution). */
  readonly volts: Float64Array;
  /** Per function: volts across it (NaN as above), amps through it, and its place in LOAD_CONDITIONS. */
  readonly loadVolts: Float64Array;
  readonly loadAmps: Float64Array;
  readonly loadConditions: Uint8Array;
}

export type SweepEnd = { readonly kind: 'complete' | 'cancelled'; readonly faults: number; readonly inFull: number };

/** What the numbers of `loadConditions` mean. */
export const LOAD_CONDITIONS: readonly LoadCondition[] = ['works', 'weak', 'dead', 'reversed', 'undefined'];

const MOST_SOLVES = 2_000;

/**
 * Streams the faults in their order; the same input gives the same stream. `base` comes from `settle` of the circuit and
 * state without changes. Each fault ends as `settle(circuit, state, { changes, from: base })` does, to the millivolt:
 * most are followed from the base by what they move, and only those that do not come to rest that way are settled anew
 * (the returned end counts them). Throws a RangeError on a name that the harness lacks.
 *
 * Cost: some tens of microseconds per fault and thousand wires, more where a threshold flips; memory: one line.
 */
export function* sweepFaults(
  circuit: Circuit,
  state: ResolvedState,
  base: Solution,
  faults: Iterable<ElectricalFault>,
  question: SweepQuestion,
): Generator<SweptFault, SweepEnd> {
  const { pairs, functions, isCancelled = () => false, maxSolves = MOST_SOLVES } = question;
  const prober = createProber(circuit, state, base, { isCancelled, maxSolves });
  const watch = prober.watch({
    pairs: [...pairs, ...functions.map((fn) => ({ red: fn.feed, black: fn.return }))],
    elements: functions.map(({ element }) => element),
  });
  const unread: Glimpse = {
    volts: new Float64Array(pairs.length + functions.length).fill(Number.NaN),
    amps: new Float64Array(functions.length).fill(Number.NaN),
    conducts: new Uint8Array(functions.length),
    rmsVolts: null,
  };
  const loadConditions = new Uint8Array(functions.length);
  let index = 0;
  for (const fault of faults) {
    if (isCancelled()) return { kind: 'cancelled', faults: index, inFull: prober.counts.settled };
    const { outcome, glimpse } = watch(fault.changes);
    if (outcome === 'stopped' && isCancelled()) {
      return { kind: 'cancelled', faults: index, inFull: prober.counts.settled };
    }
    const { volts: allVolts, amps: loadAmps, conducts, rmsVolts } = glimpse ?? unread;
    const volts = allVolts.subarray(0, pairs.length);
    const loadVolts = allVolts.subarray(pairs.length);
    for (let i = 0; i < functions.length; i++) {
      const condition =
        glimpse === null
          ? 'undefined'
          : loadConditionAt(functions[i], loadVolts[i], conducts[i] === 1, rmsVolts?.[i] ?? null);
      loadConditions[i] = LOAD_CONDITIONS.indexOf(condition);
    }
    yield { fault, index, outcome, volts, loadVolts, loadAmps, loadConditions };
    index += 1;
  }
  return { kind: 'complete', faults: index, inFull: prober.counts.settled };
}
