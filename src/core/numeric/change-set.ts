// Lists of changed values, and the log that takes them back.
// It must not refactor anything: that is update.ts.

import { isSafe } from './safe-values.js';
import { GROUND, type Outcome, type ValueKind } from './types.js';

const KINDS: readonly ValueKind[] = ['weight', 'ground', 'rhs'];
const WEIGHT = 0;
const GROUND_WEIGHT = 1;
const RHS = 2;

/** The arrays of a system, by kind of value. */
interface Values {
  readonly weights: Float64Array;
  readonly ground: Float64Array;
  readonly rhs: Float64Array;
}

/** A list of (kind, index, value) that grows and never shrinks its storage. */
class ValueList {
  size = 0;
  kinds = new Uint8Array(16);
  indices = new Int32Array(16);
  values = new Float64Array(16);

  push(kind: number, index: number, value: number): void {
    if (this.size === this.kinds.length) this.grow();
    this.kinds[this.size] = kind;
    this.indices[this.size] = index;
    this.values[this.size] = value;
    this.size++;
  }

  private grow(): void {
    const { kinds, indices, values } = this;
    this.kinds = new Uint8Array(2 * kinds.length);
    this.indices = new Int32Array(2 * kinds.length);
    this.values = new Float64Array(2 * kinds.length);
    this.kinds.set(kinds);
    this.indices.set(indices);
    this.values.set(values);
  }
}

/** An edge that the pattern does not have; either end may be GROUND. */
export interface ExtraEdge {
  from: number;
  to: number;
  weight: number;
}

/** Values to be changed together, such as all edges that a pulled plug opens. Of two for the same place the later holds. */
export class ChangeSet {
  /** For numeric alone. */
  readonly list = new ValueList();
  /** For numeric alone: the first `extraCount` are meant, the others wait to be used again. */
  readonly extraEdges: ExtraEdge[] = [];
  extraCount = 0;

  /** Number of changes. */
  get size(): number {
    return this.list.size + this.extraCount;
  }

  /** Weight of an edge; 0 takes it away. */
  setWeight(edge: number, weight: number): void {
    this.list.push(WEIGHT, edge, weight);
  }

  setGround(node: number, weight: number): void {
    this.list.push(GROUND_WEIGHT, node, weight);
  }

  setRhs(node: number, value: number): void {
    this.list.push(RHS, node, value);
  }

  /**
   * Adds an edge that the pattern does not have, such as a short between any two nodes. Only batches take these: the
   * factor has no place to keep them.
   */
  addEdge(from: number, to: number, weight: number): void {
    let edge = this.extraEdges[this.extraCount];
    if (edge === undefined) {
      edge = { from, to, weight };
      this.extraEdges.push(edge);
    }
    edge.from = from;
    edge.to = to;
    edge.weight = weight;
    this.extraCount++;
  }

  clear(): void {
    this.list.size = 0;
    this.extraCount = 0;
  }
}

/** Writes changes into a system and remembers what stood there. */
export class ChangeLog {
  private readonly before = new ValueList();

  get size(): number {
    return this.before.size;
  }

  /**
   * Outcome of the first value that the solver refuses, undefined if there is none; index -1 for the weight of an extra
   * edge. Throws RangeError for a wrong index.
   */
  static check({ list, extraEdges, extraCount }: ChangeSet, system: Values): Outcome | undefined {
    for (let t = 0; t < extraCount; t++) {
      const { from, to, weight } = extraEdges[t];
      const nodes = system.rhs.length;
      if (Math.min(from, to) < GROUND || Math.max(from, to) >= nodes) {
        throw new RangeError(`change: extra edge from ${from} to ${to} is outside 0..${nodes - 1}`);
      }
      if (!isSafe('weight', weight)) return { ok: false, kind: 'badValue', of: 'weight', index: -1, value: weight };
    }
    for (let t = 0; t < list.size; t++) {
      const of = KINDS[list.kinds[t]];
      const index = list.indices[t];
      const count = valuesOf(system, list.kinds[t]).length;
      if (index < 0 || index >= count) throw new RangeError(`change: ${of} ${index} is outside 0..${count - 1}`);
      const value = list.values[t];
      if (!isSafe(of, value)) return { ok: false, kind: 'badValue', of, index, value };
    }
    return undefined;
  }

  write({ list }: ChangeSet, system: Values): void {
    for (let t = 0; t < list.size; t++) {
      const kind = list.kinds[t];
      const index = list.indices[t];
      const values = valuesOf(system, kind);
      this.before.push(kind, index, values[index]);
      values[index] = list.values[t];
    }
  }

  /** Puts back what stood there, latest first, and forgets it. */
  takeBack(system: Values): void {
    const { before } = this;
    for (let t = before.size - 1; t >= 0; t--) valuesOf(system, before.kinds[t])[before.indices[t]] = before.values[t];
    before.size = 0;
  }

  forget(): void {
    this.before.size = 0;
  }
}

function valuesOf(system: Values, kind: number): Float64Array {
  return kind === WEIGHT ? system.weights : kind === GROUND_WEIGHT ? system.ground : system.rhs;
}
