// Edges outside the pattern in a batch, against a pattern that has them, and exact fractions for dead shorts.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addToBatch, batchValue, createBatch, solveBatch } from '../../../src/core/numeric/batch.js';
import { ChangeSet } from '../../../src/core/numeric/change-set.js';
import { ExtraEdgeSolver } from '../../../src/core/numeric/extra-edges.js';
import { factorise } from '../../../src/core/numeric/factor.js';
import { createPointSet } from '../../../src/core/numeric/points.js';
import { applyChanges, undoChanges } from '../../../src/core/numeric/update.js';
import { relativeError } from '../../support/fraction.js';
import {
  type Edge,
  exactSolution,
  factorOf,
  solution,
  solveAndVerify,
  systems,
  type WeightedSystem,
  wideWeight,
} from '../../support/weighted-system.js';

const extraEdges = fc.array(fc.tuple(fc.nat(1000), fc.integer({ min: -1, max: 1000 }), wideWeight), {
  minLength: 1,
  maxLength: 4,
});

function wrapped(extra: readonly Edge[], nodeCount: number): Edge[] {
  return extra.map(([a, b, weight]) => [a % nodeCount, b < 0 ? b : b % nodeCount, weight]);
}

/** Only inflow, so that nothing cancels and a relative bound can be asked for. */
function inflowOnly(system: WeightedSystem): WeightedSystem {
  return { ...system, rhs: system.rhs.map(Math.abs), ground: system.ground.map((value) => value + 1e-8) };
}

