// The order, the tree, the columns and the fronts: laws that hold whatever the values are.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { adjacencyOf } from '../../../src/core/numeric/adjacency.js';
import { analyse } from '../../../src/core/numeric/analyse.js';
import { eliminationTree, inversePermutation, postorder } from '../../../src/core/numeric/elimination-tree.js';
import { FillTooLargeError } from '../../../src/core/numeric/fill-too-large.js';
import { minimumDegreeOrder } from '../../../src/core/numeric/ordering.js';
import { createPointSet } from '../../../src/core/numeric/points.js';
import { symbolicFactor } from '../../../src/core/numeric/symbolic.js';
import type { Pattern } from '../../../src/core/numeric/types.js';
import { harnessLikeNetwork } from '../../support/harness-like-network.js';
import { patternOf, systems } from '../../support/weighted-system.js';

function pattern(nodeCount: number, ends: readonly (readonly [number, number])[]): Pattern {
  return { nodeCount, from: Int32Array.from(ends, ([a]) => a), to: Int32Array.from(ends, ([, b]) => b) };
}

function chain(count: number): Pattern {
  return pattern(
    count,
    Array.from({ length: count - 1 }, (_, i) => [i, i + 1] as const),
  );
}

function grid(side: number): Pattern {
  const ends: [number, number][] = [];
  for (let r = 0; r < side; r++) {
    for (let c = 0; c < side; c++) {
      if (c + 1 < side) ends.push([r * side + c, r * side + c + 1]);
      if (r + 1 < side) ends.push([r * side + c, r * side + c + side]);
    }
  }
  return pattern(side * side, ends);
}

/** Later neighbours of every node when its turn comes, by playing elimination on sets. */
function playedElimination(graph: Pattern, order: Int32Array): Set<number>[] {
  const position = inversePermutation(order);
  const neighbours = Array.from({ length: graph.nodeCount }, () => new Set<number>());
  for (let e = 0; e < graph.from.length; e++) {
    const [a, b] = [graph.from[e], graph.to[e]];
    if (a < 0 || b < 0 || a === b) continue;
    neighbours[position[a]].add(position[b]);
    neighbours[position[b]].add(position[a]);
  }
  return neighbours.map((all, k) => {
    const later = new Set([...all].filter((i) => i > k));
    for (const i of later) for (const j of later) if (i !== j) neighbours[i].add(j);
    return later;
  });
}

function depths(parent: Int32Array): number[] {
  const depth = new Array<number>(parent.length).fill(1);
  for (let k = parent.length - 1; k >= 0; k--) if (parent[k] !== -1) depth[k] = depth[parent[k]] + 1;
  return depth;
}

describe('minimumDegreeOrder', () => {
  it('takes every node once', () => {
    fc.assert(
      fc.property(systems(60), (system) => {
        const order = minimumDegreeOrder(adjacencyOf(patternOf(system)));
        expect([...order].sort((a, b) => a - b)).toEqual([...system.rhs.keys()]);
      }),
    );
  });

  it('gives trees no fill at all', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(1000), { minLength: 1, maxLength: 80 }), (choices) => {
        const tree = pattern(
          choices.length + 1,
          choices.map((choice, i) => [choice % (i + 1), i + 1] as const),
        );
        expect(symbolicFactor(tree, 1e6).rows.length).toBe(choices.length);
      }),
    );
  });

  it('takes every other node of a ring before their neighbours, so that its tree stays low', () => {
    const count = 4096;
    const ring = pattern(
      count,
      Array.from({ length: count }, (_, i) => [i, (i + 1) % count] as const),
    );
    // A ring of n has at best n + n - 3 entries; taking it round in one direction would give a tree of depth 4094.
    const columns = symbolicFactor(ring, 1e6);
    expect(columns.rows.length).toBe(2 * count - 3);
    expect(Math.max(...depths(columns.parent))).toBeLessThan(30);
  });

  it('has on a 40 x 40 grid less than half the fill that is proven for nested dissection, 31/4 n^2 log2 n', () => {
    // George, Liu: Computer Solution of Large Sparse Positive Definite Systems (1981), n x n grid; from memory.
    const side = 40;
    const bound = (31 / 4) * side * side * Math.log2(side);
    expect(symbolicFactor(grid(side), 1e6).rows.length).toBeLessThan(bound / 2);
  });

  it('orders a node with 65,000 neighbours last and stays fast', () => {
    const leaves = 65_000;
    const star = pattern(
      leaves + 1,
      Array.from({ length: leaves }, (_, i) => [0, i + 1] as const),
    );
    const before = performance.now();
    const order = minimumDegreeOrder(adjacencyOf(star));
    expect(order[leaves]).toBe(0);
    expect(performance.now() - before).toBeLessThan(5000);
  });

  it('takes late nodes and all above them last, for far fewer columns to visit and hardly more fill', () => {
    const { pattern } = harnessLikeNetwork(1000, 3);
    const asked = Int32Array.from({ length: 500 }, (_, i) => Math.floor((i * pattern.nodeCount) / 500));
    const late = new Uint8Array(pattern.nodeCount);
    for (const node of asked) late[node] = 1;
    const [plain, ordered] = [analyse(pattern), analyse(pattern, { late })];
    const { visits } = createPointSet(ordered, asked);
    const first = pattern.nodeCount - visits.length;
    expect([...visits].sort((a, b) => a - b)).toEqual(Array.from(visits, (_, i) => first + i));
    expect(visits.length).toBeLessThan(0.7 * createPointSet(plain, asked).visits.length);
    expect(ordered.counts.entries).toBeLessThan(1.05 * plain.counts.entries);
  });

  it('keeps the order of before for a pattern with points put between others, which adds one column each and no other entry', () => {
    const { pattern: before } = harnessLikeNetwork(1000, 3);
    const known = analyse(before);
    const edge = before.from.findIndex((from, e) => from >= 0 && before.to[e] >= 0 && from !== before.to[e]);
    const inner = before.nodeCount;
    const after: Pattern = {
      nodeCount: inner + 1,
      from: Int32Array.of(...before.from.with(edge, inner), before.from[edge]),
      to: Int32Array.of(...before.to, inner),
    };
    const extended = analyse(after, { order: Int32Array.of(inner, ...known.columns.order) });
    expect(extended.columns.order).toEqual(Int32Array.of(inner, ...known.columns.order));
    expect(extended.counts.entries).toBe(known.counts.entries + 2);
    expect(Array.from(extended.columns.rows.subarray(2))).toEqual(Array.from(known.columns.rows, (row) => row + 1));
  });

  it('gives a harness-like network of 5,000 wires under three entries a node', () => {
    const { counts } = analyse(harnessLikeNetwork(5000, 3).pattern);
    expect(counts.entries / counts.nodes).toBeLessThan(3);
  });
});

