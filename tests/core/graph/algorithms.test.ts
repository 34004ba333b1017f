// Ways, islands, sections and cuts on random multigraphs against plain brute force.

import fc from 'fast-check';
import { connectedComponents } from 'graphology-components';
import { describe, expect, test } from 'vitest';
import { blockForest, bridgesBetween, sectionsBetween } from '../../../src/core/graph/blocks.js';
import { type ConductiveView, conductiveView, narrowView } from '../../../src/core/graph/conductive-view.js';
import { islands, reachableFrom } from '../../../src/core/graph/islands.js';
import { typicalOhms } from '../../../src/core/graph/law-ohms.js';
import { type CutEdge, minimumCut } from '../../../src/core/graph/minimum-cut.js';
import { naturalSort } from '../../../src/core/graph/natural-compare.js';
import { shortestPath, shortestPaths } from '../../../src/core/graph/paths.js';
import { elementOf, graphOf, tieGraph } from './support.js';

const POINTS = 7;

const edges = fc.array(
  fc.tuple(fc.nat({ max: POINTS - 1 }), fc.nat({ max: POINTS - 1 })).filter(([a, b]) => a !== b),
  { maxLength: 12 },
);

const viewOfEdges = edges.map((list) => conductiveView(tieGraph(POINTS, list), () => true));

function without(view: ConductiveView, ids: ReadonlySet<string>): ConductiveView {
  return narrowView(view, (element) => !ids.has(element.id));
}

function isJoined(view: ConductiveView, from: readonly string[], to: string): boolean {
  return reachableFrom(view, from).has(to);
}

/** Every path that visits no point twice, as element ids in order, by plain recursion. */
function allPaths(view: ConductiveView, from: string, to: string, visited: readonly string[] = [from]): string[][] {
  if (from === to) return [[]];
  return view.elements.flatMap((element) => {
    if (element.a !== from && element.b !== from) return [];
    const next = element.a === from ? element.b : element.a;
    if (visited.includes(next)) return [];
    return allPaths(view, next, to, [...visited, next]).map((rest) => [element.id, ...rest]);
  });
}

function pathOhms(view: ConductiveView, path: readonly string[]): number {
  return path.reduce((sum, id) => sum + typicalOhms(elementOf(view.graph, id).law), 0);
}

describe('on random multigraphs', () => {
  test('islands are those of graphology', () => {
    fc.assert(
      fc.property(viewOfEdges, (view) => {
        const found = islands(view);
        const ours = Array.from({ length: found.count }, (_, i) => found.members(i).join());
        const theirs = connectedComponents(view.graph.graph).map((members) => naturalSort(members).join());
        expect(ours.toSorted()).toEqual(theirs.toSorted());
        for (const point of view.points) expect(found.members(found.of(point))).toContain(point);
      }),
    );
  });

  test('an element is a bridge exactly if removing it parts the point from every source', () => {
    fc.assert(
      fc.property(viewOfEdges, fc.subarray([0, 1, 2], { minLength: 1 }), (view, rootNumbers) => {
        const roots = rootNumbers.map((n) => `SP${n}`);
        const forest = blockForest(view, roots);
        for (const to of view.points) {
          expect(forest.reaches(to)).toBe(isJoined(view, roots, to));
          if (!isJoined(view, roots, to)) {
            expect(forest.sectionsTo(to)).toBeNull();
            continue;
          }
          const byRemoval = view.elements
            .map((element) => element.id)
            .filter((id) => !isJoined(without(view, new Set([id])), roots, to));
          expect(naturalSort(bridgesBetween(view, roots, to))).toEqual(naturalSort(byRemoval));
        }
      }),
      { numRuns: 150 },
    );
  });

  test('the sections between two points hold exactly the elements that lie on some path, in the order of any path', () => {
    fc.assert(
      fc.property(viewOfEdges, (view) => {
        const sections = sectionsBetween(view, 'SP0', 'SP1');
        const paths = allPaths(view, 'SP0', 'SP1');
        if (sections === null) {
          expect(paths).toEqual([]);
          return;
        }
        const members = sections.map((s) => (s.kind === 'series' ? [s.element] : [...s.elements]));
        expect(naturalSort(members.flat())).toEqual(naturalSort(new Set(paths.flat())));
        for (const path of paths) {
          const order = path.map((id) => members.findIndex((section) => section.includes(id)));
          expect(order).toEqual(order.toSorted((a, b) => a - b));
        }
        for (const section of sections)
          if (section.kind === 'parallel') expect(section.elements.length).toBeGreaterThan(1);
      }),
    );
  });

  test('sections join end to end from the first point to the last', () => {
    fc.assert(
      fc.property(viewOfEdges, (view) => {
        const sections = sectionsBetween(view, 'SP0', 'SP1') ?? [];
        const ends = sections.flatMap(({ from, to }) => [from, to]);
        if (sections.length === 0) return;
        expect(ends[0]).toBe('SP0');
        expect(ends.at(-1)).toBe('SP1');
        for (let i = 1; i + 1 < ends.length; i += 2) expect(ends[i]).toBe(ends[i + 1]);
      }),
    );
  });

  test('the shortest path is the least of all paths; the first five are the five least; the rest is counted', () => {
    fc.assert(
      fc.property(viewOfEdges, (view) => {
        const paths = allPaths(view, 'SP0', 'SP1');
        const ohms = paths.map((path) => pathOhms(view, path)).toSorted((a, b) => a - b);
        const shortest = shortestPath(view, 'SP0', 'SP1');
        expect(shortest?.ohms ?? null).toBe(ohms[0] ?? null);
        const list = shortestPaths(view, 'SP0', 'SP1');
        expect(list.paths.map((path) => path.ohms)).toEqual(ohms.slice(0, 5));
        expect(new Set(list.paths.map((path) => path.elements.join())).size).toBe(list.paths.length);
        expect(list.paths.length + list.more).toBe(paths.length);
        for (const path of [...list.paths, ...(shortest === null ? [] : [shortest])]) {
          expect(paths.map((ids) => ids.join())).toContain(path.elements.join());
          expect(path.points.length).toBe(path.elements.length + 1);
        }
      }),
      { numRuns: 150 },
    );
  });

  test('the minimum cut costs what the cheapest of all cuts costs, and it parts', () => {
    const weighted = fc.array(
      fc.record({
        a: fc.nat({ max: 8 }).map(String),
        b: fc.nat({ max: 8 }).map(String),
        capacity: fc.oneof(
          { weight: 9, arbitrary: fc.nat({ max: 4 }) },
          { weight: 1, arbitrary: fc.constant(Number.POSITIVE_INFINITY) },
        ),
      }),
      { minLength: 6, maxLength: 24 },
    );
    fc.assert(
      fc.property(weighted, (list) => {
        const graph: CutEdge[] = list.map((edge, i) => ({ ...edge, id: `W${i}` }));
        const [sources, sinks] = [
          ['0', '1'],
          ['7', '8'],
        ];
        const cut = minimumCut(graph, sources, sinks);
        const cheapest = cheapestCut(graph, sources);
        expect(cut?.capacity ?? Number.POSITIVE_INFINITY).toBe(cheapest);
        if (cut === null) return;
        const cutIds = new Set(cut.edges);
        expect(graph.filter(({ id }) => cutIds.has(id)).reduce((sum, edge) => sum + edge.capacity, 0)).toBe(cheapest);
        for (const { id, a, b } of graph) {
          expect(cutIds.has(id)).toBe(cut.sourceSide.has(a) !== cut.sourceSide.has(b));
        }
      }),
      { numRuns: 800 },
    );
  });
});