describe('a batch with edges outside the pattern', () => {
  it('equals a pattern that has them, with other changes in the same set, and leaves the base alone', () => {
    fc.assert(
      fc.property(systems(25), extraEdges, fc.nat(1000), (drawn, extra, opened) => {
        const system = inflowOnly(drawn);
        const edges = wrapped(extra, system.nodeCount);
        const factor = factorOf(system);
        factorise(factor);
        const before = solveAndVerify(factor);
        const changes = new ChangeSet();
        for (const [a, b, weight] of edges) changes.addEdge(a, b, weight);
        const open = system.edges.length === 0 ? -1 : opened % system.edges.length;
        if (open >= 0) changes.setWeight(open, 0);
        const batch = createBatch(factor);
        expect(addToBatch(batch, changes)).toEqual({ ok: true, undetermined: [] });
        solveBatch(batch);
        const kept = system.edges.map(([a, b, weight], e): Edge => [a, b, e === open ? 0 : weight]);
        solution({ ...system, edges: [...kept, ...edges] }).forEach((value, node) => {
          expect(Math.abs(batchValue(batch, 0, node) - value)).toBeLessThanOrEqual(1e-13 * value);
          expect(batchValue(batch, 1, node)).toBe(before[node]);
        });
        expect(solveAndVerify(factor)).toEqual(before);
      }),
    );
  });

  it('is the same over changes that are applied already, at all nodes and at a few', () => {
    fc.assert(
      fc.property(systems(25), extraEdges, fc.nat(1000), fc.nat(1000), (drawn, extra, opened, asked) => {
        const system = inflowOnly(drawn);
        const edges = wrapped(extra, system.nodeCount);
        const factor = factorOf(system);
        factorise(factor);
        const changes = new ChangeSet();
        const open = system.edges.length === 0 ? -1 : opened % system.edges.length;
        if (open >= 0) changes.setWeight(open, 0);
        applyChanges(factor, changes);
        const solver = new ExtraEdgeSolver(factor.analysis);
        const x = new Float64Array(system.nodeCount);
        const extras = edges.map(([from, to, weight]) => ({ from, to, weight }));
        solver.solve(factor, extras, x);
        const kept = system.edges.map(([a, b, weight], e): Edge => [a, b, e === open ? 0 : weight]);
        solution({ ...system, edges: [...kept, ...edges] }).forEach((value, node) => {
          expect(Math.abs(x[node] - value)).toBeLessThanOrEqual(1e-13 * value);
        });
        const node = asked % system.nodeCount;
        const { visits } = createPointSet(factor.analysis, Int32Array.of(node));
        const few = new Float64Array(system.nodeCount);
        solver.solve(factor, extras, few, visits);
        expect(few[node]).toBe(x[node]);
      }),
    );
  });

  it('keeps all digits for a dead short between two parts that only 10 gigohm leaks ground: exact fractions', () => {
    fc.assert(
      fc.property(systems(6), fc.nat(5), fc.nat(5), fc.nat(5), (drawn, a, b, where) => {
        const n = drawn.nodeCount;
        const system = {
          ...drawn,
          ground: drawn.ground.map(() => 1e-10),
          rhs: drawn.rhs.map((_, i) => (i === where % n ? 12 : 0)),
        };
        const factor = factorOf(system);
        factorise(factor);
        const changes = new ChangeSet();
        changes.addEdge(a % n, b % n, 1e5);
        const batch = createBatch(factor);
        addToBatch(batch, changes);
        solveBatch(batch);
        exactSolution({ ...system, edges: [...system.edges, [a % n, b % n, 1e5]] }).forEach((exact, node) => {
          expect(relativeError(batchValue(batch, 0, node), exact)).toBeLessThan(1e-14);
        });
      }),
      { numRuns: 60 },
    );
  });

  it('gives the same at points as at all nodes', () => {
    const system: WeightedSystem = {
      nodeCount: 5,
      edges: [
        [0, 1, 1],
        [1, 2, 2],
        [2, 3, 1],
        [3, 4, 5],
        [4, -1, 1],
      ],
      ground: [0, 0, 0, 0, 0],
      rhs: [1, 0, 0, 0, 0],
    };
    const factor = factorOf(system);
    factorise(factor);
    const changes = new ChangeSet();
    changes.addEdge(0, 3, 10);
    const all = createBatch(factor);
    const some = createBatch(factor, createPointSet(factor.analysis, Int32Array.of(2, 0)));
    for (const batch of [all, some]) {
      addToBatch(batch, changes);
      solveBatch(batch);
    }
    expect(batchValue(some, 0, 0)).toBe(batchValue(all, 0, 2));
    expect(batchValue(some, 0, 1)).toBe(batchValue(all, 0, 0));
  });

  it('names what is cut off, or takes it as undetermined', () => {
    const factor = factorOf({
      nodeCount: 3,
      edges: [
        [0, 1, 1],
        [1, -1, 1],
      ],
      ground: [0, 0, 1],
      rhs: [0, 0, 1],
    });
    factorise(factor);
    const changes = new ChangeSet();
    changes.setWeight(1, 0);
    changes.addEdge(0, 1, 2);
    const batch = createBatch(factor);
    const refused = addToBatch(batch, changes);
    expect(refused).toMatchObject({ ok: false, kind: 'singular' });
    expect(batch.lanes).toBe(0);
    const taken = addToBatch(batch, changes, 'undetermined');
    expect(taken.ok && taken.undetermined).toHaveLength(1);
    solveBatch(batch);
    expect([0, 1, 2].map((node) => batchValue(batch, 0, node))).toEqual([0, 0, 1]);
  });

  it('grounds through an edge to ground, and two parts through each other', () => {
    const factor = factorOf({ nodeCount: 2, edges: [], ground: [1, 0], rhs: [0, 0] });
    factorise(factor, 'undetermined');
    const changes = new ChangeSet();
    changes.setRhs(1, 1);
    changes.addEdge(0, 1, 1);
    const batch = createBatch(factor);
    expect(addToBatch(batch, changes)).toEqual({ ok: true, undetermined: [] });
    changes.clear();
    changes.setRhs(1, 1);
    changes.addEdge(-1, 1, 0.25);
    expect(addToBatch(batch, changes)).toEqual({ ok: true, undetermined: [] });
    solveBatch(batch);
    expect(batchValue(batch, 0, 1)).toBe(2);
    expect(batchValue(batch, 1, 1)).toBe(4);
  });

  it('refuses bad weights and ends, and changes that are still applied', () => {
    const factor = factorOf({ nodeCount: 2, edges: [[0, 1, 1]], ground: [1, 0], rhs: [1, 0] });
    factorise(factor);
    const batch = createBatch(factor);
    const changes = new ChangeSet();
    changes.addEdge(0, 1, Number.NaN);
    const value = Number.NaN;
    expect(addToBatch(batch, changes)).toEqual({ ok: false, kind: 'badValue', of: 'weight', index: -1, value });
    changes.clear();
    changes.addEdge(0, 2, 1);
    expect(() => addToBatch(batch, changes)).toThrow(RangeError);
    expect(() => applyChanges(factor, changes)).toThrow(/only go into a batch/);
    changes.clear();
    changes.setWeight(0, 2);
    applyChanges(factor, changes);
    expect(() => addToBatch(batch, changes)).toThrow(/undo or keep/);
    undoChanges(factor);
    expect(addToBatch(batch, changes).ok).toBe(true);
  });
});
