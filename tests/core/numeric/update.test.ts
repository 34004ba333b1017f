// Path updates, points and batches against factoring anew, and exact fractions for opened bridges.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addToBatch,
  BATCH_LANES,
  batchValue,
  createBatch,
  resetBatch,
  solveBatch,
} from '../../../src/core/numeric/batch.js';
import { ChangeSet } from '../../../src/core/numeric/change-set.js';
import { type Factor, factorise } from '../../../src/core/numeric/factor.js';
import { createPointSet, solvePoints } from '../../../src/core/numeric/points.js';
import { solve, solveVisits } from '../../../src/core/numeric/solve.js';
import { amendChanges, applyChanges, changeBase, keepChanges, undoChanges } from '../../../src/core/numeric/update.js';
import { relativeError } from '../../support/fraction.js';
import { harnessLikeNetwork } from '../../support/harness-like-network.js';
import {
  type Edge,
  exactSolution,
  factorOf,
  solveAndVerify,
  systems,
  type WeightedSystem,
  wideWeight,
} from '../../support/weighted-system.js';

interface Change {
  readonly kind: 'weight' | 'ground' | 'rhs';
  readonly where: number;
  readonly value: number;
}

const change: fc.Arbitrary<Change> = fc.record({
  kind: fc.constantFrom('weight', 'weight', 'ground', 'rhs'),
  where: fc.nat(1000),
  value: fc.oneof(fc.constant(0), wideWeight),
});
const changeLists = fc.array(change, { minLength: 1, maxLength: 6 });
/** Every node keeps its ground, so that there is always a solution to verify. */
const groundedChangeLists = fc.array(
  change.filter(({ kind, value }) => kind !== 'ground' || value > 0),
  { minLength: 1, maxLength: 6 },
);

function toChangeSet(changes: readonly Change[], system: WeightedSystem): ChangeSet {
  const set = new ChangeSet();
  for (const { kind, where, value } of changes) {
    if (kind === 'ground') set.setGround(where % system.nodeCount, value);
    else if (kind === 'rhs') set.setRhs(where % system.nodeCount, value);
    else if (system.edges.length > 0) set.setWeight(where % system.edges.length, value);
  }
  return set;
}

function changed(system: WeightedSystem, changes: readonly Change[]): WeightedSystem {
  const edges = [...system.edges];
  const ground = [...system.ground];
  const rhs = [...system.rhs];
  for (const { kind, where, value } of changes) {
    if (kind === 'ground') ground[where % system.nodeCount] = value;
    else if (kind === 'rhs') rhs[where % system.nodeCount] = value;
    else if (edges.length > 0) {
      const [a, b] = edges[where % edges.length];
      edges[where % edges.length] = [a, b, value];
    }
  }
  return { ...system, edges, ground, rhs };
}

function factored(system: WeightedSystem): Factor {
  const factor = factorOf(system);
  expect(factorise(factor, 'undetermined').ok).toBe(true);
  return factor;
}

/** A system that no change from groundedChangeLists makes singular. */
function solvable(system: WeightedSystem): WeightedSystem {
  return { ...system, ground: system.ground.map((value) => value + 1e-8) };
}

