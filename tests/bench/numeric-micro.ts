// Prints the solver's times on harness-like networks: analysis, factor, solve, and microseconds per single fault.
// It must not check results; tests do. Run it with: npx tsx tests/bench/numeric-micro.ts [wires ...]

import { analyse } from '../../src/core/numeric/analyse.js';
import { addToBatch, BATCH_LANES, createBatch, resetBatch, solveBatch } from '../../src/core/numeric/batch.js';
import { ChangeSet } from '../../src/core/numeric/change-set.js';
import { createFactor, type Factor, factorise } from '../../src/core/numeric/factor.js';
import { createPointSet, type PointSet } from '../../src/core/numeric/points.js';
import { residualComponentwise } from '../../src/core/numeric/residual.js';
import { solve } from '../../src/core/numeric/solve.js';
import { applyChanges, undoChanges } from '../../src/core/numeric/update.js';
import { type HarnessLikeNetwork, harnessLikeNetwork } from '../support/harness-like-network.js';
import { seededRandom } from '../support/random.js';

const SEED = 1;
const TEST_POINTS = 200;
const SERIES_OHMS = 0.5;
/** Each timed piece takes about this long; the best of REPEATS counts. */
const PIECE_MILLISECONDS = 150;
const REPEATS = 7;

interface Fault {
  readonly edge: number;
  readonly weight: number;
}

const sizes = process.argv.length > 2 ? process.argv.slice(2).map(Number) : [200, 1000, 5000, 20000];
console.log(
  'wires  nodes  nnz/n  analyse ms  factor us  solve us | per fault, us: path only  single full  batch full  batch 200 points  200 points, edge outside the pattern',
);
for (const wires of sizes) console.log(measure(wires));

function measure(wires: number): string {
  const network = harnessLikeNetwork(wires, SEED);
  const { pattern } = network;
  const analysis = analyse(pattern);
  const analyseMs = bestMicros(1, () => analyse(pattern)) / 1000;
  const factor = createFactor(analysis);
  factor.weights.set(network.weights);
  factor.rhs.set(network.rhs);
  const factorMicros = bestMicros(1, () => factorise(factor, 'undetermined'));
  const x = new Float64Array(pattern.nodeCount);
  const solveMicros = bestMicros(1, () => solve(factor, x));
  const residual = residualComponentwise(factor, x);
  if (!(residual < 1e-13)) throw new Error(`residual ${residual}`);

  const faults = singleFaults(network);
  const points = createPointSet(analysis, testPoints(network));
  const micros = [
    pathOnly(factor, faults),
    singleFull(factor, faults),
    batch(factor, faults),
    batch(factor, faults, points),
    shorts(factor, network.bridges, points),
  ];
  const entries = analysis.counts.entries / pattern.nodeCount;
  return [
    String(wires).padStart(5),
    String(pattern.nodeCount).padStart(6),
    entries.toFixed(2).padStart(6),
    analyseMs.toFixed(1).padStart(11),
    factorMicros.toFixed(0).padStart(10),
    solveMicros.toFixed(1).padStart(9),
    ' |               ',
    ...micros.map((value, i) => value.toFixed(1).padStart([10, 12, 11, 17, 20][i])),
  ].join(' ');
}

/** Every edge open and with a bad joint, every wire shorted to the body, in the order of the edges. */
function singleFaults({ weights, bridges }: HarnessLikeNetwork): Fault[] {
  const faults: Fault[] = [];
  weights.forEach((weight, edge) => {
    if (weight === 0) return;
    faults.push({ edge, weight: 0 }, { edge, weight: 1 / (1 / weight + SERIES_OHMS) });
  });
  for (const edge of bridges) faults.push({ edge, weight: 1 / SERIES_OHMS });
  return faults;
}

function testPoints({ pattern }: HarnessLikeNetwork): Int32Array {
  const random = seededRandom(SEED);
  return Int32Array.from({ length: TEST_POINTS }, () => random.whole(0, pattern.nodeCount - 1));
}

function pathOnly(factor: Factor, faults: readonly Fault[]): number {
  const changes = new ChangeSet();
  return perFault(faults, (fault) => {
    changes.clear();
    changes.setWeight(fault.edge, fault.weight);
    applyChanges(factor, changes, 'undetermined');
    undoChanges(factor);
  });
}

function singleFull(factor: Factor, faults: readonly Fault[]): number {
  const changes = new ChangeSet();
  const x = new Float64Array(factor.rhs.length);
  return perFault(faults, (fault) => {
    changes.clear();
    changes.setWeight(fault.edge, fault.weight);
    applyChanges(factor, changes, 'undetermined');
    solve(factor, x);
    undoChanges(factor);
  });
}

function batch(factor: Factor, faults: readonly Fault[], points?: PointSet): number {
  const lanes = createBatch(factor, points);
  const changes = new ChangeSet();
  return perFault(faults, (fault) => {
    changes.clear();
    changes.setWeight(fault.edge, fault.weight);
    addToBatch(lanes, changes, 'undetermined');
    if (lanes.lanes < BATCH_LANES) return;
    solveBatch(lanes);
    resetBatch(lanes);
  });
}

/** A short from each wire to one of the next eight: an edge that the pattern does not have. */
function shorts(factor: Factor, bridges: readonly number[], points: PointSet): number {
  const { from } = factor.analysis.pattern;
  const random = seededRandom(SEED);
  const pairs = bridges.map((edge, wire) => {
    const other = bridges[(wire + random.whole(1, 8)) % bridges.length];
    return [from[edge], from[other]] as const;
  });
  const lanes = createBatch(factor, points);
  const changes = new ChangeSet();
  return perFault(pairs, ([a, b]) => {
    changes.clear();
    changes.addEdge(a, b, 1 / SERIES_OHMS);
    addToBatch(lanes, changes, 'undetermined');
    if (lanes.lanes < BATCH_LANES) return;
    solveBatch(lanes);
    resetBatch(lanes);
  });
}

/** Microseconds per fault, over faults spread evenly through the list. */
function perFault<F>(faults: readonly F[], run: (fault: F) => void): number {
  let next = 0;
  const stride = 8 * 7919;
  const chunk = 64;
  return bestMicros(chunk, () => {
    // Eight neighbours in the list at a time, as a sweep in catalogue order would take them.
    for (let t = 0; t < chunk; t++) {
      run(faults[next]);
      next = (next + (t % 8 === 7 ? stride : 1)) % faults.length;
    }
  });
}

/** Processor time of this process, so that other work on the machine counts as little as possible. */
function processorMillis(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

function bestMicros(per: number, run: () => void): number {
  let best = Number.POSITIVE_INFINITY;
  for (let repeat = 0; repeat < REPEATS; repeat++) {
    const begin = processorMillis();
    let runs = 0;
    let elapsed = 0;
    do {
      run();
      runs++;
      elapsed = processorMillis() - begin;
    } while (elapsed < PIECE_MILLISECONDS);
    best = Math.min(best, (1000 * elapsed) / (runs * per));
  }
  return best;
}
