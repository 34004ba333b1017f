// Laws that hold for the graph of any record: shown on generated harnesses.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { buildHarnessGraph } from '../../../src/core/graph/build-harness-graph.js';
import type { Element, Law } from '../../../src/core/graph/element.js';
import type { HarnessGraph } from '../../../src/core/graph/harness-graph.js';
import { typicalOhms } from '../../../src/core/graph/law-ohms.js';
import type { HarnessRecord } from '../../../src/core/record/record.js';
import { generateHarness } from '../../support/generate-harness.js';

const generated = fc
  .record({ seed: fc.nat({ max: 1000 }), wires: fc.integer({ min: 40, max: 260 }), volts: fc.constantFrom(12, 24) })
  .map(({ seed, wires, volts }) => generateHarness({ seed, wires, systemVolts: volts as 12 | 24 }));

const RUNS = { numRuns: 10 };

function numbersOf(law: Law): readonly number[] {
  return Object.values(law).filter((value) => typeof value === 'number');
}

describe('any harness', () => {
  test('every element ends on points, and the graph library holds the same', () => {
    fc.assert(
      fc.property(generated, (record) => {
        const graph = buildHarnessGraph(record);
        expect(graph.graph.order).toBe(graph.points.size);
        expect(graph.graph.size).toBe(graph.elements.size);
        const astray = [...graph.elements.values()].filter(
          ({ id, a, b }) =>
            !graph.points.has(a) ||
            !graph.points.has(b) ||
            a === b ||
            graph.graph.extremities(id).join() !== `${a},${b}`,
        );
        expect(astray).toEqual([]);
        expect(graph.points.has(graph.reference)).toBe(true);
      }),
      RUNS,
    );
  });

  test('every figure of a law is finite and none is below 0; every resistance is above 0', () => {
    fc.assert(
      fc.property(generated, (record) => {
        const wrong = [...buildHarnessGraph(record).elements.values()].filter(({ law }) => {
          const ohms = typicalOhms(law);
          return !(
            ohms > 0 &&
            Number.isFinite(ohms) &&
            numbersOf(law).every((value) => Number.isFinite(value) && value >= 0)
          );
        });
        expect(wrong).toEqual([]);
      }),
      RUNS,
    );
  });

  test('gates name parts, coils, outputs and positions that are there', () => {
    fc.assert(
      fc.property(generated, (record) => {
        const graph = buildHarnessGraph(record);
        for (const element of graph.elements.values()) for (const gate of element.gates) expectGate(graph, gate);
      }),
      RUNS,
    );
  });

  test('functions sit on load elements between their own feed and return', () => {
    fc.assert(
      fc.property(generated, (record) => {
        const graph = buildHarnessGraph(record);
        for (const fn of graph.functions.values()) {
          expect(graph.elements.get(fn.element)).toMatchObject({
            role: 'load',
            a: fn.feed,
            b: fn.return,
            owner: fn.part,
          });
        }
      }),
      RUNS,
    );
  });

  test('the order of the sheets changes nothing', () => {
    fc.assert(
      fc.property(generated, (record) => {
        const turned = { ...record, parts: record.parts.toReversed(), wires: record.wires.toReversed() };
        const one = buildHarnessGraph(record);
        const other = buildHarnessGraph(turned);
        expect([...other.elements]).toEqual([...one.elements]);
        expect([...other.points]).toEqual([...one.points]);
      }),
      RUNS,
    );
  });

  test('renaming every part renames ids and nothing else', () => {
    fc.assert(
      fc.property(generated, (record) => {
        const names = new Map(record.parts.map((part) => [part.address, `Q${part.address}`]));
        const before = buildHarnessGraph(record);
        const after = buildHarnessGraph(renameParts(record, names));
        const expected = [...before.elements.values()].map((element) => shapeOf(element, names));
        const found = [...after.elements.values()].map((element) => shapeOf(element, new Map()));
        expect(found.toSorted()).toEqual(expected.toSorted());
      }),
      RUNS,
    );
  });

  // A realistic harness has about 3.2 places to probe per wire; the bare ends inside the crimps are two more per wire.
  test('has about 3.2 points to probe per wire', () => {
    const wires = 1000;
    const graph = buildHarnessGraph(generateHarness({ seed: 7, wires }));
    const outer = [...graph.points.values()].filter((point) => point.role !== 'inner').length;
    expect(outer / wires).toBeGreaterThan(2.8);
    expect(outer / wires).toBeLessThan(3.6);
    expect((graph.points.size - outer) / wires).toBeGreaterThanOrEqual(2);
  });
});

function expectGate(graph: HarnessGraph, gate: Element['gates'][number]): void {
  switch (gate.kind) {
    case 'position':
      expect(graph.positioned.get(gate.part)?.positions).toEqual(expect.arrayContaining([...gate.closedIn]));
      return;
    case 'coil':
      expect(graph.elements.get(gate.coil)?.coil).toBeTruthy();
      return;
    case 'output':
      expect(graph.modules.get(gate.module)?.outputs.map((output) => output.terminal)).toContain(gate.terminal);
      return;
    case 'awake':
      expect(graph.modules.has(gate.module)).toBe(true);
      return;
    case 'voltage':
      expect(graph.points.has(gate.positive) && graph.points.has(gate.negative)).toBe(true);
      return;
    case 'intact':
      return;
    default:
      expect(graph.resolveAs('part', gate.part)).toBe(gate.part);
  }
}

/** Everything of an element that must not change but for names, as text. */
function shapeOf(element: Element, names: ReadonlyMap<string, string>): string {
  const { law, role, spread, exposure, marks, defaults, coil, protection } = element;
  const named = [element.id, element.a, element.b].map((id) => renameAddress(id, names));
  return JSON.stringify([named, role, renameLaw(law, names), spread, exposure, marks, defaults, coil, protection]);
}

function renameLaw(law: Law, names: ReadonlyMap<string, string>): Law {
  if (law.kind === 'converter-input') return { ...law, output: renameAddress(law.output, names) };
  return law.kind === 'regulated' && law.sense !== null ? { ...law, sense: renameAddress(law.sense, names) } : law;
}

/** The part's name begins an address, or follows the `@` of a termination. */
function renameAddress(address: string, names: ReadonlyMap<string, string>): string {
  return address.replace(
    /(^|@)([A-Za-z][A-Za-z0-9_-]*)/g,
    (_, at: string, name: string) => at + (names.get(name) ?? name),
  );
}

/** Rewrites every text of the record that is a part's address or begins with one. */
function renameParts(record: HarnessRecord, names: ReadonlyMap<string, string>): HarnessRecord {
  const rename = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(rename);
    if (typeof value === 'object' && value !== null) {
      return Object.fromEntries(
        Object.entries(value).map(([key, inner]) => [key, RENAMED.has(key) ? rename(inner) : inner]),
      );
    }
    return typeof value === 'string' ? renameAddress(value, names) : value;
  };
  return rename({ ...record, states: [] }) as HarnessRecord;
}

const RENAMED: ReadonlySet<string> = new Set([
  ...['parts', 'wires', 'address', 'from', 'to', 'on', 'caseOn', 'between', 'reference', 'sense'],
  ...['doubleCrimps', 'point'],
]);
