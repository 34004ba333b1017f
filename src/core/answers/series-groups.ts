/**
 * Elements in one chain: no branch between them, and nothing that looks at the volts in between. Opening any one of them
 * is the same fault to everything else, so one what-if answers for all. It must not solve.
 */
import type { Solution } from '../circuit/solution.js';
import type { Element } from '../graph/element.js';
import type { HarnessGraph } from '../graph/harness-graph.js';
import type { Model } from './model.js';

const watchedPoints = new WeakMap<Model, ReadonlySet<string>>();

/** The members of `elements` that conduct, grouped by chain; loads, coils and sources stand alone. Order kept. */
export function seriesGroups(model: Model, solution: Solution, elements: Iterable<string>): string[][] {
  const leaders = new Map<string, string>();
  const groups = new Map<string, string[]>();
  for (const id of elements) {
    if (!solution.conducts(id)) continue;
    const leader = leaders.get(id) ?? id;
    if (leader === id) for (const member of chainOf(model, solution, id)) leaders.set(member, id);
    const group = groups.get(leader);
    if (group === undefined) groups.set(leader, [id]);
    else group.push(id);
  }
  return [...groups.values()];
}

/** The element and all that hang in one row with it, to both sides. */
function chainOf(model: Model, solution: Solution, id: string): Set<string> {
  const start = model.graph.elements.get(id);
  const chain = new Set([id]);
  if (start === undefined || !isPlain(start)) return chain;
  for (const end of [start.a, start.b]) {
    let element: Element | undefined = start;
    for (let point = end; element !== undefined; ) {
      element = onlyOther(model, solution, point, element);
      if (element === undefined || chain.has(element.id)) break;
      chain.add(element.id);
      point = element.a === point ? element.b : element.a;
    }
  }
  return chain;
}

/** The one other element at a point, when it is plain and there is no third that conducts or ever may in this state. */
function onlyOther(model: Model, solution: Solution, point: string, element: Element): Element | undefined {
  if (watchedBy(model).has(point)) return undefined;
  const others = model.graph.graph
    .edges(point)
    .map((id) => model.graph.elements.get(id))
    .filter((it) => it !== undefined && it.id !== element.id && (solution.conducts(it.id) || movesByItself(it)));
  const [other] = others;
  return others.length === 1 && other !== undefined && solution.conducts(other.id) && isPlain(other)
    ? other
    : undefined;
}

/** No threshold of its own, and no end of the circuit. */
function isPlain({ role, law, coil }: Element): boolean {
  return coil === null && law.kind === 'ohmic' && role !== 'load' && role !== 'source';
}

function movesByItself({ gates }: Element): boolean {
  return gates.some(({ kind }) => kind === 'coil' || kind === 'output' || kind === 'awake' || kind === 'voltage');
}

/** The reference, and whatever modules, voltage-sensing contacts and regulators measure. */
function watchedBy(model: Model): ReadonlySet<string> {
  const known = watchedPoints.get(model);
  if (known !== undefined) return known;
  const watched = pointsWatched(model.graph);
  watchedPoints.set(model, watched);
  return watched;
}

function pointsWatched(graph: HarnessGraph): Set<string> {
  const watched = new Set([graph.reference]);
  for (const { supplies, grounds, inputs } of graph.modules.values()) {
    for (const point of [...supplies, ...inputs].map((pin) => pin.point)) watched.add(point);
    for (const point of [...grounds, ...inputs.map((pin) => pin.ground)]) watched.add(point);
  }
  for (const { law, gates } of graph.elements.values()) {
    if (law.kind === 'regulated' && law.sense !== null) watched.add(law.sense);
    for (const gate of gates) if (gate.kind === 'voltage') watched.add(gate.positive).add(gate.negative);
  }
  return watched;
}
