// Laws that every circuit obeys, tried on random networks and generated harnesses.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Circuit, compileCircuit } from '../../src/core/circuit/compile.js';
import { resolveState, restState } from '../../src/core/circuit/resolve-state.js';
import { settle } from '../../src/core/circuit/settle.js';
import { type Solution, solutionsOf } from '../../src/core/circuit/solution.js';
import { buildHarnessGraph } from '../../src/core/graph/build-harness-graph.js';
import type { HarnessGraph } from '../../src/core/graph/harness-graph.js';
import {
  anyNetwork,
  linearNetwork,
  type NetworkShape,
  networkReference,
  risingNetwork,
} from '../support/arbitrary-network.js';
import { bareGraph, battery, type ElementDraft, onOff, resistor, switched } from '../support/bare-graph.js';
import { generateHarness } from '../support/generate-harness.js';
import { settleAndVerify } from '../support/solve-and-verify.js';

const circuitOf = (elements: readonly ElementDraft[], points = 0): Circuit =>
  compileCircuit(
    bareGraph(elements, networkReference, {
      positioned: [onOff('S1')],
      morePoints: Array.from({ length: points }, (_, i) => `P${i}`),
    }),
  );

/** The first solution; networks whose batteries fight have none and say so. */
function solutionOf(circuit: Circuit): Solution | null {
  const outcome = settleAndVerify(circuit);
  expect(['settled', 'impossible']).toContain(outcome.kind);
  return solutionsOf(outcome)[0] ?? null;
}

/** Volts of a point in two solutions must agree to rounding, or both float. */
function expectSame(one: number | null, other: number | null): void {
  if (one === null || other === null) expect(one).toBe(other);
  else expect(Math.abs(one - other)).toBeLessThanOrEqual(1e-7 * (1 + Math.abs(one)));
}

function expectSamePoints(shape: NetworkShape, one: Solution | null, other: Solution | null): void {
  expect(one === null).toBe(other === null);
  for (let i = 0; i < shape.points && one !== null && other !== null; i++) {
    expectSame(one.volts(`P${i}`), other.volts(`P${i}`));
  }
}