/** Tries every way to put the other nodes on one side or the other. */
function cheapestCut(graph: readonly CutEdge[], sources: readonly string[]): number {
  const free = ['2', '3', '4', '5', '6'];
  let best = Number.POSITIVE_INFINITY;
  for (let mask = 0; mask < 2 ** free.length; mask++) {
    const side = new Set([...sources, ...free.filter((_, i) => (mask >> i) % 2 === 1)]);
    const cost = graph.reduce((sum, { a, b, capacity }) => (side.has(a) === side.has(b) ? sum : sum + capacity), 0);
    best = Math.min(best, cost);
  }
  return best;
}

describe('edge cases of a cut', () => {
  test('a node on both sides cannot be parted from itself', () => {
    expect(minimumCut([], ['X1'], ['X1'])).toBeNull();
  });

  test('what is apart already costs nothing', () => {
    expect(minimumCut([], ['X1'], ['X2'])).toMatchObject({ capacity: 0, edges: [] });
  });

  test('a short way taken first is given back, and the bridge it used is taken the other way', () => {
    // Worked by hand: 1 by S-U-V-T first, then 2 by the long ways through V-U. The cut is what leaves S: 1 + 2.
    const long = (from: string, to: string) => [from, `${from}1`, `${from}2`, `${from}3`, to];
    const chain = (nodes: readonly string[]) =>
      nodes.slice(1).map((b, i) => ({ id: `${nodes[i]}-${b}`, a: nodes[i] ?? '', b, capacity: 2 }));
    const edges = [
      { id: 'S-U', a: 'S', b: 'U', capacity: 1 },
      { id: 'U-V', a: 'U', b: 'V', capacity: 1 },
      { id: 'V-T', a: 'V', b: 'T', capacity: 1 },
      ...chain(long('S', 'V')),
      ...chain(long('U', 'T')),
    ];
    expect(minimumCut(edges, ['S'], ['T'])).toMatchObject({ capacity: 3, edges: ['S-U', 'S-S1'] });
  });

  test('capacities are whole numbers', () => {
    expect(() => minimumCut([{ id: 'L1', a: 'X1', b: 'X2', capacity: 0.5 }], ['X1'], ['X2'])).toThrow(RangeError);
  });
});

test('a loop that leaves a junction and returns to it lies on no way through it', () => {
  const view = conductiveView(
    tieGraph(4, [
      [0, 1],
      [1, 2],
      [2, 3],
      [3, 1],
    ]),
    () => true,
  );
  expect(sectionsBetween(view, 'SP0', 'SP1')).toEqual([{ kind: 'series', element: 'T0:tie', from: 'SP0', to: 'SP1' }]);
});

test('a chain of 19,000 ties is walked without running out of stack', () => {
  const chain = Array.from({ length: 19_000 }, (_, i) => [i, i + 1] as const);
  const view = conductiveView(tieGraph(19_001, chain), () => true);
  expect(bridgesBetween(view, ['SP0'], 'SP19000')).toHaveLength(19_000);
});

test('addresses that name properties of plain objects are ordinary points', () => {
  const graph = graphOf([
    { address: 'constructor', kind: 'splice' },
    { address: 'toString', kind: 'splice' },
    { address: 'T1', kind: 'tie', between: ['constructor', 'toString'] },
    { address: 'T2', kind: 'tie', between: ['constructor', 'toString'] },
  ]);
  const view = conductiveView(graph, () => true);
  expect(shortestPath(view, 'constructor', 'toString')?.elements).toEqual(['T1:tie']);
});