describe('applyChanges', () => {
  it('equals factoring anew, bit for bit, and undo restores bit for bit', () => {
    fc.assert(
      fc.property(systems(30), groundedChangeLists, (drawn, changes) => {
        const system = solvable(drawn);
        const factor = factored(system);
        const before = solveAndVerify(factor);
        expect(applyChanges(factor, toChangeSet(changes, system))).toEqual({ ok: true, undetermined: [] });
        expect(solveAndVerify(factor)).toEqual(solveAndVerify(factored(changed(system, changes))));
        undoChanges(factor);
        expect(solveAndVerify(factor)).toEqual(before);
      }),
    );
  });

  it('sweeps a harness-like network: every open and bad joint equals factoring anew', () => {
    const network = harnessLikeNetwork(60, 11);
    const edges = Array.from(
      network.weights,
      (weight, e): Edge => [network.pattern.from[e], network.pattern.to[e], weight],
    );
    const nodeCount = network.pattern.nodeCount;
    const system = { nodeCount, edges, ground: new Array<number>(nodeCount).fill(1e-7), rhs: [...network.rhs] };
    const factor = factored(system);
    const before = solveAndVerify(factor);
    const anew = factored(system);
    const set = new ChangeSet();
    for (let e = 0; e < edges.length; e++) {
      for (const value of [0, 2, 1e5]) {
        set.clear();
        set.setWeight(e, value);
        applyChanges(factor, set);
        anew.weights[e] = value;
        factorise(anew);
        expect(solveAndVerify(factor)).toEqual(solveAndVerify(anew));
        anew.weights[e] = edges[e][2];
        undoChanges(factor);
      }
    }
    expect(solveAndVerify(factor)).toEqual(before);
  });

  it('loses no digit when a bridge opens, from 10 microohm to 100 megohm: exact fractions', () => {
    fc.assert(
      fc.property(systems(7), fc.nat(100), fc.nat(6), (drawn, which, where) => {
        // A weak ground everywhere, so that what the bridge held still has a solution: the hard case.
        const rhs = drawn.rhs.map((_, i) => (i === where % drawn.nodeCount ? 12 : 0));
        const system = { ...drawn, ground: drawn.ground.map((value) => value + 1e-10), rhs };
        if (system.edges.length === 0) return;
        const opened: Change = { kind: 'weight', where: which, value: 0 };
        const factor = factored(system);
        applyChanges(factor, toChangeSet([opened], system));
        const exact = exactSolution(changed(system, [opened]));
        solveAndVerify(factor).forEach((value, i) => {
          expect(relativeError(value, exact[i])).toBeLessThan(1e-14);
        });
      }),
      { numRuns: 60 },
    );
  });

  it('finds that a change cuts a node off, names it, and leaves everything as it was', () => {
    // 0 - 1 - 2 - ground
    const system: WeightedSystem = {
      nodeCount: 3,
      edges: [
        [0, 1, 1],
        [1, 2, 1],
        [2, -1, 1],
      ],
      ground: [0, 0, 0],
      rhs: [1, 0, 0],
    };
    const factor = factored(system);
    const set = new ChangeSet();
    set.setRhs(0, 0);
    set.setWeight(1, 0);
    const refused = applyChanges(factor, set);
    expect(refused).toMatchObject({ ok: false, kind: 'singular' });
    if (!refused.ok && refused.kind === 'singular') expect([0, 1]).toContain(refused.node);
    expect([...solveAndVerify(factor)]).toEqual([3, 2, 1]);

    const taken = applyChanges(factor, set, 'undetermined');
    expect(taken.ok && taken.undetermined).toHaveLength(1);
    expect([...solveAndVerify(factor)]).toEqual([0, 0, 0]);
    undoChanges(factor);
    expect([...solveAndVerify(factor)]).toEqual([3, 2, 1]);
  });

  it('refuses bad values and leaves everything as it was', () => {
    const factor = factored({ nodeCount: 1, edges: [[0, -1, 1]], ground: [0], rhs: [1] });
    const set = new ChangeSet();
    set.setWeight(0, 2);
    set.setWeight(0, Number.NaN);
    expect(applyChanges(factor, set)).toEqual({
      ok: false,
      kind: 'badValue',
      of: 'weight',
      index: 0,
      value: Number.NaN,
    });
    expect([...solveAndVerify(factor)]).toEqual([1]);
  });

  it('of two values for one place takes the later, and undoes both', () => {
    const factor = factored({ nodeCount: 1, edges: [[0, -1, 1]], ground: [0], rhs: [1] });
    const set = new ChangeSet();
    set.setWeight(0, 4);
    set.setWeight(0, 2);
    applyChanges(factor, set);
    expect([...solveAndVerify(factor)]).toEqual([0.5]);
    undoChanges(factor);
    expect([...solveAndVerify(factor)]).toEqual([1]);
  });

  it('treats a wrong index and a second set of changes as mistakes of the program', () => {
    const factor = factored({ nodeCount: 1, edges: [[0, -1, 1]], ground: [0], rhs: [1] });
    const set = new ChangeSet();
    set.setWeight(1, 4);
    expect(() => applyChanges(factor, set)).toThrow(RangeError);
    set.clear();
    set.setGround(0, 4);
    applyChanges(factor, set);
    expect(() => applyChanges(factor, set)).toThrow(/undo or keep/);
    expect(() => factorise(factor)).toThrow(/undo or keep/);
  });

  it('takes more changes than a list first has room for', () => {
    const n = 100;
    const edges = Array.from({ length: n }, (_, i): Edge => [i, -1, 1]);
    const factor = factored({
      nodeCount: n,
      edges,
      ground: new Array<number>(n).fill(0),
      rhs: new Array<number>(n).fill(1),
    });
    const set = new ChangeSet();
    for (let e = 0; e < n; e++) set.setWeight(e, 2);
    applyChanges(factor, set);
    expect(solveAndVerify(factor).every((value) => value === 0.5)).toBe(true);
    undoChanges(factor);
    expect(solveAndVerify(factor).every((value) => value === 1)).toBe(true);
  });
});

