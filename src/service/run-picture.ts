// A run as a person reads it: how far it is, what fails, and how each joint has changed since the baseline.
// It must not read stores.

import { type Drift, driftOf, type KeptValue } from '../core/answers/plans/drift.js';
import type { Plan } from '../core/answers/shapes/plans.js';
import type { KeptReading, RunHead, StoredRun } from './ports/run-store.js';

/** A drift with names of the service's own: what was read then is the baseline's. */
export type JointDrift = Omit<Drift, 'then'> & { readonly baseline: number | null };

export interface RunCounts {
  readonly steps: number;
  readonly read: number;
  readonly passed: number;
  readonly failed: number;
}

export type ListedRun = Omit<RunHead, 'harness' | 'readings'> & { readonly counts: RunCounts };

export interface RunPicture extends ListedRun {
  /** The harness has a newer revision than the plan. */
  readonly recordHasChanged: boolean;
  readonly readings: readonly KeptReading[];
  /** The run that this one is held against; null: this is it, or there is none. */
  readonly baseline: Pick<RunHead, 'id' | 'revision' | 'startedAt' | 'who'> | null;
  /** Worst first. */
  readonly drifts: readonly JointDrift[];
  readonly plan: Plan;
}

export function listedRun({ harness: _, readings, ...head }: RunHead): ListedRun {
  return { ...head, counts: countsOf(head.steps, readings) };
}

export function runPicture(run: StoredRun, baseline: StoredRun | null, newest: number): RunPicture {
  const { plan, ...head } = run;
  return {
    ...listedRun(head),
    recordHasChanged: newest !== run.revision,
    readings: run.readings,
    baseline: baseline === null ? null : headOf(baseline),
    drifts: driftsOf(run, baseline),
    plan,
  };
}

/** How the readings of `run` have moved from those of the baseline that passed or had no limit. */
export function driftsOf(run: StoredRun, baseline: StoredRun | null): readonly JointDrift[] {
  if (baseline === null) return [];
  const then = valuesOf(baseline, (reading) => reading.passes !== false);
  return driftOf(
    then,
    valuesOf(run, () => true),
  ).map(({ then: before, ...drift }) => ({ ...drift, baseline: before }));
}

export function countsOf(steps: number, readings: readonly KeptReading[]): RunCounts {
  const last = [...lastReadings(readings).values()];
  return {
    steps,
    read: last.length,
    passed: last.filter(({ passes }) => passes === true).length,
    failed: last.filter(({ passes }) => passes === false).length,
  };
}

function valuesOf({ plan, readings }: StoredRun, isTaken: (reading: KeptReading) => boolean): KeptValue[] {
  const last = lastReadings(readings);
  return plan.steps.flatMap(({ id, unit, most }) => {
    const reading = last.get(id);
    if (reading === undefined || unit === null || !isTaken(reading)) return [];
    return [{ step: id, value: reading.value, unit, most }];
  });
}

/** Of each step the reading that counts: the last one. */
function lastReadings(readings: readonly KeptReading[]): ReadonlyMap<string, KeptReading> {
  return new Map(readings.map((reading) => [reading.step, reading]));
}

const headOf = ({ id, revision, startedAt, who }: StoredRun) => ({ id, revision, startedAt, who });
