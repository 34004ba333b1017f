/**
 * What a harness with a fault in it would show, kept small: thousands of them are held at once.
 * It must not solve; `predictor` fills it from a solution.
 */
import { conditionOf } from '../answers/condition.js';
import type { Condition } from '../answers/shapes/common.js';
import type { CompactSolution } from '../circuit/compact-solution.js';
import type { Solution } from '../circuit/solution.js';
import type { LoadFunction } from '../graph/element.js';
import type { ChainPlace, SeriesChain } from './series-chains.js';

/** What stands out of the ordinary, by element. */
export interface PredictionLists {
  readonly blown: ReadonlySet<string>;
  readonly mayBlow: ReadonlySet<string>;
  readonly pulledCoils: ReadonlySet<string>;
}

export class Prediction {
  constructor(
    /** Null when the circuit finds no rest. */
    private readonly solution: CompactSolution | null,
    readonly lists: PredictionLists,
    /** Where the fault sits farther along a chain than the one that was solved. */
    private readonly shift: ChainShift | null = null,
    /** Where the circuit can come to rest in a second way; null: it cannot, as far as is known. */
    readonly otherRest: Prediction | null = null,
  ) {}

  /**
   * One and the same for all places of a chain: currents and conditions are alike wherever the fault sits in it, and a function never
   * ends inside one.
   */
  get solved(): object {
    return this.solution ?? restless;
  }

  get isSettled(): boolean {
    return this.solution !== null;
  }

  /** Volts between two points; null across islands, where a meter shows what it makes itself. */
  voltsBetween(red: string, black: string): number | null {
    const { solution, shift } = this;
    if (solution === null) return null;
    const [plus, minus] = shift === null ? [red, black] : [shift.islandLike(red), shift.islandLike(black)];
    if (solution.island(plus) !== solution.island(minus)) return null;
    if (shift === null) return solution.potential(red) - solution.potential(black);
    return shift.potential(solution, red) - shift.potential(solution, black);
  }

  amps(element: string): number {
    return this.solution?.amps(element) ?? 0;
  }

  conducts(element: string): boolean {
    return this.shift?.conducts(element) ?? this.solution?.conducts(element) ?? false;
  }

  /** Null where nothing is pulsed, or there is no solution. */
  rmsVolts(element: string): number | null {
    return this.solution?.rmsVolts(element) ?? null;
  }

  condition(fn: LoadFunction): Condition {
    return this.isSettled ? conditionOf(fn, this) : 'undefined';
  }

  /** The same open or added ohms at another place of the chain than its first, for which this one was solved. */
  shiftedAlong(place: ChainPlace, isOpen: boolean): Prediction {
    const other = this.otherRest?.shiftedAlong(place, isOpen) ?? null;
    return new Prediction(this.solution, this.lists, new ChainShift(place, isOpen), other);
  }
}

/** A chain carries one current: with the fault farther along, the points before it are at what the part before it drops. */
class ChainShift {
  private readonly chain: SeriesChain;
  private readonly position: number;

  constructor(
    { chain, position }: ChainPlace,
    private readonly isOpen: boolean,
  ) {
    this.chain = chain;
    this.position = position;
  }

  /** A point of the same island in what was solved. */
  islandLike(point: string): string {
    return this.isBeforeFault(point) ? this.chain.points[0] : point;
  }

  /** Of an open, which is not where it was solved; null: as it was solved. */
  conducts(element: string): boolean | null {
    const { elements } = this.chain;
    if (!this.isOpen) return null;
    return element === elements[this.position].id ? false : element === elements[0].id ? true : null;
  }

  potential(solution: CompactSolution, point: string): number {
    if (!this.isBeforeFault(point)) return solution.potential(point);
    const { points, elements, ohmsBefore, placeOf } = this.chain;
    const start = solution.potential(points[0]);
    if (this.isOpen) return start;
    const [first] = elements;
    const amps = (first.a === points[0] ? 1 : -1) * solution.amps(first.id);
    return start - amps * ohmsBefore[placeOf.get(point) ?? 0];
  }

  private isBeforeFault(point: string): boolean {
    const place = this.chain.placeOf.get(point);
    return place !== undefined && place > 0 && place <= this.position;
  }
}

const NONE: ReadonlySet<string> = new Set();

/** Circuit without rest: everything about it is undefined. */
export const restless = new Prediction(null, { blown: NONE, mayBlow: NONE, pulledCoils: NONE });

export function listsOf({ blown, cycling, mayBlow, pulledCoils }: Solution): PredictionLists {
  const names = (list: readonly { readonly element: string }[]): ReadonlySet<string> =>
    list.length === 0 ? NONE : new Set(list.map(({ element }) => element));
  return { blown: names([...blown, ...cycling]), mayBlow: names(mayBlow), pulledCoils };
}
