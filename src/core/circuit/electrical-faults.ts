/**
 * Every single electrical fault of a harness, as changes of its circuit: open, series resistance, shorts, swaps, stuck contacts.
 * It must not say how likely one is; priors, repairs and words are the diagnosis layer's.
 */
import type { Element } from '../graph/element.js';
import type { HarnessGraph } from '../graph/harness-graph.js';
import { adjacentCavities, bodiesBeside, neighbouringWires } from '../graph/neighbours.js';
import type { Change } from './solution.js';

export type ElectricalFaultKind =
  | 'open'
  | 'series-resistance'
  | 'short-to-chassis'
  | 'short-to-neighbour'
  | 'swap'
  | 'stuck-contact';

export interface ElectricalFault {
  readonly kind: ElectricalFaultKind;
  /** Element that fails; for swaps and bridged cavities the first of two points. */
  readonly at: string;
  /** Body, wire or cavity that it touches or has changed places with; null for the others. */
  readonly other: string | null;
  /** Ohms added or left between the two; null for opens, swaps and stuck contacts. */
  readonly ohms: number | null;
  readonly changes: readonly Change[];
}

export interface FaultSizes {
  /** Added by a bad joint, ohms, one fault for each; 0.5 when absent: half a volt at an ampere (engineering judgement). */
  readonly seriesOhms?: readonly number[];
  /** Left where two conductors touch, ohms; 0.05 when absent (strand against sheet metal, engineering judgement). */
  readonly shortOhms?: number;
}

const SERIES_OHMS: readonly number[] = [0.5];
const SHORT_OHMS = 0.05;

/** All faults in the order of the kinds above, within a kind in the order of the record: the same list every time. */
export function* electricalFaults(graph: HarnessGraph, sizes: FaultSizes = {}): Generator<ElectricalFault> {
  const { seriesOhms = SERIES_OHMS, shortOhms = SHORT_OHMS } = sizes;
  const elements = [...graph.elements.values()];
  for (const { id } of elements) {
    yield { kind: 'open', at: id, other: null, ohms: null, changes: [{ kind: 'open', element: id }] };
  }
  for (const element of elements) {
    if (!canCorrode(element)) continue;
    for (const ohms of seriesOhms) {
      const changes: Change[] = [{ kind: 'series', element: element.id, ohms }];
      yield { kind: 'series-resistance', at: element.id, other: null, ohms, changes };
    }
  }
  yield* shortsToChassis(graph, shortOhms);
  yield* shortsToNeighbours(graph, shortOhms);
  yield* swaps(graph);
  for (const { id, role } of elements) {
    if (role !== 'contact') continue;
    for (const closed of [true, false]) {
      yield {
        kind: 'stuck-contact',
        at: id,
        other: null,
        ohms: null,
        changes: [{ kind: 'stuck', element: id, closed }],
      };
    }
  }
}

/** Joints, contacts and wires; not what is a resistance by design, nor sources. */
function canCorrode({ role, law }: Element): boolean {
  return law.kind === 'ohmic' && role !== 'load' && role !== 'coil' && role !== 'component' && role !== 'bias';
}

function* shortsToChassis({ record, elements }: HarnessGraph, ohms: number): Generator<ElectricalFault> {
  for (const [wire, bodies] of bodiesBeside(record)) {
    const element = elements.get(wire);
    if (element === undefined) continue;
    for (const body of bodies) {
      const changes: Change[] = [{ kind: 'bridge', from: element.b, to: body, ohms }];
      yield { kind: 'short-to-chassis', at: wire, other: body, ohms, changes };
    }
  }
}

/** Wires that run together, and adjacent cavities of a plug. */
function* shortsToNeighbours({ record, elements }: HarnessGraph, ohms: number): Generator<ElectricalFault> {
  for (const { a, b } of neighbouringWires(record).pairs) {
    const [one, other] = [elements.get(a), elements.get(b)];
    if (one === undefined || other === undefined) continue;
    const changes: Change[] = [{ kind: 'bridge', from: one.b, to: other.b, ohms }];
    yield { kind: 'short-to-neighbour', at: a, other: b, ohms, changes };
  }
  for (const part of record.parts) {
    if (part.kind !== 'connector') continue;
    for (const { half, a, b } of adjacentCavities(part)) {
      if (half !== 'plug') continue;
      const changes: Change[] = [{ kind: 'bridge', from: a, to: b, ohms }];
      yield { kind: 'short-to-neighbour', at: a, other: b, ohms, changes };
    }
  }
}

/** The wires of two adjacent cavities of one half in each other's place. */
function* swaps(graph: HarnessGraph): Generator<ElectricalFault> {
  for (const part of graph.record.parts) {
    if (part.kind !== 'connector') continue;
    for (const { a, b } of adjacentCavities(part)) {
      const changes = [...moves(graph, a, b), ...moves(graph, b, a)];
      if (changes.length > 0) yield { kind: 'swap', at: a, other: b, ohms: null, changes };
    }
  }
}

function moves({ graph, elements }: HarnessGraph, from: string, to: string): Change[] {
  return graph.edges(from).flatMap((id): Change[] => {
    const element = elements.get(id);
    if (element === undefined || (element.role !== 'termination' && element.role !== 'double-crimp')) return [];
    return [{ kind: 'moved', element: id, end: element.a === from ? 'a' : 'b', to }];
  });
}
