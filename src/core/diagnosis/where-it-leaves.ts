/**
 * Where a reading leaves the fault, said along the circuit: before the red lead, beyond it, between the two leads. Only what the suspects
 * that are left bear out is said.
 * It must not weigh; weights are handed in.
 */
import type { Element } from '../graph/element.js';
import type { Inquiry } from './inquiry.js';
import type { Check, CheckOf, StateChoice } from './shapes/check.js';

export interface LeftPlace {
  readonly elements: readonly string[];
  readonly weight: number;
}

/** Said when all but this share of what is left lies there. */
const STRAY_SHARE = 0.05;

/** Outcomes that speak against the stretch that the leads look at. */
const AS_IT_SHOULD_BE: ReadonlySet<string> = new Set(['as-healthy', 'bright']);
/** Outcomes of a good feed, and of a bad way home: with the load off the line the volts are a little more than they should be. */
const VOLTS_ARRIVE: ReadonlySet<string> = new Set(['as-healthy', 'higher', 'supply', 'bright']);
const VOLTS_STAND: ReadonlySet<string> = new Set(['higher', 'supply', 'bright', 'dim']);

/** Null where the places left lie on no one side, where they contradict the outcome, or the check is not about places. */
export function whereItLeaves(
  inquiry: Inquiry,
  check: Check,
  outcome: string,
  left: readonly LeftPlace[],
): string | null {
  switch (check.kind) {
    case 'volts':
    case 'lamp':
      return check.black === inquiry.model.graph.reference
        ? alongCircuit(inquiry, check, outcome, left)
        : between(insideOf(inquiry, check.red, check.black), outcome, left, `between ${check.red} and ${check.black}`);
    case 'ohms':
      return between(new Set(check.elements), outcome, left, `between ${check.red} and ${check.black}`);
    default:
      return null;
  }
}

function alongCircuit(
  inquiry: Inquiry,
  { red, state }: CheckOf<'volts' | 'lamp'>,
  outcome: string,
  left: readonly LeftPlace[],
): string | null {
  const sides = sidesOf(inquiry, red, state);
  if (sides === null) return null;
  const { loadSide, sourceSide, isFeed } = sides;
  const isGood = isFeed ? VOLTS_ARRIVE.has(outcome) : !VOLTS_STAND.has(outcome);
  if (isGood && isMostly(left, loadSide))
    return isFeed
      ? `good up to ${red}, so it is lost beyond, towards the load`
      : `from ${red} home to the battery is good, so it is lost before`;
  if (!isGood && isMostly(left, sourceSide))
    return isFeed ? `lost before it reaches ${red}` : `lost on the way home from ${red} to the battery`;
  return null;
}

function between(
  inside: ReadonlySet<string>,
  outcome: string,
  left: readonly LeftPlace[],
  words: string,
): string | null {
  if (inside.size === 0) return null;
  if (!AS_IT_SHOULD_BE.has(outcome)) return isMostly(left, inside) ? `it is ${words}` : null;
  const outside = left.reduce((sum, { elements, weight }) => sum + (touches(elements, inside) ? 0 : weight), 0);
  return outside >= (1 - STRAY_SHARE) * total(left) ? `good ${words}` : null;
}

const total = (left: readonly LeftPlace[]): number => left.reduce((sum, { weight }) => sum + weight, 0);
const touches = (elements: readonly string[], side: ReadonlySet<string>): boolean =>
  elements.some((id) => side.has(id));

function isMostly(left: readonly LeftPlace[], side: ReadonlySet<string>): boolean {
  const there = left.reduce((sum, { elements, weight }) => sum + (touches(elements, side) ? weight : 0), 0);
  return there > 0 && there >= (1 - STRAY_SHARE) * total(left);
}

interface Sides {
  readonly loadSide: ReadonlySet<string>;
  readonly sourceSide: ReadonlySet<string>;
  readonly isFeed: boolean;
}

/**
 * Feed and return of what is complained of as they conduct in the state, cut in two at a point: what hangs on the load, and the rest.
 * Null: the point is on neither, or there is a way round it.
 */
function sidesOf(inquiry: Inquiry, red: string, state: StateChoice): Sides | null {
  const { model, complaintFunction } = inquiry;
  const fn = model.graph.functions.get(complaintFunction ?? '');
  if (fn === undefined) return null;
  const ways = model.structure.waysBetween(fn.feed, fn.return);
  const sound = inquiry.healthy(state);
  const closed = (ids: ReadonlySet<string>): Set<string> => new Set([...ids].filter((id) => sound.conducts(id)));
  const [feed, back] = [closed(ways.feed), closed(ways.return)];
  const endsOf = (id: string): string[] => {
    const element = model.graph.elements.get(id);
    return element === undefined ? [] : [element.a, element.b];
  };
  const touchesRed = (ids: ReadonlySet<string>): boolean => [...ids].some((id) => endsOf(id).includes(red));
  const isFeed = touchesRed(feed);
  if (isFeed === touchesRed(back)) return null;
  const way = isFeed ? feed : back;
  const posts = new Set(model.structure.sources.flatMap(({ a, b }) => [a, b]));
  const loadSide = new Set([fn.element, ...(isFeed ? back : feed)]);
  const reached = new Set([isFeed ? fn.feed : fn.return].filter((point) => point !== red));
  for (const point of reached) {
    if (posts.has(point)) return null;
    for (const id of model.graph.graph.edges(point)) {
      if (!way.has(id)) continue;
      loadSide.add(id);
      for (const next of endsOf(id)) if (next !== red) reached.add(next);
    }
  }
  return { loadSide, sourceSide: new Set([...way].filter((id) => !loadSide.has(id))), isFeed };
}

/** Plain conductors between two points of one unbranched run; none where they are not on one. */
function insideOf({ model }: Inquiry, red: string, black: string): ReadonlySet<string> {
  const found = walk(model.graph, red, black);
  return new Set(found);
}

/** Follows the only way on from `red`; gives up at a branch. */
function walk(graph: Inquiry['model']['graph'], red: string, black: string): string[] {
  for (const first of graph.graph.edges(red)) {
    const way: string[] = [];
    let [at, id]: [string, string | undefined] = [red, first];
    while (id !== undefined && way.length < 200) {
      const element: Element | undefined = graph.elements.get(id);
      if (element === undefined) break;
      way.push(id);
      at = element.a === at ? element.b : element.a;
      if (at === black) return way;
      const came: string = id;
      const onward: string[] = graph.graph.edges(at).filter((next) => next !== came);
      id = onward.length === 1 ? onward[0] : undefined;
    }
  }
  return [];
}
