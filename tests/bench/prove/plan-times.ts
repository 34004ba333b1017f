// How long each plan takes on a harness, on a fresh model as a person would ask for it.
// It must not time a plan that is refused: what stands is accepted by name first.

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

/** Addresses that one acceptance of the record may name; larger findings take several, each with the first address. */
const MOST_NAMED = 20;

function accepted(record: HarnessRecord): HarnessRecord {
  const entries = severestFindings(buildModel(record)).flatMap(({ code, at: [first, ...others] }) =>
    Array.from({ length: Math.max(1, Math.ceil(others.length / (MOST_NAMED - 1))) }, (_, i) => ({
      code,
      at: [first, ...others.slice(i * (MOST_NAMED - 1), (i + 1) * (MOST_NAMED - 1))],
      reason: 'accepted for the measurement',
    })),
  );
  const parsed = parseRecord({ ...record, acceptedFindings: [...(record.acceptedFindings ?? []), ...entries] });
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.issues.slice(0, 3)));
  return parsed.record;
}
