/**
 * A quick look at a few readings after a change: for asking the same small question about very many changes.
 * It must not keep anything from one change to the next; names are turned into numbers once.
 */
import { createPointSet } from '../numeric/points.js';
import { GROUND } from '../numeric/types.js';
import { edgeNumber, nodeNumber } from './network.js';
import type { Solution } from './solution.js';
import type { Rest, WhatIf } from './what-if.js';

/** What a look is for: volts at `red` against `black`, amps through elements and whether these conduct. */
export interface Watched {
  readonly pairs: readonly { readonly red: string; readonly black: string }[];
  readonly elements: readonly string[];
}

/** The answers in the order of the question. The arrays are used again for the next look: copy what you keep. */
export interface Glimpse {
  /** NaN where nothing definite can be read: across islands. */
  readonly volts: Float64Array;
  readonly amps: Float64Array;
  /** 1 where the element conducts. */
  readonly conducts: Uint8Array;
  /** Over the elements; null where nothing is pulsed. */
  readonly rmsVolts: Float64Array | null;
}

/** Looks at a change at rest, solving for the asked points alone, or at a whole solution. */
export class Lookout {
  private readonly seen: Glimpse;
  private readonly reds: Int32Array;
  private readonly blacks: Int32Array;
  private readonly edges: Int32Array;
  private readonly visits: Int32Array;

  /** Throws a RangeError on a point or element that the harness lacks. */
  constructor(
    private readonly whatIf: WhatIf,
    watched: Watched,
  ) {
    const { network } = whatIf;
    const { nodeOf, from, to, analysis } = network;
    this.reds = Int32Array.from(watched.pairs, ({ red }) => nodeNumber(nodeOf, red));
    this.blacks = Int32Array.from(watched.pairs, ({ black }) => nodeNumber(nodeOf, black));
    this.edges = Int32Array.from(watched.elements, (element) => edgeNumber(network, element));
    const nodes = new Set([...this.reds, ...this.blacks]);
    for (const edge of this.edges) nodes.add(from[edge]).add(to[edge]);
    nodes.delete(GROUND);
    this.visits = createPointSet(analysis, Int32Array.from(nodes)).visits;
    this.seen = emptyGlimpse(watched);
  }

  atRest({ picture, imposed: { moved, extras } }: Rest): Glimpse {
    const { solver } = this.whatIf;
    const { volts, amps, conducts } = this.seen;
    const nodeVolts = solver.voltsAt(this.visits);
    const at = (node: number): number => (node === GROUND ? 0 : nodeVolts[node]);
    for (let i = 0; i < volts.length; i++) {
      const [red, black] = [this.reds[i], this.blacks[i]];
      volts[i] = picture.island(red) === picture.island(black) ? at(red) - at(black) : Number.NaN;
    }
    for (let i = 0; i < amps.length; i++) {
      const edge = this.edges[i];
      amps[i] = solver.ampsOf(edge);
      conducts[i] = picture.closed[edge];
      const place = moved.size === 0 ? undefined : moved.get(edge);
      if (place === undefined) continue;
      const { from, to, siemens } = extras[place];
      amps[i] = siemens * (at(from) - at(to));
      conducts[i] = 1;
    }
    return this.seen;
  }
}

/** The same of a whole solution, by name. */
export function glimpseOf(solution: Solution, { pairs, elements }: Watched): Glimpse {
  return {
    volts: Float64Array.from(pairs, ({ red, black }) => solution.voltsBetween(red, black) ?? Number.NaN),
    amps: Float64Array.from(elements, (element) => solution.amps(element)),
    conducts: Uint8Array.from(elements, (element) => (solution.conducts(element) ? 1 : 0)),
    rmsVolts: solution.isMean
      ? Float64Array.from(elements, (element) => solution.rmsVolts(element) ?? Number.NaN)
      : null,
  };
}

function emptyGlimpse({ pairs, elements }: Watched): Glimpse {
  return {
    volts: new Float64Array(pairs.length),
    amps: new Float64Array(elements.length),
    conducts: new Uint8Array(elements.length),
    rmsVolts: null,
  };
}
