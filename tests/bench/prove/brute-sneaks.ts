// Sneak conduction by brute force: every switch state, every single ground end and plug lost, own walk over the record's elements.
// It must use neither the search's parts, order of states, nor its test; of the core only the settled circuit.

import type { Model } from '../../../src/core/answers/model.js';
import { resolveState } from '../../../src/core/circuit/resolve-state.js';
import { settle } from '../../../src/core/circuit/settle.js';
import { type Change, type Solution, solutionsOf } from '../../../src/core/circuit/solution.js';
import type { Element } from '../../../src/core/graph/element.js';
import type { OperatingState } from '../../../src/core/record/state.js';

export interface Loss {
  /** Element opened or plug pulled; null: nothing is lost. */
  readonly name: string | null;
  readonly changes: readonly Change[];
  readonly unplugged: readonly string[];
}

/** Joints to a body, ends of wires on ground studs and blocks, plugs. */
export function losses(model: Model): Loss[] {
  const { record } = model.graph;
  const grounds = new Set(
    record.parts.filter(({ kind }) => kind === 'ground' || kind === 'ground-block').map(({ address }) => address),
  );
  const ends = record.wires.flatMap(({ label, from, to }) =>
    [from, to].filter((point) => grounds.has(point.split('/')[0])).map((point) => `${label}@${point}`),
  );
  const joints = [...model.graph.elements.values()].filter(({ role }) => role === 'joint').map(({ id }) => id);
  return [
    { name: null, changes: [], unplugged: [] },
    ...[...ends, ...joints].map((name): Loss => ({ name, changes: [{ kind: 'open', element: name }], unplugged: [] })),
    ...record.parts
      .filter(({ kind }) => kind === 'connector')
      .map(({ address }): Loss => ({ name: address, changes: [], unplugged: [address] })),
  ];
}

/** All states of the record's switches, outputs without a condition, and the engine. */
export function* allStates(model: Model): Generator<OperatingState> {
  const axes = axesOf(model);
  const count = axes.reduce((product, { values }) => product * values.length, 1);
  for (let number = 0; number < count; number++) yield stateOf(axes, number);
}

/** `count` states drawn from all, by a linear congruential generator with the given seed. */
export function* drawnStates(model: Model, count: number, seed: number): Generator<OperatingState> {
  const axes = axesOf(model);
  let value = seed >>> 0;
  for (let i = 0; i < count; i++) {
    const positions: Record<string, string> = {};
    const commands: Record<string, boolean> = {};
    let engine: OperatingState['engine'] = 'stopped';
    for (const axis of axes) {
      value = (Math.imul(value, 1_664_525) + 1_013_904_223) >>> 0;
      const is = axis.values[Math.floor((value / 2 ** 32) * axis.values.length)];
      if (axis.kind === 'engine') engine = is === 'running' ? 'running' : 'stopped';
      else if (axis.kind === 'command') commands[axis.name] = is === 'on';
      else positions[axis.name] = is;
    }
    yield { name: `drawn ${i}`, engine, positions, commands };
  }
}

interface Axis {
  readonly kind: 'position' | 'command' | 'engine';
  readonly name: string;
  readonly values: readonly string[];
}

function axesOf(model: Model): Axis[] {
  const positioned = [...model.graph.positioned].map(
    ([name, { positions }]): Axis => ({ kind: 'position', name, values: positions }),
  );
  const commands = [...model.graph.modules.values()].flatMap(({ outputs }) =>
    outputs
      .filter(({ on }) => on === null)
      .map(({ point }): Axis => ({ kind: 'command', name: point, values: ['off', 'on'] })),
  );
  const turns = model.graph.record.parts.some(({ kind }) => kind === 'alternator');
  const engine: Axis[] = turns ? [{ kind: 'engine', name: 'engine', values: ['stopped', 'running'] }] : [];
  return [...positioned, ...commands, ...engine];
}

