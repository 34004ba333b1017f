// The circuit against worked examples that others have published.

import { describe, expect, it } from 'vitest';
import { type Circuit, compileCircuit } from '../../src/core/circuit/compile.js';
import { resolveState } from '../../src/core/circuit/resolve-state.js';
import type { Solution } from '../../src/core/circuit/solution.js';
import { bareGraph, battery, type ElementDraft, resistor } from '../support/bare-graph.js';
import { solveAndVerify } from '../support/solve-and-verify.js';
import { type WorkedCircuit, workedCircuits } from './worked-circuits.js';

describe.each(workedCircuits.map((it) => [it.id, it.title, it] as const))('%s %s', (_id, _title, worked) => {
  const { circuit, solution } = solveNet(worked);

  it.each(worked.answers)(`%s is %f (${worked.source})`, (question, published, tolerance) => {
    const found = answer(question, circuit, solution);
    expect(Math.abs(found - published)).toBeLessThanOrEqual(tolerance + 1e-9 * Math.abs(published));
  });
});

it('covers all of c01 to c20', () => {
  expect(new Set(workedCircuits.map(({ id }) => id.slice(0, 3))).size).toBe(20);
});

/** Ideal sources are batteries whose terminals were measured to show the published volts. */
function solveNet({ net }: WorkedCircuit): { circuit: Circuit; solution: Solution } {
  const measured: Record<string, number> = {};
  const drafts = net.split('; ').map((line): ElementDraft => {
    const [id = '', a = '', b = '', text = ''] = line.split(' ');
    const value = Number(text);
    if (id.startsWith('R') || id.startsWith('W')) return resistor(id, a, b, value);
    if (id.startsWith('I')) {
      // More volts than it can reach: it stays at its limit and is the current source.
      return { id, a, b, law: { kind: 'regulated', volts: 1000, ohms: 0.01, limitAmps: value, sense: null } };
    }
    measured[id] = Math.abs(value);
    return value < 0 ? battery(`${id}:emf`, b, a, -value, 1e-3) : battery(`${id}:emf`, a, b, value, 1e-3);
  });
  const parts = Object.keys(measured).map((address) => ({ kind: 'battery' as const, address }));
  const circuit = compileCircuit(bareGraph(drafts, '0', { record: { parts } }));
  const resolution = resolveState(circuit.graph, { name: 'worked', measured });
  if (!resolution.ok) throw new Error(JSON.stringify(resolution.issues));
  return { circuit, solution: solveAndVerify(circuit, resolution.state) };
}

function answer(question: string, circuit: Circuit, solution: Solution): number {
  const [, kind, names = ''] = /^([VIQ])\((.*)\)$/.exec(question) ?? [];
  const [first = '', second = '0'] = names.split(',');
  if (kind === 'V') return solution.voltsBetween(first, second) ?? Number.NaN;
  const source = circuit.graph.elements.get(`${first}:emf`);
  const amps = source === undefined ? solution.amps(first) : -solution.amps(source.id);
  if (kind === 'I') return amps;
  return (solution.voltsBetween(source?.a ?? '', source?.b ?? '') ?? Number.NaN) / amps;
}
