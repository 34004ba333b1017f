/**
 * The usual direction of the current through each contact and fuse: what it is in the recorded states, else away from the source.
 * It must not call a direction usual where the record shows both.
 */
import { namedState } from '../circuit/resolve-state.js';
import { settle } from '../circuit/settle.js';
import { solutionsOf } from '../circuit/solution.js';
import type { Element } from '../graph/element.js';
import type { Model } from './model.js';

/** 1: from `a` to `b`. Elements without an entry have no usual direction. */
export type UsualDirections = ReadonlyMap<string, 1 | -1>;

/** Less says nothing about what a contact is for, amps. */
const LEAST_AMPS = 0.005;

export function usualDirections(model: Model): UsualDirections {
  const oneWay = [...model.graph.elements.values()].filter(
    ({ role, law }) => (role === 'contact' || role === 'fuse') && law.kind === 'ohmic',
  );
  const seen = new Map<string, { forward: boolean; backward: boolean }>();
  for (const { name } of model.graph.record.states ?? []) {
    const resolved = namedState(model.graph, name);
    if (!resolved.ok) continue;
    for (const solution of solutionsOf(settle(model.circuit, resolved.state))) {
      for (const { id } of oneWay) {
        const amps = solution.amps(id);
        if (Math.abs(amps) < LEAST_AMPS) continue;
        const known = seen.get(id) ?? { forward: false, backward: false };
        seen.set(id, { forward: known.forward || amps > 0, backward: known.backward || amps < 0 });
      }
    }
  }
  const usual = new Map<string, 1 | -1>();
  const contacts = contactsFromSource(model);
  for (const element of oneWay) {
    const recorded = seen.get(element.id);
    if (recorded !== undefined) {
      if (recorded.forward !== recorded.backward) usual.set(element.id, recorded.forward ? 1 : -1);
      continue;
    }
    const [a, b] = [contacts.get(element.a), contacts.get(element.b)];
    if (a !== undefined && b !== undefined && a !== b) usual.set(element.id, a < b ? 1 : -1);
  }
  return usual;
}

/** Fewest contacts and fuses between each point and a source's positive post, over elements that conduct whatever is switched. */
function contactsFromSource(model: Model): ReadonlyMap<string, number> {
  const isStep = ({ role }: Element): boolean => role === 'contact' || role === 'fuse' || role === 'output';
  const count = new Map<string, number>();
  let front = new Set([...model.structure.plusRail]);
  for (let steps = 0; front.size > 0; steps++) {
    const beyond = new Set<string>();
    for (const point of front) {
      if (count.has(point) || model.structure.minusRail.has(point)) continue;
      count.set(point, steps);
      model.graph.graph.forEachEdge(point, (_, element) => {
        if (!model.structure.passable(element)) return;
        const next = element.a === point ? element.b : element.a;
        if (!count.has(next)) (isStep(element) ? beyond : front).add(next);
      });
    }
    front = beyond;
  }
  return count;
}