describe('amendChanges', () => {
  it('one list after another equals factoring anew, bit for bit, and one undo restores all', () => {
    fc.assert(
      fc.property(systems(30), fc.array(groundedChangeLists, { minLength: 1, maxLength: 5 }), (drawn, lists) => {
        const system = solvable(drawn);
        const factor = factored(system);
        const before = solveAndVerify(factor);
        lists.forEach((changes, i) => {
          expect(amendChanges(factor, toChangeSet(changes, system))).toEqual({ ok: true, undetermined: [] });
          expect(solveAndVerify(factor)).toEqual(
            solveAndVerify(factored(changed(system, lists.slice(0, i + 1).flat()))),
          );
        });
        undoChanges(factor);
        expect(solveAndVerify(factor)).toEqual(before);
      }),
    );
  });

  it('goes on from applied changes, and what is kept is the last of them', () => {
    fc.assert(
      fc.property(systems(20), groundedChangeLists, groundedChangeLists, (drawn, first, second) => {
        const system = solvable(drawn);
        const factor = factored(system);
        applyChanges(factor, toChangeSet(first, system));
        amendChanges(factor, toChangeSet(second, system));
        keepChanges(factor);
        undoChanges(factor);
        expect(solveAndVerify(factor)).toEqual(solveAndVerify(factored(changed(system, [...first, ...second]))));
      }),
    );
  });

  it('refuses a bad value and leaves what was applied', () => {
    const system: WeightedSystem = { nodeCount: 2, edges: [[0, 1, 1]], ground: [1, 0], rhs: [0, 1] };
    const factor = factored(system);
    amendChanges(factor, toChangeSet([{ kind: 'rhs', where: 1, value: 3 }], system));
    const bad = new ChangeSet();
    bad.setWeight(0, Number.NaN);
    expect(amendChanges(factor, bad)).toMatchObject({ ok: false, kind: 'badValue', of: 'weight' });
    expect([...solveAndVerify(factor)]).toEqual([3, 6]);
  });
});

describe('changeBase', () => {
  it('equals factoring anew, bit for bit, list after list, and can be changed and undone from there', () => {
    fc.assert(
      fc.property(systems(30), fc.array(changeLists, { minLength: 1, maxLength: 4 }), (drawn, lists) => {
        const factor = factored(drawn);
        for (const changes of lists) changeBase(factor, toChangeSet(changes, drawn));
        const anew = factored(changed(drawn, lists.flat()));
        expect(solution(factor)).toEqual(solution(anew));
        expect([...factor.undetermined].sort()).toEqual([...anew.undetermined].sort());
        applyChanges(factor, toChangeSet(lists[0], drawn), 'undetermined');
        undoChanges(factor);
        expect(solution(factor)).toEqual(solution(anew));
      }),
    );
  });
});

function solution(factor: Factor): Float64Array {
  const x = new Float64Array(factor.rhs.length);
  solve(factor, x);
  return x;
}

describe('solveVisits', () => {
  it('gives the visited nodes as a full solve does, and leaves the others', () => {
    fc.assert(
      fc.property(systems(30), fc.array(fc.nat(1000), { minLength: 1, maxLength: 4 }), (drawn, picks) => {
        const system = solvable(drawn);
        const factor = factored(system);
        const points = createPointSet(
          factor.analysis,
          Int32Array.from(picks, (pick) => pick % system.nodeCount),
        );
        const x = new Float64Array(system.nodeCount).fill(Number.NaN);
        solveVisits(factor, points.visits, x);
        const whole = solveAndVerify(factor);
        const visited = new Set(Array.from(points.visits, (k) => factor.analysis.columns.order[k]));
        x.forEach((value, node) => {
          expect(value).toBe(visited.has(node) ? whole[node] : Number.NaN);
        });
      }),
    );
  });
});

describe('keepChanges', () => {
  it('after many kept changes the factor is bit for bit that of the last system', () => {
    fc.assert(
      fc.property(systems(20), fc.array(changeLists, { minLength: 1, maxLength: 5 }), (drawn, steps) => {
        const factor = factored(drawn);
        let system = drawn;
        for (const changes of steps) {
          const outcome = applyChanges(factor, toChangeSet(changes, system), 'undetermined');
          expect(outcome.ok).toBe(true);
          keepChanges(factor);
          system = changed(system, changes);
        }
        const anew = factored(system);
        expect(factor.values.subarray(0, anew.values.length)).toEqual(anew.values);
        expect(factor.frontAt).toEqual(anew.frontAt);
        expect(factor.columnAt).toEqual(anew.columnAt);
        expect([...factor.undetermined].sort()).toEqual([...anew.undetermined].sort());
        expect(factor.weights).toEqual(anew.weights);
      }),
    );
  });
});

