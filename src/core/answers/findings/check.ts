/**
 * What one check of the record is: a code of our own, a severity, and a function from the case to what it found.
 * It must not keep anything between calls.
 */
import type { Model } from '../model.js';
import type { Finding, Severity } from '../shapes/findings.js';
import type { WorstCase } from './worst-case.js';

/** What every check may look at. `worst` is searched when the first check asks. */
export interface Case {
  readonly model: Model;
  readonly worst: () => WorstCase;
}

/** A finding without what the check itself says: code, severity (unless worse or milder), remedy, acceptance. */
export type Found = Pick<Finding, 'at' | 'points' | 'text'> &
  Partial<Pick<Finding, 'numbers' | 'limit' | 'state' | 'severity' | 'remedy'>>;

export interface Check {
  readonly code: string;
  readonly severity: Severity;
  readonly remedy: string;
  find(subject: Case): Iterable<Found>;
}
