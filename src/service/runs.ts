// Use cases of a run of a test plan: begin one, take readings against it, keep one as the baseline. Judged at once, kept for good.
// It must not lose a reading that was kept, nor keep one that does not fit its step.

import { judgeReading } from '../core/answers/plans/judge-reading.js';
import { refusal } from './errors.js';
import type { Harnesses } from './harnesses.js';
import type { Clock } from './ports/clock.js';
import type { KeptReading, RunHead, RunStore, StoredRun } from './ports/run-store.js';
import type { PlanFields } from './proof/proof-job.js';
import type { Proving } from './proving.js';
import {
  countsOf,
  driftsOf,
  type JointDrift,
  type ListedRun,
  listedRun,
  type RunCounts,
  type RunPicture,
  runPicture,
} from './run-picture.js';

/** What the meter showed, or what was seen at a step without a meter. */
export type TakenReading =
  | { readonly value: number | 'OL'; readonly unit: string }
  | { readonly seen: 'as-expected' | 'otherwise' };

export interface ReadingEntry {
  /** Chosen by the sender; the same id again adds nothing. */
  readonly id: string;
  readonly step: string;
  readonly reading: TakenReading;
  readonly note: string | null;
  /** Null: when it arrives. */
  readonly takenAt: string | null;
  /** Kept although the harness has been changed since the plan was made. */
  readonly forOlderRevision: boolean;
}

export interface JudgedReading {
  readonly reading: KeptReading;
  /** Against the baseline; null: the baseline has no good reading of this step. */
  readonly drift: JointDrift | null;
  readonly counts: RunCounts;
}

export interface Runs {
  /** Makes the plan and keeps it. The same id again gives the run that is there. Throws what `Proving.plan` throws, and `revision-stale`. */
  start(harness: string, expected: number, run: { id: string; who: string; plan: PlanFields }): Promise<RunPicture>;
  list(harness: string): Promise<readonly ListedRun[]>;
  /** Throws `harness-not-found`, `run-not-found`. */
  get(harness: string, run: string): Promise<RunPicture>;
  /** Throws also `reading-invalid`, `revision-stale`, `plan-outdated`. */
  read(harness: string, run: string, expected: number, entry: ReadingEntry): Promise<JudgedReading>;
  makeBaseline(harness: string, run: string): Promise<RunPicture>;
}

export interface RunsDependencies {
  readonly runs: RunStore;
  readonly harnesses: Harnesses;
  readonly proving: Proving;
  readonly clock: Clock;
}

export function createRuns({ runs, harnesses, proving, clock }: RunsDependencies): Runs {
  const found = async (harness: string, id: string): Promise<StoredRun> => {
    const run = await runs.get(harness, id);
    if (run !== null) return run;
    await harnesses.head(harness);
    throw refusal('run-not-found', { run: id });
  };

  const baselineOf = async (run: RunHead): Promise<StoredRun | null> => {
    if (run.isBaseline) return null;
    const like = (await runs.list(run.harness)).find(
      ({ isBaseline, kind, kit }) => isBaseline && kind === run.kind && kit === run.kit,
    );
    return like === undefined ? null : runs.get(run.harness, like.id);
  };

  const picture = async (run: StoredRun): Promise<RunPicture> =>
    runPicture(run, await baselineOf(run), (await harnesses.head(run.harness)).revision);

  /** Throws `revision-stale` with what changed, unless the newest revision is the expected one. */
  const expectNewest = async (harness: string, expected: number): Promise<void> => {
    const { revision } = await harnesses.head(harness);
    if (revision !== expected) await harnesses.edit(harness, expected, [], null);
  };

  return {
    async start(harness, expected, { id, who, plan: fields }) {
      const known = await runs.get(harness, id);
      if (known !== null) return picture(known);
      await expectNewest(harness, expected);
      const { value: plan } = await proving.plan({ harness, revision: expected }, fields);
      return picture(await runs.create({ id, harness, revision: expected, startedAt: clock(), who, plan }));
    },

    async list(harness) {
      await harnesses.head(harness);
      return (await runs.list(harness)).map(listedRun);
    },

    get: async (harness, id) => picture(await found(harness, id)),

    async read(harness, id, expected, entry) {
      const run = await found(harness, id);
      const known = run.readings.find((reading) => reading.id === entry.id);
      if (known === undefined) {
        const { revision } = await harnesses.head(harness);
        if (!entry.forOlderRevision) {
          await expectNewest(harness, expected);
          if (run.revision !== revision) await refuseOutdated(harnesses, run, revision);
        }
      }
      const kept = known === undefined ? await runs.append(harness, id, judged(run, entry, clock())) : run;
      const reading = kept?.readings.find((it) => it.id === entry.id);
      if (kept === null || reading === undefined) throw refusal('run-not-found', { run: id });
      const drift = driftsOf(kept, await baselineOf(kept)).find(({ step }) => step === reading.step);
      return { reading, drift: drift ?? null, counts: countsOf(kept.steps, kept.readings) };
    },

    async makeBaseline(harness, id) {
      await found(harness, id);
      const run = await runs.makeBaseline(harness, id);
      if (run === null) throw refusal('run-not-found', { run: id });
      return picture(run);
    },
  };
}

async function refuseOutdated(harnesses: Harnesses, run: StoredRun, current: number): Promise<never> {
  const { differences } = await harnesses.compare(run.harness, run.revision, current);
  const told = { planRevision: run.revision, current };
  throw refusal('plan-outdated', told, { currentRevision: current, differences });
}

/** The entry as it is kept. Throws `reading-invalid` with what does not fit and what is accepted. */
function judged(run: StoredRun, entry: ReadingEntry, now: string): KeptReading {
  const { id, step, reading, note } = entry;
  const kept = { id, step, note, takenAt: entry.takenAt ?? now, addedAt: now };
  if ('seen' in reading) {
    const planned = run.plan.steps.find((it) => it.id === step);
    if (planned === undefined)
      throw invalid('unknown-step', '/step', step, 'the plan has no such step', 'the id of a step of this plan');
    if (planned.unit !== null)
      throw invalid(
        'wrong-unit',
        '/reading',
        reading.seen,
        `the step is read in ${planned.unit}`,
        `a value in ${planned.unit}`,
      );
    return {
      ...kept,
      typed: reading.seen,
      value: null,
      passes: reading.seen === 'as-expected',
      isAbovePrediction: false,
    };
  }
  const judgement = judgeReading(run.plan, { step, ...reading });
  if (!judgement.ok) {
    const { code, field, value, reason, accepted } = judgement.issue;
    throw invalid(code, field === 'step' ? '/step' : `/reading/${field}`, value, reason, accepted);
  }
  const typed = reading.value === 'OL' ? 'OL' : `${reading.value} ${reading.unit.trim()}`;
  return { ...kept, typed, ...judgement.judged };
}

function invalid(code: string, path: string, value: unknown, reason: string, accepted: string) {
  return refusal('reading-invalid', { count: 1 }, { issues: [{ code, path, value, reason, accepted }] });
}
