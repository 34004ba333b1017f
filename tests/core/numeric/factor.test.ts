// The factor itself: the matrix-tree theorem, singular pivots, values that are refused, parts without ground.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { analyse } from '../../../src/core/numeric/analyse.js';
import { ChangeSet } from '../../../src/core/numeric/change-set.js';
import { createFactor, type Factor, factorise } from '../../../src/core/numeric/factor.js';
import { markFloating } from '../../../src/core/numeric/floating.js';
import { residualComponentwise } from '../../../src/core/numeric/residual.js';
import { solve } from '../../../src/core/numeric/solve.js';
import { applyChanges, undoChanges } from '../../../src/core/numeric/update.js';
import {
  type Edge,
  factorOf,
  solution,
  solveAndVerify,
  systems,
  type WeightedSystem,
} from '../../support/weighted-system.js';

/** Product of the totals: the determinant of the matrix. */
function determinant({ analysis, values, columnAt }: Factor): number {
  const { start } = analysis.columns;
  let product = 1;
  for (let k = 0; k < columnAt.length; k++) {
    product *= values[columnAt[k] + start[k + 1] - start[k]];
  }
  return product;
}

/** Number of spanning trees by Kirchhoff's theorem: the determinant with one node removed (made ground). */
function spanningTrees(nodeCount: number, edges: readonly (readonly [number, number])[]): number {
  const system: WeightedSystem = {
    nodeCount: nodeCount - 1,
    edges: edges.map(([a, b]) => [a - 1, b - 1, 1]),
    ground: new Array<number>(nodeCount - 1).fill(0),
    rhs: new Array<number>(nodeCount - 1).fill(0),
  };
  const factor = factorOf(system);
  expect(factorise(factor).ok).toBe(true);
  return determinant(factor);
}

describe('factorise', () => {
  it("counts the spanning trees of the complete graph: Cayley's n^(n-2)", () => {
    for (let n = 2; n <= 9; n++) {
      const edges: [number, number][] = [];
      for (let a = 0; a < n; a++) for (let b = a + 1; b < n; b++) edges.push([a, b]);
      expect(spanningTrees(n, edges) / n ** (n - 2)).toBeCloseTo(1, 12);
    }
  });

  it('counts the 2000 spanning trees of the Petersen graph', () => {
    // Source: standard example of the matrix-tree theorem, from memory.
    const edges: [number, number][] = [];
    for (let i = 0; i < 5; i++) edges.push([i, (i + 1) % 5], [i, i + 5], [i + 5, ((i + 2) % 5) + 5]);
    expect(spanningTrees(10, edges)).toBeCloseTo(2000, 8);
  });

  it('accepts a pattern without nodes', () => {
    expect(solution({ nodeCount: 0, edges: [], ground: [], rhs: [] })).toHaveLength(0);
  });

  it('adds parallel edges and ignores loops and edges from ground to ground', () => {
    const edges: Edge[] = [
      [0, 1, 1],
      [1, 0, 2],
      [0, 0, 7],
      [-1, -1, 5],
      [1, -1, 3],
    ];
    expect([...solution({ nodeCount: 2, edges, ground: [0, 0], rhs: [3, 0] })]).toEqual([2, 1]);
  });

  it('names the node of a singular pivot by its own number, in the part that has no ground', () => {
    fc.assert(
      fc.property(systems(12), systems(12), (grounded, drawn) => {
        // Two parts; the second one without any ground.
        const shift = grounded.nodeCount;
        const moved = drawn.edges
          .filter(([a, b]) => a >= 0 && b >= 0)
          .map(([a, b, weight]): Edge => [a + shift, b + shift, weight]);
        const factor = factorOf({
          nodeCount: shift + drawn.nodeCount,
          edges: [...moved, ...grounded.edges],
          ground: [...grounded.ground, ...drawn.ground.map(() => 0)],
          rhs: [...grounded.rhs, ...drawn.rhs.map(() => 0)],
        });
        const refused = factorise(factor);
        expect(refused).toMatchObject({ ok: false, kind: 'singular' });
        if (refused.ok || refused.kind !== 'singular') throw new Error('expected a singular pivot');
        expect(refused.node).toBeGreaterThanOrEqual(shift);
        expect(() => solve(factor, new Float64Array(factor.rhs.length))).toThrow(/not factorised/);

        expect(factorise(factor, 'undetermined')).toEqual({ ok: true, undetermined: [refused.node] });
        const x = solveAndVerify(factor);
        expect(x[refused.node]).toBe(0);
        const floating = new Uint8Array(factor.rhs.length);
        expect(markFloating(factor, floating)).toBe(drawn.nodeCount);
        expect([...floating.keys()].filter((i) => floating[i] === 1)[0]).toBe(shift);
      }),
    );
  });

  it('solves a part without ground relative to one of its nodes', () => {
    // 2 A round a loop of 3 ohm and 1 ohm in parallel, nowhere grounded: 1.5 V between the two.
    const factor = factorOf({
      nodeCount: 2,
      edges: [
        [0, 1, 1 / 3],
        [0, 1, 1],
      ],
      ground: [0, 0],
      rhs: [2, -2],
    });
    expect(factorise(factor, 'undetermined')).toMatchObject({ ok: true });
    const x = solveAndVerify(factor);
    expect(x[0] - x[1]).toBeCloseTo(1.5, 14);
  });

  it('shows in the residual what flows into a part that has no way out', () => {
    const factor = factorOf({ nodeCount: 1, edges: [], ground: [0], rhs: [1] });
    expect(factorise(factor, 'undetermined')).toEqual({ ok: true, undetermined: [0] });
    const x = new Float64Array(1);
    solve(factor, x);
    expect(x[0]).toBe(0);
    expect(residualComponentwise(factor, x)).toBe(1);
  });

  it('takes 10,000 isolated nodes, all edges absent', () => {
    const n = 10_000;
    const factor = createFactor(
      analyse({
        nodeCount: n,
        from: Int32Array.from({ length: n }, (_, i) => i),
        to: Int32Array.from({ length: n }, (_, i) => (7 * i) % n),
      }),
    );
    expect(factorise(factor)).toMatchObject({ ok: false, kind: 'singular' });
    const outcome = factorise(factor, 'undetermined');
    expect(outcome.ok && outcome.undetermined.length).toBe(n);
    expect(solveAndVerify(factor).every((value) => value === 0)).toBe(true);
    expect(markFloating(factor, new Uint8Array(n))).toBe(n);
  });

  it.each([
    ['weight', Number.NaN],
    ['weight', -1],
    ['weight', Number.POSITIVE_INFINITY],
    ['weight', 1e-31],
    ['ground', -1e-9],
    ['ground', Number.NaN],
    ['rhs', Number.NaN],
    ['rhs', Number.NEGATIVE_INFINITY],
    ['rhs', 1e31],
  ] as const)('refuses a %s of %d and says where it is', (of, value) => {
    const factor = factorOf({
      nodeCount: 2,
      edges: [
        [0, 1, 1],
        [0, 1, 1],
      ],
      ground: [1, 1],
      rhs: [1, 1],
    });
    const values = { weight: factor.weights, ground: factor.ground, rhs: factor.rhs }[of];
    values[1] = value;
    expect(factorise(factor)).toEqual({ ok: false, kind: 'badValue', of, index: 1, value });
    expect(() => solve(factor, new Float64Array(2))).toThrow(/not factorised/);
    values[1] = 1;
    expect(factorise(factor).ok).toBe(true);
  });

  it('stays finite at the ends of the accepted range', () => {
    const n = 200;
    const extremes = [1e-30, 1e30];
    const edges = Array.from({ length: n - 1 }, (_, i): Edge => [i, i + 1, extremes[i % 2]]);
    const ground = new Array<number>(n).fill(0);
    ground[n - 1] = 1e-30;
    const rhs = new Array<number>(n).fill(1e30);
    expect(solution({ nodeCount: n, edges, ground, rhs })[0]).toBeGreaterThan(1e60);
  });
});