describe('random networks', () => {
  it('always settle or are named, and obey Kirchhoff, Ohm and the balance of power', () => {
    fc.assert(
      fc.property(anyNetwork, ({ elements, points }) => {
        solutionOf(circuitOf(elements, points));
      }),
      { numRuns: 400 },
    );
  });

  it('scale: k times the sources give k times the volts of a linear network', () => {
    fc.assert(
      fc.property(linearNetwork, fc.double({ min: 0.2, max: 5, noNaN: true }), (shape, factor) => {
        const scaled = shape.elements.map((element) =>
          element.law.kind === 'battery'
            ? { ...element, law: { ...element.law, volts: element.law.volts * factor } }
            : element,
        );
        const one = solutionOf(circuitOf(shape.elements, shape.points));
        const other = solutionOf(circuitOf(scaled, shape.points));
        for (let i = 0; i < shape.points && one !== null && other !== null; i++) {
          const volts = one.volts(`P${i}`);
          expectSame(volts === null ? null : volts * factor, other.volts(`P${i}`));
        }
      }),
      { numRuns: 150 },
    );
  });

  it('are reciprocal: a source here gives there the current that it would give here from there', () => {
    fc.assert(
      fc.property(linearNetwork, ({ elements, points }) => {
        const resistors = elements.filter(({ law }) => law.kind === 'ohmic');
        const probe = (first: number, second: number): Solution | null =>
          solutionOf(
            circuitOf(
              [...resistors, battery('B1', 'P0', 'P1', first, 0.1), battery('B2', 'P1', 'P2', second, 0.1)],
              points,
            ),
          );
        const there = probe(1, 0);
        const here = probe(0, 1);
        if (there === null || here === null) return;
        const amps = there.amps('B2');
        expect(Math.abs(amps - here.amps('B1'))).toBeLessThanOrEqual(1e-9);
      }),
      { numRuns: 150 },
    );
  });

  it('do not care for names', () => {
    fc.assert(
      fc.property(risingNetwork, (shape) => {
        const rename = (point: string): string =>
          point === networkReference ? point : `Z${9 - Number(point.slice(1))}`;
        const renamed = shape.elements.map((it) => ({ ...it, id: `N${it.id}`, a: rename(it.a), b: rename(it.b) }));
        const one = solutionOf(circuitOf(shape.elements, shape.points));
        const other = solutionOf(circuitOf(renamed));
        for (const { id, a } of one === null || other === null ? [] : shape.elements) {
          expectSame(one!.volts(a), other!.volts(rename(a)));
          expect(Math.abs(one!.amps(id) - other!.amps(`N${id}`))).toBeLessThanOrEqual(1e-6);
        }
      }),
      { numRuns: 150 },
    );
  });

  it('do not care for the order of their elements', () => {
    fc.assert(
      fc.property(risingNetwork, (shape) => {
        const one = solutionOf(circuitOf(shape.elements, shape.points));
        expectSamePoints(shape, one, solutionOf(circuitOf([...shape.elements].reverse(), shape.points)));
      }),
      { numRuns: 150 },
    );
  });

  it('do not notice an open switch', () => {
    fc.assert(
      fc.property(risingNetwork, fc.integer({ min: 1, max: 2 }), (shape, to) => {
        const one = solutionOf(circuitOf(shape.elements, shape.points));
        const other = solutionOf(
          circuitOf([...shape.elements, switched('S1:1-2', 'P0', `P${to}`, 'S1')], shape.points),
        );
        expectSamePoints(shape, one, other);
      }),
      { numRuns: 150 },
    );
  });

  it('opening an element is the same as leaving it out', () => {
    fc.assert(
      fc.property(risingNetwork, fc.nat(), (shape, pick) => {
        const gone = shape.elements[pick % shape.elements.length]!.id;
        const circuit = circuitOf(shape.elements, shape.points);
        const opened = settle(circuit, restState(circuit.graph), { changes: [{ kind: 'open', element: gone }] });
        const without = circuitOf(
          shape.elements.filter(({ id }) => id !== gone),
          shape.points,
        );
        expectSamePoints(shape, solutionsOf(opened)[0] ?? null, solutionOf(without));
      }),
      { numRuns: 150 },
    );
  });

  it('end where they would from any warm start', () => {
    fc.assert(
      fc.property(risingNetwork, fc.nat(), (shape, pick) => {
        const circuit = circuitOf(shape.elements, shape.points);
        const cold = solutionOf(circuit);
        const element = shape.elements[pick % shape.elements.length]!.id;
        const from = solutionsOf(
          settle(circuit, restState(circuit.graph), { changes: [{ kind: 'open', element }] }),
        )[0];
        if (from === undefined) return;
        expectSamePoints(shape, cold, solutionsOf(settle(circuit, restState(circuit.graph), { from }))[0] ?? null);
      }),
      { numRuns: 150 },
    );
  });

  it('a resistor in parallel never lowers what a source gives', () => {
    fc.assert(
      fc.property(linearNetwork, ({ elements, points }) => {
        const net = elements.filter(({ law }) => law.kind === 'ohmic').concat(battery('B1', 'P0', 'P1', 12, 0.05));
        const one = solutionOf(circuitOf(net, points));
        const other = solutionOf(circuitOf([...net, resistor('RX', 'P1', 'P2', 3)], points));
        if (one === null || other === null) return;
        expect(-other.amps('B1')).toBeGreaterThanOrEqual(-one.amps('B1') - 1e-9);
      }),
      { numRuns: 150 },
    );
  });
});

describe('generated harnesses', () => {
  it.each([1, 2, 3, 4, 5, 6])('seed %i: every named state settles and obeys the laws', (seed) => {
    const record = generateHarness({ seed, wires: 90, systemVolts: seed % 2 === 0 ? 24 : 12 });
    const circuit = compileCircuit(buildHarnessGraph(record));
    for (const state of record.states ?? []) {
      const resolution = resolveState(circuit.graph, state);
      if (!resolution.ok) throw new Error(JSON.stringify(resolution.issues));
      expect(settleAndVerify(circuit, resolution.state).kind, state.name).toBe('settled');
    }
  });

  it('pulling a plug equals removing its contacts', () => {
    const record = generateHarness({ seed: 11, wires: 120 });
    const graph = buildHarnessGraph(record);
    const circuit = compileCircuit(graph);
    const connectors = record.parts.filter(({ kind }) => kind === 'connector').map(({ address }) => address);
    expect(connectors.length).toBeGreaterThan(2);
    for (const state of (record.states ?? []).slice(0, 4)) {
      for (const plug of connectors) {
        const pulled = resolveState(graph, { ...state, unplugged: [plug] });
        const plain = resolveState(graph, state);
        if (!pulled.ok || !plain.ok) throw new Error('the generated states are good');
        const one = solutionsOf(settle(circuit, pulled.state))[0];
        const other = solutionsOf(settle(compileCircuit(withoutContacts(graph, plug)), plain.state))[0];
        for (const point of graph.points.keys()) expectSame(one?.volts(point) ?? null, other?.volts(point) ?? null);
      }
    }
  });
});

/** The graph without the matings of one connector. */
function withoutContacts(graph: HarnessGraph, plug: string): HarnessGraph {
  const elements = new Map([...graph.elements].filter(([, { role, owner }]) => role !== 'mating' || owner !== plug));
  expect(elements.size).toBeLessThan(graph.elements.size);
  return { ...graph, elements };
}
