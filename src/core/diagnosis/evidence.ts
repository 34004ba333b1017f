/**
 * What a hunt knows: reports, readings, repairs, and what each piece is worth under each hypothesis.
 * Types only; it must not weigh.
 */
import type { Check, CheckResult } from './shapes/check.js';
import type { Symptom } from './shapes/symptom.js';

export interface TakenReading {
  /** Id of the log entry. */
  readonly entry: string;
  readonly check: Check;
  readonly result: CheckResult;
}

/** A reading from before a repair. */
export interface PastReading extends TakenReading {
  /** How many repairs had been made when it was taken. */
  readonly repairsBefore: number;
}

export interface PastRepair {
  readonly keys: readonly string[];
  /** What was complained of was not as before. */
  readonly hasChanged: boolean;
}

export interface Evidence {
  readonly symptoms: readonly Symptom[];
  /** Oldest first. */
  readonly readings: readonly TakenReading[];
  /** Taken before a repair: what was mended since was still wrong. */
  readonly past: readonly PastReading[];
  /** Repairs already made and proved to have changed something or nothing, oldest first. */
  readonly repairs: readonly PastRepair[];
  /** Keys of all repairs already made: what they mend is mended. */
  readonly mended: ReadonlySet<string>;
  /** Repairs after which all that was complained of was as before. */
  readonly vainRepairs: number;
}

/** One symptom, or all results of one check. */
export interface EvidenceItem {
  readonly key: string;
  readonly entries: readonly string[];
  readonly check: Check | null;
  /** What was complained of; null for readings and for what works. */
  readonly complaint: Symptom | null;
  /** Of a reading from before a repair; null: it was taken on the vehicle as it is. */
  readonly past: PastReading | null;
  /** By index of hypothesis. */
  readonly logLikelihoods: Float64Array;
}