describe('markFloating', () => {
  it('agrees with a search of the graph', () => {
    fc.assert(
      fc.property(systems(25), fc.array(fc.nat(60), { maxLength: 20 }), (drawn, absent) => {
        const edges = drawn.edges.map(([a, b, weight], e): Edge => [a, b, absent.includes(e) ? 0 : weight]);
        const system = { ...drawn, edges, rhs: drawn.rhs.map(() => 0) };
        const factor = factorOf(system);
        factorise(factor, 'undetermined');
        const floating = new Uint8Array(system.nodeCount);
        const count = markFloating(factor, floating);
        const expected = floatingBySearch(system);
        expect([...floating]).toEqual(expected);
        expect(count).toBe(expected.filter((value) => value === 1).length);
      }),
    );
  });
});

describe('markFloating by hand', () => {
  it('knows ground weights, edges to ground written either way, and edges of weight 0', () => {
    const edges: Edge[] = [
      [0, -1, 1],
      [-1, 1, 1],
      [2, 1, 1],
      [3, -1, 0],
      [4, 0, 0],
      [5, 4, 1],
    ];
    const factor = factorOf({ nodeCount: 7, edges, ground: [0, 0, 0, 0, 0, 0, 1], rhs: new Array<number>(7).fill(0) });
    factorise(factor, 'undetermined');
    const floating = new Uint8Array(7);
    expect(markFloating(factor, floating)).toBe(3);
    expect([...floating]).toEqual([0, 0, 0, 1, 1, 1, 0]);
  });

  it('sees applied changes', () => {
    const factor = factorOf({
      nodeCount: 2,
      edges: [
        [0, 1, 1],
        [1, -1, 1],
      ],
      ground: [0, 0],
      rhs: [0, 0],
    });
    factorise(factor);
    const changes = new ChangeSet();
    changes.setWeight(0, 0);
    applyChanges(factor, changes, 'undetermined');
    const floating = new Uint8Array(2);
    expect(markFloating(factor, floating)).toBe(1);
    expect([...floating]).toEqual([1, 0]);
    undoChanges(factor);
    expect(markFloating(factor, floating)).toBe(0);
  });
});

function floatingBySearch({ nodeCount, edges, ground }: WeightedSystem): number[] {
  const grounded = new Set<number>();
  for (let i = 0; i < nodeCount; i++) if (ground[i] > 0) grounded.add(i);
  grounded.add(-1);
  for (let grew = true; grew; ) {
    const before = grounded.size;
    for (const [a, b, weight] of edges) {
      if (weight > 0 && (grounded.has(a) || grounded.has(b))) grounded.add(a).add(b);
    }
    grew = grounded.size > before;
  }
  return Array.from({ length: nodeCount }, (_, i) => (grounded.has(i) ? 0 : 1));
}
