// Our own times on one harness: linear kernel, fault sweep, settling, settled faults, answers.
// It must not compare; the peers are measured elsewhere.

import { answerFeeds } from '../../../src/core/answers/feeds.js';
import { answerReadings } from '../../../src/core/answers/readings.js';
import { answerUnplug } from '../../../src/core/answers/unplug.js';
import { type ElectricalFault, electricalFaults } from '../../../src/core/circuit/electrical-faults.js';
import { sweepFaults } from '../../../src/core/circuit/fault-sweep.js';
import { createProber } from '../../../src/core/circuit/prober.js';
import { settle } from '../../../src/core/circuit/settle.js';
import type { Change } from '../../../src/core/circuit/solution.js';
import {
  addToBatch,
  BATCH_LANES,
  type Batch,
  batchValue,
  createBatch,
  resetBatch,
  solveBatch,
} from '../../../src/core/numeric/batch.js';
import { ChangeSet } from '../../../src/core/numeric/change-set.js';
import { factorise } from '../../../src/core/numeric/factor.js';
import { markFloating } from '../../../src/core/numeric/floating.js';
import { createPointSet } from '../../../src/core/numeric/points.js';
import { refine } from '../../../src/core/numeric/refine.js';
import { residualComponentwise } from '../../../src/core/numeric/residual.js';
import { solve } from '../../../src/core/numeric/solve.js';
import { applyChanges, undoChanges } from '../../../src/core/numeric/update.js';
import { exactVolts } from '../../support/exact-volts.js';
import { medianMicros, medianMillis, millisOf, processorMillis, warmUp } from './processor-time.js';
import { imposeFault, type LinearFault, type LinearHarness, type Subject, sampleOf } from './subject.js';

/** A sweep that would take longer is measured on an even share of its faults. */
const SWEEP_MILLISECONDS = 4_000;
/** Faults that are timed before anything is warm. */
const COLD_FAULTS = 256;
const SETTLED_FAULTS = 200;

export interface KernelTimes {
  readonly factorMicros: number;
  readonly solveMicros: number;
  readonly residualComponentwise: number;
  readonly residualAmps: number;
}

export function kernelTimes({ factor }: LinearHarness): KernelTimes {
  const x = new Float64Array(factor.rhs.length);
  const factorMicros = medianMicros(() => factorise(factor, 'undetermined'));
  const solveMicros = medianMicros(() => solve(factor, x));
  refine(factor, x, new Float64Array(x.length));
  return {
    factorMicros,
    solveMicros,
    residualComponentwise: residualComponentwise(factor, x),
    residualAmps: largestImbalance(factor, x),
  };
}

/** Largest sum of currents that Kirchhoff's law leaves at a node, amps. */
function largestImbalance({ analysis, weights, rhs }: LinearHarness['factor'], x: Float64Array): number {
  const { from, to } = analysis.pattern;
  const at = (node: number): number => (node < 0 ? 0 : x[node]);
  const left = rhs.slice();
  weights.forEach((weight, edge) => {
    const amps = weight * (at(from[edge]) - at(to[edge]));
    if (from[edge] >= 0) left[from[edge]] -= amps;
    if (to[edge] >= 0) left[to[edge]] += amps;
  });
  return left.reduce((most, amps) => Math.max(most, Math.abs(amps)), 0);
}

export interface SweepTimes {
  /** Per fault, warm; and of the first faults of the process or of this question. */
  readonly micros: number;
  readonly coldMicros: number;
  readonly faults: number;
  /** Share of all faults that was timed. */
  readonly share: number;
}

/** Every single fault of the linear harness by batches of eight; all nodes, or `points` alone. */
export function sweepTimes({ factor, faults }: LinearHarness, points?: Int32Array): SweepTimes {
  const batch = createBatch(factor, points === undefined ? undefined : createPointSet(factor.analysis, points));
  const changes = new ChangeSet();
  const first = sampleOf(faults, COLD_FAULTS);
  const coldMicros = (1000 * millisOf(() => sweep(batch, changes, first))) / first.length;
  const some = sampleOf(faults, 16 * COLD_FAULTS);
  warmUp(() => sweep(batch, changes, some));
  let done = 0;
  let elapsed = 0;
  // Chunks of neighbours, far apart first, so that a sweep cut short has seen all parts of the harness.
  for (const chunk of chunksOf(faults)) {
    const begin = processorMillis();
    sweep(batch, changes, chunk);
    elapsed += processorMillis() - begin;
    done += chunk.length;
    if (elapsed > SWEEP_MILLISECONDS) break;
  }
  return { micros: (1000 * elapsed) / done, coldMicros, faults: faults.length, share: done / faults.length };
}

function sweep(batch: Batch, changes: ChangeSet, faults: readonly LinearFault[]): void {
  for (const fault of faults) {
    imposeFault(changes, fault);
    addToBatch(batch, changes, 'undetermined');
    if (batch.lanes === BATCH_LANES) {
      solveBatch(batch);
      resetBatch(batch);
    }
  }
  if (batch.lanes > 0) {
    solveBatch(batch);
    resetBatch(batch);
  }
}

const CHUNK = 512;

function chunksOf(faults: readonly LinearFault[]): LinearFault[][] {
  const starts = Array.from({ length: Math.ceil(faults.length / CHUNK) }, (_, i) => i * CHUNK);
  const stride = Math.max(1, Math.round(starts.length * 0.618));
  const ordered = [...new Set([...starts.map((_, i) => starts[(i * stride) % starts.length]), ...starts])];
  return ordered.map((start) => faults.slice(start, start + CHUNK));
}