describe('solvePoints', () => {
  it('equals the full solution at the points, bit for bit, with and without changes', () => {
    fc.assert(
      fc.property(
        systems(30),
        fc.array(fc.nat(29), { maxLength: 8 }),
        groundedChangeLists,
        (drawn, wanted, changes) => {
          const system = solvable(drawn);
          const factor = factored(system);
          const nodes = Int32Array.from(wanted, (node) => node % system.nodeCount);
          const points = createPointSet(factor.analysis, nodes);
          const x = new Float64Array(nodes.length);
          const full = () => solveAndVerify(factor);
          solvePoints(factor, points, x);
          expect(x).toEqual(Float64Array.from(nodes, (node) => full()[node]));
          applyChanges(factor, toChangeSet(changes, system), 'undetermined');
          solvePoints(factor, points, x);
          const y = full();
          expect(x).toEqual(Float64Array.from(nodes, (node) => y[node]));
        },
      ),
      { numRuns: 60 },
    );
  });

  it('visits only what the points depend on', () => {
    const { pattern } = harnessLikeNetwork(1000, 2);
    const factor = factored({
      nodeCount: pattern.nodeCount,
      edges: Array.from(pattern.from, (a, e): Edge => [a, pattern.to[e], 1]),
      ground: new Array<number>(pattern.nodeCount).fill(0),
      rhs: new Array<number>(pattern.nodeCount).fill(0),
    });
    const points = createPointSet(factor.analysis, Int32Array.of(17, 1234));
    expect(points.visits.length).toBeLessThan(60);
  });

  it('refuses an index that is no node', () => {
    const factor = factored({ nodeCount: 1, edges: [], ground: [1], rhs: [1] });
    expect(() => createPointSet(factor.analysis, Int32Array.of(1))).toThrow(RangeError);
  });
});

describe('a batch', () => {
  it('equals the same changes one by one, bit for bit, for all nodes and for points', () => {
    fc.assert(
      fc.property(
        systems(25),
        fc.array(groundedChangeLists, { minLength: 1, maxLength: BATCH_LANES }),
        fc.array(fc.nat(24), { minLength: 1, maxLength: 5 }),
        (drawn, lists, wanted) => {
          const system = solvable(drawn);
          const factor = factored(system);
          const nodes = Int32Array.from(wanted, (node) => node % system.nodeCount);
          const all = createBatch(factor);
          const some = createBatch(factor, createPointSet(factor.analysis, nodes));
          for (const changes of lists) {
            for (const batch of [all, some]) addToBatch(batch, toChangeSet(changes, system), 'undetermined');
          }
          solveBatch(all);
          solveBatch(some);
          lists.forEach((changes, lane) => {
            applyChanges(factor, toChangeSet(changes, system), 'undetermined');
            const x = solveAndVerify(factor);
            undoChanges(factor);
            expect(Float64Array.from(x, (_, node) => batchValue(all, lane, node))).toEqual(x);
            nodes.forEach((node, item) => {
              expect(batchValue(some, lane, item)).toBe(x[node]);
            });
          });
        },
      ),
      { numRuns: 60 },
    );
  });

  it('can be used again, follows a kept change, and a refused set takes no lane', () => {
    const system: WeightedSystem = {
      nodeCount: 2,
      edges: [
        [0, 1, 1],
        [1, -1, 1],
      ],
      ground: [0, 0],
      rhs: [1, 0],
    };
    const factor = factored(system);
    const batch = createBatch(factor);
    const set = new ChangeSet();
    set.setWeight(0, 0);
    expect(addToBatch(batch, set).ok).toBe(false);
    expect(batch.lanes).toBe(0);
    set.clear();
    set.setWeight(0, 0.5);
    expect(addToBatch(batch, set).ok).toBe(true);
    solveBatch(batch);
    expect([batchValue(batch, 0, 0), batchValue(batch, 0, 1)]).toEqual([3, 1]);
    // A lane without changes holds the base.
    expect([batchValue(batch, 1, 0), batchValue(batch, 1, 1)]).toEqual([2, 1]);

    set.clear();
    set.setRhs(0, 4);
    applyChanges(factor, set);
    keepChanges(factor);
    expect(() => solveBatch(batch)).toThrow(/base changed/);
    resetBatch(batch);
    solveBatch(batch);
    expect([batchValue(batch, 0, 0), batchValue(batch, 0, 1)]).toEqual([8, 4]);
  });

  it('has eight lanes', () => {
    const factor = factored({ nodeCount: 1, edges: [], ground: [1], rhs: [1] });
    const batch = createBatch(factor);
    const set = new ChangeSet();
    for (let lane = 0; lane < 8; lane++) {
      set.clear();
      set.setRhs(0, lane);
      addToBatch(batch, set);
    }
    expect(() => addToBatch(batch, set)).toThrow(/all lanes/);
    solveBatch(batch);
    for (let lane = 0; lane < 8; lane++) expect(batchValue(batch, lane, 0)).toBe(lane);
  });
});
