// How long each plan takes on a harness, on a fresh model as a person would ask for it.
// It must not time a plan that is refused: what stands is accepted by name first.

import { findMistakes } from '../../../src/core/answers/findings/find-mistakes.js';
import { buildModel } from '../../../src/core/answers/model.js';
import { buildPlan, type PlanQuestion } from '../../../src/core/answers/plans/build-plan.js';
import { severestFindings } from '../../../src/core/answers/plans/plan-parts.js';
import { parseRecord } from '../../../src/core/record/parse-record.js';
import type { HarnessRecord } from '../../../src/core/record/record.js';

export interface PlanTime {
  readonly plan: string;
  readonly ms: number;
  /** Time of the processor alone: what a quiet machine would take. */
  readonly cpuMs: number;
  readonly steps: number;
}

const QUESTIONS: readonly PlanQuestion[] = [
  { kind: 'continuity' },
  { kind: 'isolation', kit: 'two-leads' },
  { kind: 'isolation', kit: 'one-tie-bar' },
  { kind: 'isolation', kit: 'two-tie-bars' },
  { kind: 'voltage-drop' },
  { kind: 'first-power' },
  { kind: 'parasitic-draw' },
];

/** The first plan of a model bears the search for findings; it is timed by itself. Code is warmed up on a small harness by the caller. */
export function planTimes(record: HarnessRecord): PlanTime[] {
  const model = buildModel(accepted(record));
  const times: PlanTime[] = [timed('findings before any plan', () => severestFindings(model).length)];
  for (const question of QUESTIONS) {
    const name = question.kind === 'isolation' ? `isolation, ${question.kit}` : question.kind;
    times.push(timed(name, () => buildPlan(model, question).steps.length));
  }
  return times;
}

function timed(plan: string, build: () => number): PlanTime {
  const cpu = process.cpuUsage();
  const start = performance.now();
  const steps = build();
  const ms = performance.now() - start;
  const { user, system } = process.cpuUsage(cpu);
  return { plan, ms, cpuMs: (user + system) / 1000, steps };
}

function accepted(record: HarnessRecord): HarnessRecord {
  const standing = findMistakes(buildModel(record), undefined, false).standing.concat(
    severestFindings(buildModel(record)),
  );
  const parsed = parseRecord({
    ...record,
    acceptedFindings: standing
      .filter(({ severity }) => severity === 'danger')
      .slice(0, 2_000)
      .map(({ code, at }) => ({ code, at, reason: 'accepted for the measurement' })),
  });
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.issues.slice(0, 3)));
  return parsed.record;
}
