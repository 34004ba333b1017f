/**
 * Whether a consumer carries a sneak current in a solution: enough of it, and no own feed or no own return by conductors and closed
 * contacts alone. It must not choose states.
 */
import type { Solution } from '../circuit/solution.js';
import type { Element } from '../graph/element.js';
import type { Model } from './model.js';
import type { UsualDirections } from './sneak-direction.js';

/** A load function or a relay coil. */
export interface SneakConsumer {
  readonly id: string;
  readonly element: Element;
  /** Counts from this current on, amps. */
  readonly leastAmps: number;
}

/** An LED shows at a milliampere. */
const LEAST_AMPS = 0.001;
const SHARE_OF_RATED = 0.01;

export function consumersOf(model: Model): SneakConsumer[] {
  const loads = [...model.graph.functions.values()].flatMap((fn): SneakConsumer[] => {
    const element = model.graph.elements.get(fn.element);
    return element === undefined
      ? []
      : [{ id: fn.id, element, leastAmps: Math.max(LEAST_AMPS, SHARE_OF_RATED * fn.ratedAmps) }];
  });
  const coils = [...model.graph.elements.values()].flatMap((element): SneakConsumer[] => {
    const { role, law, coil, id } = element;
    if (role !== 'coil' || coil === null || law.kind !== 'ohmic') return [];
    return [{ id, element, leastAmps: Math.max(LEAST_AMPS, coil.dropOutVolts / law.ohms) }];
  });
  return [...loads, ...coils.filter(({ id }) => !loads.some((load) => load.element.id === id))];
}

export interface SneakCurrent {
  readonly amps: number;
  /** back-feed: no way by conductors and closed contacts. reversed-feed: only one through a contact or fuse against its usual direction. */
  readonly kind: 'back-feed' | 'reversed-feed';
}

/** What sneaks through the consumer in a solution, or null. */
export function sneakCurrent(
  model: Model,
  usual: UsualDirections,
  solution: Solution,
  { element, leastAmps }: SneakConsumer,
): SneakCurrent | null {
  const amps = solution.amps(element.id);
  if (Math.abs(amps) < leastAmps) return null;
  const [high, low] = amps > 0 ? [element.a, element.b] : [element.b, element.a];
  const { bothWays, asUsual } = reachIn(model, usual, solution);
  const isFed = ({ plus, minus }: Reach): boolean => plus.has(high) && minus.has(low);
  if (!isFed(bothWays)) return { amps, kind: 'back-feed' };
  return isFed(asUsual()) ? null : { amps, kind: 'reversed-feed' };
}

interface Reach {
  readonly plus: ReadonlySet<string>;
  readonly minus: ReadonlySet<string>;
}

interface Reaches {
  readonly bothWays: Reach;
  /** Contacts and fuses in their usual direction alone. */
  asUsual(): Reach;
}

const reaches = new WeakMap<Solution, Reaches>();

function reachIn(model: Model, usual: UsualDirections, solution: Solution): Reaches {
  let known = reaches.get(solution);
  if (known === undefined) {
    let asUsual: Reach | null = null;
    known = {
      bothWays: ownReach(model, solution, new Map()),
      asUsual: () => {
        asUsual ??= ownReach(model, solution, usual);
        return asUsual;
      },
    };
    reaches.set(solution, known);
  }
  return known;
}

/**
 * Points that conductors and closed contacts tie to a source's posts; a recorded diode counts along its arrow, a resistor both ways, and
 * what has a direction along it.
 */
function ownReach(model: Model, solution: Solution, directions: UsualDirections): Reach {
  const sources = [...model.graph.elements.values()].filter(
    ({ role, id }) => role === 'source' && solution.conducts(id),
  );
  const flood = (starts: readonly string[], entry: 'a' | 'b'): ReadonlySet<string> => {
    const reached = new Set(starts);
    for (const point of reached) {
      model.graph.graph.forEachEdge(point, (_, element) => {
        if (!model.structure.passable(element) || !solution.conducts(element.id)) return;
        const direction = element.law.kind === 'diode' ? 1 : directions.get(element.id);
        // with the current from plus, against it from minus: one end of a one-way element is its entry
        const isEntered = direction === undefined || element[direction === 1 ? entry : opposite(entry)] === point;
        if (isEntered) reached.add(element.a).add(element.b);
      });
    }
    return reached;
  };
  return {
    plus: flood(
      sources.map(({ a }) => a),
      'a',
    ),
    minus: flood([model.graph.reference, ...sources.map(({ b }) => b)], 'b'),
  };
}

const opposite = (end: 'a' | 'b'): 'a' | 'b' => (end === 'a' ? 'b' : 'a');

/** Elements from the source through the consumer and back, along the largest current. */
export function sneakPath(model: Model, solution: Solution, { element }: SneakConsumer): string[] {
  const isForward = solution.amps(element.id) > 0;
  const [high, low] = isForward ? [element.a, element.b] : [element.b, element.a];
  return [...walk(model, solution, high, -1, element).reverse(), element.id, ...walk(model, solution, low, 1, element)];
}

function walk(model: Model, solution: Solution, start: string, direction: 1 | -1, consumer: Element): string[] {
  const ids: string[] = [];
  const seen = new Set([start]);
  for (let at = start; ids.length < MOST_STEPS; ) {
    let best: { element: Element; to: string; amps: number } | null = null;
    model.graph.graph.forEachEdge(at, (_, element) => {
      const amps = direction * solution.amps(element.id) * (element.a === at ? 1 : -1);
      const to = element.a === at ? element.b : element.a;
      if (element !== consumer && amps > 1e-7 && !seen.has(to) && (best === null || amps > best.amps))
        best = { element, to, amps };
    });
    const next = best as { element: Element; to: string } | null;
    if (next === null || next.element.role === 'source') return ids;
    ids.push(next.element.id);
    seen.add(next.to);
    at = next.to;
  }
  return ids;
}

const MOST_STEPS = 400;