/** Volts at all nodes under one fault, NaN at those that it cuts off, for comparing with others. */
export function voltsUnder({ factor }: LinearHarness, fault: LinearFault): Float64Array {
  const batch = createBatch(factor);
  const changes = new ChangeSet();
  imposeFault(changes, fault);
  addToBatch(batch, changes, 'undetermined');
  solveBatch(batch);
  const floating = new Uint8Array(factor.rhs.length);
  if (fault.kind !== 'short') applyChanges(factor, changes, 'undetermined');
  markFloating(factor, floating);
  undoChanges(factor);
  return Float64Array.from(factor.rhs, (_, node) => (floating[node] === 1 ? Number.NaN : batchValue(batch, 0, node)));
}

/** The same in numbers of 120 digits; NaN where `ours` is. */
export function exactVoltsUnder({ factor }: LinearHarness, fault: LinearFault, ours: Float64Array): Float64Array {
  const { from, to } = factor.analysis.pattern;
  const weights = [...factor.weights];
  if (fault.kind !== 'short') weights[fault.edge] = fault.kind === 'open' ? 0 : fault.siemens;
  const added = fault.kind === 'short' ? [fault] : [];
  const exact = exactVolts(
    {
      from: [...from, ...added.map((short) => short.from)],
      to: [...to, ...added.map((short) => short.to)],
      weights: [...weights, ...added.map(({ siemens }) => siemens)],
      rhs: factor.rhs,
    },
    factor.analysis.columns.order,
  );
  return exact.map((volts, node) => (Number.isNaN(ours[node]) ? Number.NaN : volts));
}

export function settleMillis({ model, state }: Subject): number {
  return medianMillis(() => settle(model.circuit, state));
}

export interface SettledFaults {
  readonly micros: number;
  readonly coldMicros: number;
  readonly settledInFull: number;
  readonly faults: number;
}

/** Faults with everything that follows from them: relays, fuses, motors, curves. */
export function settledFaults({ model, state, settled }: Subject): SettledFaults {
  const changes = sampleOf(settledChanges(model.graph.elements.keys(), settled), SETTLED_FAULTS);
  const prober = createProber(model.circuit, state, settled);
  const run = (): void => {
    for (const change of changes) prober.probe([change]);
  };
  const coldMicros = (1000 * millisOf(run)) / changes.length;
  const { settled: settledInFull } = prober.counts;
  const micros = (1000 * medianMillis(run, 3)) / changes.length;
  return { micros, coldMicros, settledInFull, faults: changes.length };
}

export interface SweptFaults {
  readonly micros: number;
  /** All single faults of the catalogue's electrical kinds. */
  readonly faults: number;
  /** Share of them that was timed, and of these the share that had to be settled in full. */
  readonly share: number;
  readonly inFull: number;
}

/**
 * Every single fault of the electrical kinds, settled, read at 200 points, with the condition of every load. A sweep that
 * would take longer is timed on an even share of its faults.
 */
export function sweptFaults({ model, state, settled }: Subject): SweptFaults {
  const { circuit, graph } = model;
  const points = [...graph.points.keys()];
  const pairs = sampleOf(points, 200).map((red) => ({ red, black: graph.reference }));
  const functions = [...graph.functions.values()];
  const faults = [...electricalFaults(graph)];
  const run = (
    list: Iterable<ElectricalFault>,
    milliseconds: number,
  ): { micros: number; done: number; inFull: number } => {
    const begin = processorMillis();
    const isCancelled = (): boolean => processorMillis() - begin > milliseconds;
    const stream = sweepFaults(circuit, state, settled, list, { pairs, functions, isCancelled });
    for (;;) {
      const { value, done } = stream.next();
      if (!done) continue;
      return { micros: (1000 * (processorMillis() - begin)) / value.faults, done: value.faults, inFull: value.inFull };
    }
  };
  const some = sampleOf(faults, 300);
  warmUp(() => run(some, SWEEP_MILLISECONDS / 2));
  const { micros, done, inFull } = run(inStrides(faults), SWEEP_MILLISECONDS);
  return { micros, faults: faults.length, share: done / faults.length, inFull: inFull / done };
}

/** All of a list, far apart first, so that a run cut short has seen all kinds. */
function* inStrides<T>(all: readonly T[]): Generator<T> {
  const stride = 97;
  for (let start = 0; start < stride; start++) {
    for (let i = start; i < all.length; i += stride) yield all[i];
  }
}

/** Every conducting element open and with a bad joint. */
function settledChanges(elements: Iterable<string>, settled: Subject['settled']): Change[] {
  const changes: Change[] = [];
  for (const element of elements) {
    if (!settled.conducts(element)) continue;
    changes.push({ kind: 'open', element }, { kind: 'series', element, ohms: 0.5 });
  }
  return changes;
}

export interface AnswerTimes {
  readonly feedsMillis: number;
  readonly unplugMillis: number;
  readonly readingMillis: number;
}

export function answerTimes({ model, state, settled }: Subject): AnswerTimes {
  const functions = [...model.graph.functions.values()].filter((fn) => Math.abs(settled.amps(fn.element)) > 0.1);
  const fn = functions[Math.floor(functions.length / 2)];
  const plug = model.graph.record.parts.filter(({ kind }) => kind === 'connector')[0];
  if (fn === undefined || plug === undefined) throw new Error('a harness without loads or plugs');
  return {
    feedsMillis: medianMillis(() => answerFeeds(model, { function: fn, state }), 3),
    unplugMillis: medianMillis(() => answerUnplug(model, { plugs: [plug.address], state }), 3),
    readingMillis: medianMillis(
      () => answerReadings(model, { pairs: [{ red: fn.feed, black: fn.return }], state, meter: 'voltmeter' }),
      3,
    ),
  };
}
