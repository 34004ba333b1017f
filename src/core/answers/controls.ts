/**
 * What makes the contacts and outputs on a path close: switch positions, coils with their own paths, module commands.
 */
import type { Solution } from '../circuit/solution.js';
import type { Element, Gate } from '../graph/element.js';
import { circuitPaths, type SharedPath } from './circuit-paths.js';
import { describePart } from './describe.js';
import type { Model } from './model.js';
import type { FeedControl, Path } from './shapes/feeds.js';

/** Breadth first from the elements given, coils' own paths included, each gate once. */
export function controlsOf(
  model: Model,
  solution: Solution,
  elements: readonly string[],
  toPath: (path: SharedPath) => Path,
): FeedControl[] {
  const controls: FeedControl[] = [];
  const queue = [...elements];
  const seen = new Set<string>();
  for (let id = queue.shift(); id !== undefined; id = queue.shift()) {
    const element = model.graph.elements.get(id);
    for (const gate of element?.gates ?? []) {
      const needs = needsInWords(model, gate);
      if (element === undefined || needs === null || seen.has(`${id} ${needs}`)) continue;
      seen.add(`${id} ${needs}`);
      const paths = gate.kind === 'coil' ? coilPaths(model, solution, gate.coil) : [];
      controls.push({ contact: id, needs, closed: isClosed(solution, element), paths: paths.map(toPath) });
      for (const path of paths) queue.push(...path.steps.map((step) => step.element.id));
    }
  }
  return controls;
}

function isClosed(solution: Solution, element: Element): boolean {
  return solution.conducts(element.id);
}

/** Supply, coil and return in one line for each supply; nothing when no current flows in the coil. */
function coilPaths(model: Model, solution: Solution, id: string): SharedPath[] {
  const coil = model.graph.elements.get(id);
  if (coil === undefined || solution.amps(id) === 0) return [];
  const forward = solution.amps(id) > 0;
  const [feed, back] = forward ? [coil.a, coil.b] : [coil.b, coil.a];
  const { supplies, returns } = circuitPaths(solution, { element: id, feed, return: back });
  const home = returns[0]?.steps ?? [];
  return supplies.map(({ share, steps }) => ({
    share,
    steps: [...steps, { element: coil, from: feed, to: back }, ...home],
  }));
}

/** null for gates that need nothing of anybody: plugs that are in, fuses that are whole. */
function needsInWords(model: Model, gate: Gate): string | null {
  switch (gate.kind) {
    case 'position':
      return `${describePart(model, gate.part)} in position ${gate.closedIn.join(' or ')}`;
    case 'coil':
      return `coil ${gate.coil} ${gate.when === 'pulled' ? 'pulled in' : 'released'}`;
    case 'output':
      return `output ${gate.module}/${gate.terminal} commanded on, and ${describePart(model, gate.module)} awake`;
    case 'awake':
      return `${describePart(model, gate.module)} awake`;
    case 'voltage':
      return `at least ${gate.closeVolts} V from ${gate.negative} to ${gate.positive}`;
    case 'lit':
      return `${describePart(model, gate.part)} in its lit phase`;
    case 'attached':
      return `${describePart(model, gate.part)} attached`;
    case 'turning':
      return 'engine running';
    case 'standing':
      return 'engine stopped';
    case 'mated':
    case 'intact':
      return null;
  }
}
