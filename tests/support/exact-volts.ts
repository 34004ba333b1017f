// Solution of a linear network in fixed-point numbers of 120 digits: where two solvers differ, it tells whose error that is.
// It must not use the solver's elimination; any order of the nodes gives the same, so that may be borrowed.

import { GROUND } from '../../src/core/numeric/types.js';

/** Binary places: 1e-120 beside weights down to 1e-30 leaves 90 digits. */
const PLACES = 400n;
/** Of these, kept on the way back to a double. */
const DOUBLE_PLACES = 120n;

export interface LinearNetwork {
  readonly from: ArrayLike<number>;
  readonly to: ArrayLike<number>;
  /** Per edge, 0 where it is absent. */
  readonly weights: ArrayLike<number>;
  /** Per node. */
  readonly rhs: ArrayLike<number>;
}

interface EliminatedNode {
  readonly node: number;
  readonly neighbours: readonly (readonly [node: number, weight: bigint])[];
  readonly total: bigint;
}

/** x per node; 0 for the last node of a part that has no way to ground. Nodes are eliminated in the order given. */
export function exactVolts(network: LinearNetwork, order: Int32Array): Float64Array {
  const rhs = Array.from(network.rhs, fixed);
  const { ground, neighbours } = joined(network, rhs.length);
  const eliminated: EliminatedNode[] = [];
  for (const node of order) {
    const around = [...neighbours[node]];
    const total = around.reduce((sum, [, weight]) => sum + weight, ground[node]);
    eliminated.push({ node, neighbours: around, total });
    if (total === 0n) continue;
    around.forEach(([one, weight], place) => {
      neighbours[one].delete(node);
      ground[one] += (weight * ground[node]) / total;
      rhs[one] += (weight * rhs[node]) / total;
      for (const [other, otherWeight] of around.slice(place + 1)) {
        join(neighbours, one, other, (weight * otherWeight) / total);
      }
    });
  }
  const x = new Array<bigint>(rhs.length).fill(0n);
  for (const { node, neighbours: around, total } of eliminated.reverse()) {
    if (total === 0n) continue;
    const sum = around.reduce((left, [other, weight]) => left + ((weight * x[other]) >> PLACES), rhs[node]);
    x[node] = (sum << PLACES) / total;
  }
  return Float64Array.from(x, (value) => Number(value >> (PLACES - DOUBLE_PLACES)) / 2 ** Number(DOUBLE_PLACES));
}

function joined({ from, to, weights }: LinearNetwork, count: number) {
  const ground = new Array<bigint>(count).fill(0n);
  const neighbours = Array.from({ length: count }, () => new Map<number, bigint>());
  for (let edge = 0; edge < weights.length; edge++) {
    const [a, b] = [from[edge], to[edge]];
    if (weights[edge] === 0 || a === b) continue;
    if (a === GROUND || b === GROUND) ground[Math.max(a, b)] += fixed(weights[edge]);
    else join(neighbours, a, b, fixed(weights[edge]));
  }
  return { ground, neighbours };
}

function join(neighbours: readonly Map<number, bigint>[], a: number, b: number, weight: bigint): void {
  neighbours[a].set(b, (neighbours[a].get(b) ?? 0n) + weight);
  neighbours[b].set(a, (neighbours[b].get(a) ?? 0n) + weight);
}

/** The exact value of a double: a whole number times a power of two. */
function fixed(value: number): bigint {
  let halvings = 0n;
  let whole = value;
  while (!Number.isInteger(whole)) {
    whole *= 2;
    halvings += 1n;
  }
  return (BigInt(whole) << PLACES) >> halvings;
}