describe('eliminationTree and postorder', () => {
  it('parent is the first later neighbour at its turn, and a postorder keeps the fill', () => {
    fc.assert(
      fc.property(systems(25), (system) => {
        const graph = patternOf(system);
        const adjacency = adjacencyOf(graph);
        const order = minimumDegreeOrder(adjacency);
        const played = playedElimination(graph, order);
        const parent = eliminationTree(adjacency, order, inversePermutation(order));
        expect([...parent]).toEqual(played.map((later) => (later.size === 0 ? -1 : Math.min(...later))));

        const columns = symbolicFactor(graph, 1e6);
        const again = playedElimination(graph, columns.order);
        again.forEach((later, k) => {
          const rows = columns.rows.subarray(columns.start[k], columns.start[k + 1]);
          expect([...rows]).toEqual([...later].sort((a, b) => a - b));
        });
        const entries = (sets: readonly Set<number>[]) => sets.reduce((sum, later) => sum + later.size, 0);
        expect(entries(again)).toBe(entries(played));
      }),
    );
  });

  it('puts every subtree in one piece that ends with its root, the largest child last', () => {
    const parent = Int32Array.of(2, 2, 6, 5, 5, 6, -1, -1);
    const size = Int32Array.of(9, 1, 1, 1, 1, 5, 1, 1);
    expect([...postorder(parent, size)]).toEqual([1, 0, 2, 3, 4, 5, 6, 7]);
  });
});

describe('fronts', () => {
  it('cover every column once, with few children each, and borders inside the parent', () => {
    for (const graph of [harnessLikeNetwork(300, 5).pattern, grid(15), chain(200), pattern(50, [])]) {
      const { tree, columns } = analyse(graph);
      let next = 0;
      for (let f = 0; f < tree.frontCount; f++) {
        const border = [...tree.border.subarray(tree.borderStart[f], tree.borderStart[f + 1])];
        for (let a = 0; a < tree.pivotCount[f]; a++) {
          const k = tree.firstPivot[f] + a;
          expect(k).toBe(next++);
          expect(tree.frontOf[k]).toBe(f);
          const later = Array.from({ length: tree.pivotCount[f] - 1 - a }, (_, t) => k + 1 + t);
          expect([...columns.rows.subarray(columns.start[k], columns.start[k + 1])]).toEqual([...later, ...border]);
        }
        expect(tree.childStart[f + 1] - tree.childStart[f]).toBeLessThanOrEqual(4);
        const up = tree.parent[f];
        if (up === -1) {
          expect(border).toEqual([]);
          continue;
        }
        expect(up).toBeGreaterThan(f);
        const pivots = Array.from({ length: tree.pivotCount[up] }, (_, a) => tree.firstPivot[up] + a);
        const above = new Set([...pivots, ...tree.border.subarray(tree.borderStart[up], tree.borderStart[up + 1])]);
        expect(border.every((row) => above.has(row))).toBe(true);
      }
      expect(next).toBe(graph.nodeCount);
    }
  });

  it('keep the path from a leaf of a huge star to the root short', () => {
    const leaves = 20_000;
    const { tree } = analyse(
      pattern(
        leaves + 1,
        Array.from({ length: leaves }, (_, i) => [0, i + 1] as const),
      ),
    );
    // log4 of 20,000 is 7.2.
    expect(Math.max(...depths(tree.parent))).toBeLessThanOrEqual(10);
  });
});

describe('a pattern with an end outside', () => {
  it.each([
    [[0, 3], /edge 0 ends at 3/],
    [[-2, 0], /edge 0 ends at -2/],
  ] as const)('%j is a mistake of the program', (ends, message) => {
    expect(() => analyse(pattern(3, [ends]))).toThrow(message);
  });
});

describe('a pattern that is too meshed', () => {
  it('is refused while its columns or its fronts are counted, before they are stored', () => {
    const { counts, assembly, tree } = analyse(grid(20));
    expect(() => analyse(grid(20), { mostValues: counts.entries - 1 })).toThrow(FillTooLargeError);
    const values = assembly.frontStart[tree.frontCount];
    expect(values).toBeGreaterThan(counts.entries);
    expect(() => analyse(grid(20), { mostValues: values - 1 })).toThrow(FillTooLargeError);
    expect(analyse(grid(20), { mostValues: values }).counts).toEqual(counts);
  });
});
