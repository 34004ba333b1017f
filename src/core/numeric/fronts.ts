// Groups columns into fronts and fronts into an assembly tree of small fan-in.
// It must not touch values; where values go is assembly.ts.

/*
 * A front eliminates a run of consecutive columns (its *pivots*) that share their later rows (its *border*): a
 * fundamental supernode. A front whose border is not empty hands what is left to the front that holds the first border
 * row. Duff, Reid: The multifrontal solution of indefinite sparse symmetric linear systems, ACM TOMS 9 (1983).
 *
 * A node with thousands of neighbours (a chassis, a bus bar) has thousands of children in the tree, and changing one of
 * them would mean adding up all of them again. Fronts without pivots are therefore put between: each only adds up at
 * most FAN_IN others. They are combined as in a Huffman code, light subtrees first, so that the mean path to the root is
 * short when every column changes equally often.
 */

import type { Columns } from './symbolic.js';

/** Most fronts that one front adds up. Small: short sums; large: short paths. 3 to 6 measured alike. */
const FAN_IN = 4;

export interface FrontTree {
  readonly frontCount: number;
  /** 0, 1, .. frontCount - 1: the order in which all are eliminated. */
  readonly all: Int32Array;
  /** Front that eliminates column k. */
  readonly frontOf: Int32Array;
  /** Per front: first column and number of columns that it eliminates (0: it only adds up). */
  readonly firstPivot: Int32Array;
  readonly pivotCount: Int32Array;
  /** border[borderStart[f]] .. : later columns that front f reaches, ascending. */
  readonly borderStart: Int32Array;
  readonly border: Int32Array;
  /** Assembly tree: parents have higher numbers than their children; -1 for a root. */
  readonly parent: Int32Array;
  readonly childStart: Int32Array;
  readonly children: Int32Array;
}

interface Front {
  readonly firstPivot: number;
  readonly pivotCount: number;
  readonly border: Int32Array;
  readonly children: number[];
  /** Columns eliminated in the subtree. */
  readonly weight: number;
}

/** The assembly tree of `columns`. */
export function frontTree(columns: Columns): FrontTree {
  const { order, start, rows } = columns;
  const fronts: Front[] = [];
  const frontOf = new Int32Array(order.length);
  // Fronts that wait for the front of column k.
  const waiting: number[][] = Array.from({ length: order.length }, () => []);
  let first = 0;
  while (first < order.length) {
    let last = first;
    while (continuesFront(columns, last)) last++;
    const children: number[] = [];
    for (let k = first; k <= last; k++) children.push(...waiting[k]);
    const border = rows.subarray(start[last], start[last + 1]);
    const summed = withFanIn(fronts, children);
    const pivotCount = last - first + 1;
    const weight = summed.reduce((sum, child) => sum + fronts[child].weight, pivotCount);
    const front = fronts.push({ firstPivot: first, pivotCount, border, children: summed, weight }) - 1;
    frontOf.fill(front, first, last + 1);
    if (border.length > 0) waiting[border[0]].push(front);
    first = last + 1;
  }
  return flatten(fronts, frontOf);
}

/** Column k + 1 has exactly the rows of column k, except itself. */
function continuesFront({ order, parent, start }: Columns, k: number): boolean {
  return k + 1 < order.length && parent[k] === k + 1 && start[k + 1] - start[k] === start[k + 2] - start[k + 1] + 1;
}

/** Puts adding-up fronts between until at most FAN_IN are left. */
function withFanIn(fronts: Front[], children: readonly number[]): number[] {
  // Two queues of rising weight: the given ones and the combined ones; the lightest is always in front of one of them.
  const given = [...children].sort((a, b) => fronts[a].weight - fronts[b].weight || a - b);
  const combined: number[] = [];
  let g = 0;
  let c = 0;
  const left = () => given.length - g + combined.length - c;
  const takeLightest = () => {
    if (c === combined.length) return given[g++];
    if (g === given.length) return combined[c++];
    return fronts[given[g]].weight <= fronts[combined[c]].weight ? given[g++] : combined[c++];
  };
  while (left() > FAN_IN) {
    // The first group is smaller where needed, so that the last one comes out full.
    const surplus = (left() - 1) % (FAN_IN - 1);
    const group: number[] = [];
    for (let t = surplus === 0 ? FAN_IN : surplus + 1; t > 0; t--) group.push(takeLightest());
    combined.push(addingFront(fronts, group));
  }
  return [...given.slice(g), ...combined.slice(c)];
}

function addingFront(fronts: Front[], group: readonly number[]): number {
  const union = new Set<number>();
  let weight = 0;
  for (const child of group) {
    weight += fronts[child].weight;
    for (const row of fronts[child].border) union.add(row);
  }
  const border = Int32Array.from(union).sort();
  return fronts.push({ firstPivot: border[0], pivotCount: 0, border, children: [...group], weight }) - 1;
}

function flatten(fronts: readonly Front[], frontOf: Int32Array): FrontTree {
  const frontCount = fronts.length;
  const borderStart = new Int32Array(frontCount + 1);
  const childStart = new Int32Array(frontCount + 1);
  fronts.forEach((front, f) => {
    borderStart[f + 1] = borderStart[f] + front.border.length;
    childStart[f + 1] = childStart[f] + front.children.length;
  });
  const border = new Int32Array(borderStart[frontCount]);
  const children = new Int32Array(childStart[frontCount]);
  const parent = new Int32Array(frontCount).fill(-1);
  fronts.forEach((front, f) => {
    border.set(front.border, borderStart[f]);
    children.set(front.children, childStart[f]);
    for (const child of front.children) parent[child] = f;
  });
  const firstPivot = Int32Array.from(fronts, (front) => front.firstPivot);
  const pivotCount = Int32Array.from(fronts, (front) => front.pivotCount);
  const all = parent.map((_, f) => f);
  return { frontCount, all, frontOf, firstPivot, pivotCount, borderStart, border, parent, childStart, children };
}
