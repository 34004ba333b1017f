// The store of runs of test plans as the service needs it: the plan as it was given, and readings that are only ever added.
// It must not judge a reading.

import type { Plan } from '../../core/answers/shapes/plans.js';

/** One reading or look, as it was typed in and as it was judged at once. */
export interface KeptReading {
  readonly id: string;
  readonly step: string;
  /** As the person gave it: `43 mV`, `OL`, `as-expected`. */
  readonly typed: string;
  /** In the unit of the step; null: over the range, or only seen. */
  readonly value: number | null;
  /** Null: the step has no limit. */
  readonly passes: boolean | null;
  readonly isAbovePrediction: boolean;
  readonly note: string | null;
  readonly takenAt: string;
  readonly addedAt: string;
}

/** A run without its plan, which can be large. */
export interface RunHead {
  readonly id: string;
  readonly harness: string;
  /** Revision of the harness that the plan was made from. */
  readonly revision: number;
  readonly startedAt: string;
  readonly who: string;
  readonly kind: Plan['kind'];
  readonly kit: Plan['kit'];
  readonly title: string;
  readonly steps: number;
  /** Later runs of the same kind and kit are held against this one. */
  readonly isBaseline: boolean;
  /** In the order in which they came in; of one step the last one counts. */
  readonly readings: readonly KeptReading[];
}

export interface StoredRun extends RunHead {
  readonly plan: Plan;
}

/** What a caller hands in to be kept. Kind, kit, title and number of steps are the plan's. */
export type NewRun = Pick<StoredRun, 'id' | 'harness' | 'revision' | 'startedAt' | 'who' | 'plan'>;

/** Acknowledged writes are durable, as in `HarnessStore`. Runs go with their harness. */
export interface RunStore {
  /** The first run of its kind and kit on a harness is its baseline. A run whose id the harness has stays as it is, and is given back. */
  create(run: NewRun): Promise<StoredRun>;
  /** Newest first. */
  list(harness: string): Promise<readonly RunHead[]>;
  get(harness: string, id: string): Promise<StoredRun | null>;
  /** A reading whose id the run already holds adds nothing, so that sending twice keeps once. Null: no such run. */
  append(harness: string, id: string, reading: KeptReading): Promise<StoredRun | null>;
  /** Makes this run the baseline of its kind and kit, in place of any other. Null: no such run. */
  makeBaseline(harness: string, id: string): Promise<StoredRun | null>;
}
