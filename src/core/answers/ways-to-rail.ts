/**
 * Elements on the ways from a point to a rail, and along the rail to its sources, over all positions that can hold at once.
 * A way through a switch or relay in two positions at the same time is no way.
 */
import { type BlockForest, blockForest, elementsOn } from '../graph/blocks.js';
import { viewOf } from '../graph/conductive-view.js';
import type { Element } from '../graph/element.js';
import type { HarnessGraph } from '../graph/harness-graph.js';

export interface Rail {
  /** All points tied to the sources with every plug in and no switch in between. */
  readonly rail: ReadonlySet<string>;
  readonly sources: readonly string[];
  /** Points of the opposite rail: no way leads through them. */
  readonly otherRail: ReadonlySet<string>;
}

/**
 * The rail counts as one place: what joins two of its points (a second battery's relay, an alternator's cable) is no way to it.
 * The function returned gives the elements for one or more ends; ends on the opposite rail have none.
 */
export function waysToRail(
  graph: HarnessGraph,
  passable: readonly Element[],
  { rail, sources, otherRail }: Rail,
): (ends: readonly string[]) => Set<string> {
  const inRail = (element: Element): boolean => rail.has(element.a) && rail.has(element.b);
  const branches = passable.filter(
    (element) => !inRail(element) && !otherRail.has(element.a) && !otherRail.has(element.b),
  );
  const toRail = blockForest(viewOf(graph, branches), [...rail]);
  const alongRail = blockForest(
    viewOf(
      graph,
      passable.filter((element) => inRail(element) && isAlwaysClosed(graph, element)),
    ),
    sources,
  );
  return (ends) => {
    const found = new Set<string>();
    const entries = new Set<string>();
    for (const end of ends) {
      if (otherRail.has(end)) continue;
      if (rail.has(end)) entries.add(end);
      for (const element of consistentWays(graph, elementsTo(graph, toRail, end), rail, end)) {
        found.add(element.id);
        for (const point of [element.a, element.b]) if (rail.has(point)) entries.add(point);
      }
    }
    for (const entry of entries) for (const { id } of elementsTo(graph, alongRail, entry)) found.add(id);
    return found;
  };
}

/** Whether an element conducts in ordinary use with nobody touching a switch: plugs in, fuses whole, master switches on. */
export function isAlwaysClosed(graph: HarnessGraph, element: Element): boolean {
  return element.gates.every(
    (gate) =>
      gate.kind === 'mated' ||
      gate.kind === 'intact' ||
      (gate.kind === 'position' && graph.positioned.get(gate.part)?.rest === 'on'),
  );
}

function elementsTo(graph: HarnessGraph, forest: BlockForest, point: string): Element[] {
  return elementsOn(forest.sectionsTo(point) ?? [])
    .map((id) => graph.elements.get(id))
    .filter((element) => element !== undefined);
}

/**
 * Keeps what lies on a way when each switch or coil, taken alone, holds one position: the union over its positions. Two
 * parts that exclude each other only together are not seen; the solver has the last word on such ways.
 */
function consistentWays(
  graph: HarnessGraph,
  ways: readonly Element[],
  rail: ReadonlySet<string>,
  end: string,
): readonly Element[] {
  let kept = ways;
  for (const alternatives of exclusiveAlternatives(graph, ways)) {
    const onSomeWay = new Set<Element>();
    for (const holds of alternatives) {
      const open = kept.filter(holds);
      const roots = [...new Set(open.flatMap((element) => [element.a, element.b]))].filter((point) => rail.has(point));
      for (const element of elementsTo(graph, blockForest(viewOf(graph, open), roots), end)) onSomeWay.add(element);
    }
    kept = kept.filter((element) => onSomeWay.has(element));
  }
  return kept;
}

type Holds = (element: Element) => boolean;

/** For each switch and coil with several gated elements among the ways: its positions, as tests of what they leave closed. */
function exclusiveAlternatives(graph: HarnessGraph, ways: readonly Element[]): Holds[][] {
  const positions = new Map<string, number>();
  const coils = new Map<string, Set<string>>();
  for (const element of ways) {
    for (const gate of element.gates) {
      if (gate.kind === 'position') positions.set(gate.part, (positions.get(gate.part) ?? 0) + 1);
      if (gate.kind === 'coil') coils.set(gate.coil, (coils.get(gate.coil) ?? new Set()).add(gate.when));
    }
  }
  const ofSwitches = [...positions]
    .filter(([, count]) => count > 1)
    .map(([part]) =>
      (graph.positioned.get(part)?.positions ?? []).map(
        (position): Holds =>
          ({ gates }) =>
            gates.every((gate) => gate.kind !== 'position' || gate.part !== part || gate.closedIn.includes(position)),
      ),
    );
  const ofCoils = [...coils]
    .filter(([, sides]) => sides.size > 1)
    .map(([coil, sides]) =>
      [...sides].map(
        (side): Holds =>
          ({ gates }) =>
            gates.every((gate) => gate.kind !== 'coil' || gate.coil !== coil || gate.when === side),
      ),
    );
  return [...ofSwitches, ...ofCoils];
}
