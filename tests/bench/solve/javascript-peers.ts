// The base solve of the same linear network by others in this process: SPICE as WebAssembly, sparse and dense LU.
// It must not run a peer longer than its cap: a size that would is left out.

import { Simulation } from 'eecircuit-engine';
import { lup, lusolve, type Matrix, matrix, slu, sparse } from 'mathjs';
import { GROUND } from '../../../src/core/numeric/types.js';
import { netlist } from './ngspice-loop.js';
import { medianMillis } from './processor-time.js';
import type { LinearHarness } from './subject.js';

export interface PeerSolve {
  readonly peer: string;
  /** Milliseconds for one set of values: reading or ordering, factor and solve. */
  readonly millis: number;
  readonly maxDeltaVolts: number;
}

/** Nodes above which a peer would not end within its 20 s here. */
const MOST_NODES = { wasm: 6_000, sparse: 6_000, dense: 1_100 };

/** Each peer at the sizes that it manages. `ours`: volts per node. */
export async function javascriptPeers(harness: LinearHarness, ours: Float64Array): Promise<PeerSolve[]> {
  const nodes = fedNodes(harness);
  const peers: PeerSolve[] = [];
  if (nodes.length <= MOST_NODES.sparse) peers.push(sparseLu(harness, nodes, ours));
  if (nodes.length <= MOST_NODES.dense) peers.push(denseLu(harness, nodes, ours));
  if (nodes.length <= MOST_NODES.wasm) peers.push(...(await wasmSpice(harness, ours)));
  return peers;
}

function fedNodes({ factor, fed }: LinearHarness): number[] {
  const hasEdge = new Uint8Array(fed.length);
  const { from, to } = factor.analysis.pattern;
  factor.weights.forEach((weight, edge) => {
    if (weight === 0) return;
    if (from[edge] !== GROUND) hasEdge[from[edge]] = 1;
    if (to[edge] !== GROUND) hasEdge[to[edge]] = 1;
  });
  return Array.from(fed, (_, node) => node).filter((node) => fed[node] === 1 && hasEdge[node] === 1);
}

/** Entries of the nodal matrix, rows and columns numbered by `nodes`. */
function* entriesOf({ factor }: LinearHarness, nodes: readonly number[]): Generator<[number, number, number]> {
  const place = new Map(nodes.map((node, i) => [node, i]));
  const { from, to } = factor.analysis.pattern;
  for (let edge = 0; edge < factor.weights.length; edge++) {
    const siemens = factor.weights[edge];
    const [a, b] = [place.get(from[edge]), place.get(to[edge])];
    if (siemens === 0 || from[edge] === to[edge]) continue;
    if (a !== undefined) yield [a, a, siemens];
    if (b !== undefined) yield [b, b, siemens];
    if (a !== undefined && b !== undefined) yield* [[a, b, -siemens] as [number, number, number], [b, a, -siemens]];
  }
}

function sparseLu(harness: LinearHarness, nodes: readonly number[], ours: Float64Array): PeerSolve {
  const rows = nodes.map(() => new Map<number, number>());
  for (const [row, column, value] of entriesOf(harness, nodes))
    rows[row].set(column, (rows[row].get(column) ?? 0) + value);
  // Compressed columns; the matrix is symmetric, so rows serve.
  const index: number[] = [];
  const values: number[] = [];
  const ptr = [0];
  for (const row of rows) {
    for (const [column, value] of [...row].sort((one, other) => one[0] - other[0])) {
      index.push(column);
      values.push(value);
    }
    ptr.push(index.length);
  }
  const a = sparse();
  Object.assign(a, { _values: values, _index: index, _ptr: ptr, _size: [nodes.length, nodes.length] });
  const rhs = nodes.map((node) => [harness.factor.rhs[node]]);
  let x: Matrix | undefined;
  const millis = medianMillis(() => {
    x = lusolve(slu(a, 1, 1e-3), rhs) as unknown as Matrix;
  }, 3);
  return { peer: 'mathjs sparse LU', millis, maxDeltaVolts: difference(x, nodes, ours) };
}

function denseLu(harness: LinearHarness, nodes: readonly number[], ours: Float64Array): PeerSolve {
  const rows = nodes.map(() => new Array<number>(nodes.length).fill(0));
  for (const [row, column, value] of entriesOf(harness, nodes)) rows[row][column] += value;
  const rhs = nodes.map((node) => [harness.factor.rhs[node]]);
  let x: Matrix | undefined;
  const millis = medianMillis(() => {
    x = lusolve(lup(matrix(rows)), matrix(rhs)) as unknown as Matrix;
  }, 1);
  return { peer: 'mathjs dense LU', millis, maxDeltaVolts: difference(x, nodes, ours) };
}

function difference(x: Matrix | undefined, nodes: readonly number[], ours: Float64Array): number {
  const values = (x?.toArray() ?? []) as number[][];
  return nodes.reduce((most, node, i) => Math.max(most, Math.abs(ours[node] - (values[i]?.[0] ?? Number.NaN))), 0);
}

async function wasmSpice(harness: LinearHarness, ours: Float64Array): Promise<PeerSolve[]> {
  const simulation = new Simulation();
  await simulation.start();
  simulation.setNetList(`${netlist(harness, [])}.op\n.end\n`);
  const millis: number[] = [];
  let largest = 0;
  for (let run = 0; run < 3; run++) {
    const begin = performance.now();
    const result = await Promise.race([
      simulation.runSim(),
      new Promise<null>((resolve) => setTimeout(() => resolve(null), 20_000).unref()),
    ]);
    if (result === null || result.dataType !== 'real') return [];
    millis.push(performance.now() - begin);
    largest = 0;
    for (const { name, type, values } of result.data) {
      const node = Number(/n(\d+)/.exec(name.toLowerCase())?.[1] ?? Number.NaN);
      if (type !== 'voltage' || Number.isNaN(node)) continue;
      largest = Math.max(largest, Math.abs(ours[node] - Number(values.at(-1))));
    }
  }
  return [{ peer: 'eecircuit-engine', millis: millis.sort((a, b) => a - b)[1], maxDeltaVolts: largest }];
}
