/**
 * What a harness with a fault in it would show, kept small: thousands of them are held at once.
 * It must not solve; `predictor` fills it from a solution.
 */
import { conditionOf } from '../answers/condition.js';
import type { Condition } from '../answers/shapes/common.js';
import type { Solution } from '../circuit/solution.js';
import type { LoadFunction } from '../graph/element.js';

/** Where points and elements stand in the arrays of a prediction. */
export interface Directory {
  readonly points: ReadonlyMap<string, number>;
  readonly elements: ReadonlyMap<string, number>;
}

export interface PredictionLists {
  readonly blown: ReadonlySet<string>;
  readonly mayBlow: ReadonlySet<string>;
  readonly pulledCoils: ReadonlySet<string>;
}

export class Prediction {
  constructor(
    private readonly directory: Directory,
    /** Within its island: against the reference, or on a floating island against any one of its points. */
    readonly potentials: Float64Array,
    readonly islands: Int32Array,
    readonly elementAmps: Float64Array,
    private readonly conducting: Uint8Array,
    readonly lists: PredictionLists,
    readonly isSettled: boolean,
  ) {}

  /** Volts between two points; null across islands, where a meter shows what it makes itself. */
  voltsBetween(red: string, black: string): number | null {
    const [plus, minus] = [this.directory.points.get(red), this.directory.points.get(black)];
    if (plus === undefined || minus === undefined || !this.isSettled) return null;
    return this.islands[plus] === this.islands[minus] ? this.potentials[plus] - this.potentials[minus] : null;
  }

  amps(element: string): number {
    const edge = this.directory.elements.get(element);
    return edge === undefined ? 0 : this.elementAmps[edge];
  }

  conducts(element: string): boolean {
    const edge = this.directory.elements.get(element);
    return edge !== undefined && this.conducting[edge] === 1;
  }

  condition(fn: LoadFunction): Condition {
    return this.isSettled ? conditionOf(fn, this) : 'undefined';
  }

  /** The same with other potentials and islands: for faults that differ in their place on a chain alone. */
  shifted(potentials: Float64Array, islands: Int32Array): Prediction {
    return new Prediction(
      this.directory,
      potentials,
      islands,
      this.elementAmps,
      this.conducting,
      this.lists,
      this.isSettled,
    );
  }
}

export function directoryOf(points: Iterable<string>, elements: Iterable<string>): Directory {
  return {
    points: new Map([...points].map((id, i) => [id, i])),
    elements: new Map([...elements].map((id, i) => [id, i])),
  };
}

/** Copies a solution; `null` when the circuit finds no rest. */
export function predictionOf(directory: Directory, solution: Solution | null): Prediction {
  const potentials = new Float64Array(directory.points.size);
  const islands = new Int32Array(directory.points.size).fill(-1);
  const amps = new Float64Array(directory.elements.size);
  const conducting = new Uint8Array(directory.elements.size);
  if (solution === null) {
    const none: PredictionLists = { blown: new Set(), mayBlow: new Set(), pulledCoils: new Set() };
    return new Prediction(directory, potentials, islands, amps, conducting, none, false);
  }
  const anchors = new Map<number, string>();
  for (const [point, i] of directory.points) {
    const island = solution.island(point);
    islands[i] = island;
    const volts = solution.volts(point);
    if (volts === null && !anchors.has(island)) anchors.set(island, point);
    potentials[i] = volts ?? solution.voltsBetween(point, anchors.get(island) ?? point) ?? 0;
  }
  for (const [element, i] of directory.elements) {
    amps[i] = solution.amps(element);
    conducting[i] = solution.conducts(element) ? 1 : 0;
  }
  const names = (list: readonly { readonly element: string }[]): Set<string> =>
    new Set(list.map(({ element }) => element));
  const lists = {
    blown: names([...solution.blown, ...solution.cycling]),
    mayBlow: names(solution.mayBlow),
    pulledCoils: solution.pulledCoils,
  };
  return new Prediction(directory, potentials, islands, amps, conducting, lists, true);
}