function stateOf(axes: readonly Axis[], number: number): OperatingState {
  const positions: Record<string, string> = {};
  const commands: Record<string, boolean> = {};
  let engine: OperatingState['engine'] = 'stopped';
  let rest = number;
  for (const { kind, name, values } of axes) {
    const is = values[rest % values.length];
    rest = Math.floor(rest / values.length);
    if (kind === 'engine') engine = is === 'running' ? 'running' : 'stopped';
    else if (kind === 'command') commands[name] = is === 'on';
    else positions[name] = is;
  }
  return { name: `state ${number}`, engine, positions, commands };
}

/** Largest current of each consumer that sneaks back through other loads, over the states, with one thing lost. */
export function bruteSneaks(model: Model, states: Iterable<OperatingState>, loss: Loss): Map<string, number> {
  const found = new Map<string, number>();
  for (const state of states) {
    const resolved = resolveState(model.graph, { ...state, unplugged: [...loss.unplugged] });
    if (!resolved.ok) throw new Error(`${state.name}: ${resolved.issues[0]?.reason}`);
    for (const solution of solutionsOf(settle(model.circuit, resolved.state, { changes: loss.changes }))) {
      for (const [id, amps] of sneaking(model, solution)) found.set(id, Math.max(amps, found.get(id) ?? 0));
    }
  }
  return found;
}

/** Consumers with current, and no metal way from a source or none back. */
export function sneaking(model: Model, solution: Solution): Map<string, number> {
  const elements = [...model.graph.elements.values()];
  const ways = elements.filter((element) => isMetal(model, element) && solution.conducts(element.id));
  const at = new Map<string, Element[]>();
  for (const element of ways) {
    for (const end of [element.a, element.b]) at.set(end, [...(at.get(end) ?? []), element]);
  }
  const tied = (starts: readonly string[], against: boolean): Set<string> => {
    const seen = new Set<string>();
    const stack = [...starts];
    for (let point = stack.pop(); point !== undefined; point = stack.pop()) {
      if (seen.has(point)) continue;
      seen.add(point);
      for (const { a, b, law } of at.get(point) ?? []) {
        if (law.kind === 'diode' && point !== (against ? b : a)) continue;
        stack.push(point === a ? b : a);
      }
    }
    return seen;
  };
  const sources = elements.filter(({ role, id }) => role === 'source' && solution.conducts(id));
  const plus = tied(
    sources.map(({ a }) => a),
    false,
  );
  const minus = tied([model.graph.reference, ...sources.map(({ b }) => b)], true);
  const found = new Map<string, number>();
  for (const { id, element, least } of consumers(model)) {
    const amps = solution.amps(element.id);
    if (Math.abs(amps) < least) continue;
    const [high, low] = amps > 0 ? [element.a, element.b] : [element.b, element.a];
    if (!plus.has(high) || !minus.has(low)) found.set(id, Math.abs(amps));
  }
  return found;
}

/** 1 % of the rated current, a coil's drop-out, at least a milliampere. */
function consumers(model: Model): { id: string; element: Element; least: number }[] {
  const list: { id: string; element: Element; least: number }[] = [];
  const loads = new Set<string>();
  for (const { id, element, ratedAmps } of model.graph.functions.values()) {
    const found = model.graph.elements.get(element);
    if (found === undefined) continue;
    loads.add(element);
    list.push({ id, element: found, least: Math.max(0.001, 0.01 * ratedAmps) });
  }
  for (const element of model.graph.elements.values()) {
    if (element.role !== 'coil' || element.coil === null || element.law.kind !== 'ohmic' || loads.has(element.id))
      continue;
    list.push({ id: element.id, element, least: Math.max(0.001, element.coil.dropOutVolts / element.law.ohms) });
  }
  return list;
}

const NO_METAL: ReadonlySet<string> = new Set(['load', 'source', 'coil', 'bias']);

function isMetal(model: Model, { role, id, owner, gates }: Element): boolean {
  const isSuppressor = id.endsWith(':suppressor') || model.parts.get(owner)?.kind === 'suppressor';
  return !NO_METAL.has(role) && !isSuppressor && !gates.some(({ kind }) => kind === 'turning');
}
