/**
 * Opens the loops of the bare harness: where two ways join the same points, the loss of one would not show, so one end is taken off.
 * It must not choose what is measured.
 */
import type { Element } from '../../graph/element.js';
import { naturalCompare } from '../../graph/natural-compare.js';
import type { Model } from '../model.js';
import type { HarnessNets, Net } from './harness-nets.js';

/** One end taken off its point for the time of the plan. */
export interface LiftedEnd {
  /** Wire or strap that the end belongs to. */
  readonly part: string;
  /** Point that it comes off. */
  readonly at: string;
  /** How the bare end is called: `L12@G1`, or a strap's own terminal. */
  readonly address: string;
}

export interface OpenedNets extends HarnessNets {
  readonly lifted: readonly LiftedEnd[];
  /** Elements that lie in parallel to others with no end to take off: their loss cannot show. */
  readonly inParallel: readonly string[];
  /** Address of a terminal as printed; terminals of `nets` may be bare ends. */
  addressOf(terminal: string): string;
}

/** The same nets as trees; every lifted end is one more terminal of its net. */
export function openLoops(model: Model, found: HarnessNets): OpenedNets {
  const lifted = new Map<string, LiftedEnd>();
  const inParallel: string[] = [];
  const nets = found.nets.map((net): Net => {
    let { elements } = net;
    const ends: string[] = [];
    for (let loop = loopIn(elements); loop !== null; loop = loopIn(elements)) {
      const [best] = loop
        .map((element) => ({ element, lift: liftOf(model, element) }))
        .sort(
          (one, other) =>
            (one.lift?.rank ?? 9) - (other.lift?.rank ?? 9) || naturalCompare(one.element.id, other.element.id),
        );
      elements = elements.filter((element) => element !== best.element);
      if (best.lift === null) inParallel.push(best.element.id);
      else {
        ends.push(best.lift.bare);
        lifted.set(best.lift.bare, best.lift.end);
      }
    }
    return ends.length === 0 ? net : { ...net, elements, terminals: [...net.terminals, ...ends] };
  });
  return {
    ...found,
    nets,
    lifted: [...lifted.values()],
    inParallel,
    addressOf: (terminal) => lifted.get(terminal)?.address ?? terminal,
  };
}

/** Elements of one loop, or null: the first element that joins two points already joined, with the way between them. */
function loopIn(elements: readonly Element[]): Element[] | null {
  const ways = new Map<string, { to: string; by: Element }>();
  const root = (point: string): string => {
    let at = point;
    for (let step = ways.get(at); step !== undefined; step = ways.get(at)) at = step.to;
    return at;
  };
  for (const element of elements) {
    if (root(element.a) === root(element.b)) return [element, ...wayBetween(ways, element)];
    // turn the arrows of one side round, so that it hangs on this element
    let previous: { to: string; by: Element } = { to: element.a, by: element };
    for (let at: string | undefined = element.b; at !== undefined; ) {
      const next = ways.get(at);
      ways.set(at, previous);
      previous = { to: at, by: next?.by ?? element };
      at = next?.to;
    }
  }
  return null;
}

function wayBetween(ways: ReadonlyMap<string, { to: string; by: Element }>, { a, b }: Element): Element[] {
  const toRoot = (point: string): Element[] => {
    const way: Element[] = [];
    for (let step = ways.get(point); step !== undefined; step = ways.get(step.to)) way.push(step.by);
    return way;
  };
  const [one, other] = [toRoot(a), new Set(toRoot(b))];
  const shared = new Set(one.filter((element) => other.has(element)));
  return [...one, ...other].filter((element) => !shared.has(element));
}

interface Lift {
  readonly end: LiftedEnd;
  /** Inner point or terminal that hangs free. */
  readonly bare: string;
  /** A lug on a stud before a strap before any other end. */
  readonly rank: number;
}

const BOLTED: ReadonlySet<string> = new Set(['ground', 'ground-block', 'busbar', 'battery', 'jump-posts']);

function liftOf(model: Model, element: Element): Lift | null {
  const kind = model.parts.get(element.owner)?.kind;
  if (element.role === 'termination') {
    const at = element.id.slice(element.id.indexOf('@') + 1);
    // both elements of a shared crimp come off together; such an end is left on
    if (element.b !== at) return null;
    const on = model.parts.get(model.graph.points.get(at)?.owner ?? '')?.kind ?? '';
    const end = { part: element.owner, at, address: element.id };
    return on === 'splice' ? null : { end, bare: element.a, rank: BOLTED.has(on) ? 0 : 2 };
  }
  if (kind === 'strap' && element.role === 'joint') {
    const [terminal, at] = element.a.startsWith(`${element.owner}/`) ? [element.a, element.b] : [element.b, element.a];
    return { end: { part: element.owner, at, address: terminal }, bare: terminal, rank: 1 };
  }
  return null;
}
