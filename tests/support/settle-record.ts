// Settles a record in its named states and says of each function whether it works, as a person beside it would.
// It must not hold expectations; the tests compare with what the record says in `runsIn`.

import { compileCircuit } from '../../src/core/circuit/compile.js';
import { resolveState } from '../../src/core/circuit/resolve-state.js';
import { settle } from '../../src/core/circuit/settle.js';
import type { Outcome, Solution } from '../../src/core/circuit/solution.js';
import { buildHarnessGraph } from '../../src/core/graph/build-harness-graph.js';
import type { HarnessGraph } from '../../src/core/graph/harness-graph.js';
import type { HarnessRecord } from '../../src/core/record/record.js';
import type { OperatingState } from '../../src/core/record/state.js';

export interface Bench {
  readonly graph: HarnessGraph;
  readonly states: readonly OperatingState[];
  outcome(state: OperatingState): Outcome;
  /** The solution of a named state. Throws when the state has none or does not settle. */
  solution(name: string): Solution;
}

export function benchOf(record: HarnessRecord): Bench {
  const graph = buildHarnessGraph(record);
  const circuit = compileCircuit(graph);
  const states = record.states ?? [];
  const outcome = (state: OperatingState): Outcome => {
    const resolved = resolveState(graph, state);
    if (!resolved.ok) throw new Error(`${state.name}: ${resolved.issues.map((issue) => issue.reason).join('; ')}`);
    return settle(circuit, resolved.state);
  };
  const solution = (name: string): Solution => {
    const state = states.find((one) => one.name === name);
    if (state === undefined) throw new Error(`no state ${name}`);
    const found = outcome(state);
    if (found.kind !== 'settled') throw new Error(`${name}: ${found.kind}`);
    return found.solution;
  };
  return { graph, states, outcome, solution };
}

/** `works`: at or above the weak limit with current. `dead`: below the dead limit or without current. Else `weak`. */
export function conditionIn(bench: Bench, solution: Solution, id: string): 'works' | 'weak' | 'dead' {
  const fn = bench.graph.functions.get(id);
  if (fn === undefined) throw new Error(`no function ${id}`);
  const volts = Math.abs(solution.voltsBetween(fn.feed, fn.return) ?? 0);
  const amps = Math.abs(solution.amps(fn.element));
  if (volts < fn.deadBelowVolts || amps < 1e-6) return 'dead';
  return volts >= fn.weakBelowVolts ? 'works' : 'weak';
}

/** Functions whose condition is not what their `runsIn` says of the state: `E7:stop is dead`. Starters have no `runsIn`. */
export function surprises(bench: Bench, solution: Solution, state: OperatingState): string[] {
  const expected = new Map<string, boolean>();
  for (const part of bench.graph.record.parts) {
    if (part.kind !== 'load') continue;
    for (const fn of part.functions) {
      const id = part.functions.length === 1 ? part.address : `${part.address}:${fn.name}`;
      expected.set(id, (fn.runsIn ?? []).includes(state.name));
    }
  }
  return [...expected].flatMap(([id, runs]) => {
    const condition = conditionIn(bench, solution, id);
    return condition === (runs ? 'works' : 'dead') ? [] : [`${id} is ${condition}`];
  });
}

/**
 * Points at which the currents of all elements do not add up to nought, with the amperes missing. The two ends of a link
 * that the state fits count as one point, since the link is no element of the record.
 */
export function leaks(bench: Bench, solution: Solution, state: OperatingState, toleranceAmps: number): string[] {
  const sums = new Map<string, number>();
  const add = (point: string, amps: number): void => {
    sums.set(point, (sums.get(point) ?? 0) + amps);
  };
  for (const { id, a, b } of bench.graph.elements.values()) {
    const amps = solution.amps(id);
    add(a, -amps);
    add(b, amps);
  }
  for (const { from, to } of state.links ?? []) {
    add(from, sums.get(to) ?? 0);
    sums.delete(to);
  }
  return [...sums].filter(([, sum]) => Math.abs(sum) > toleranceAmps).map(([point, sum]) => `${point} ${sum} A`);
}
