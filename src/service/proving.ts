// Use cases that prove: findings of a revision and their acceptance, test plans, sneak conduction.
// It must not judge anything itself, nor store more than the reason that a person gave.

import type { Finding, FindingsAnswer } from '../core/answers/shapes/findings.js';
import type { Plan } from '../core/answers/shapes/plans.js';
import type { SneaksAnswer } from '../core/answers/shapes/sneak.js';
import { normaliseAddress } from '../core/record/addresses.js';
import { shortList } from '../core/record/record-issue.js';
import { type Issue, refusal } from './errors.js';
import type { Harnesses, Saved } from './harnesses.js';
import { LeastRecent } from './least-recent.js';
import { createModelCache } from './model-cache.js';
import type { HarnessStore, StoredRevision } from './ports/harness-store.js';
import type { ProofWork } from './ports/proof-work.js';
import { type PlanFields, type ProofJob, type ProofResult, readPlan } from './proof/proof-job.js';
import type { FromRevision, RevisionChoice } from './questions.js';

/** A finding as a person names it: its code and the addresses that it is about. */
export interface NamedFinding {
  readonly code: string;
  readonly at: readonly string[];
}

export interface Proving {
  /** Throws `harness-not-found`, `revision-not-found`, `proof-too-large`, `answer-too-slow`. */
  findings(at: RevisionChoice): Promise<FromRevision<FindingsAnswer>>;
  /** Throws also `question-invalid`; `plan-refused` for a first power-up while findings of the highest severity stand. */
  plan(at: RevisionChoice, fields: PlanFields): Promise<FromRevision<Plan>>;
  sneaks(at: RevisionChoice, maxSolves: number): Promise<FromRevision<SneaksAnswer>>;
  /** Keeps the reason in the next revision of the record. Throws also `finding-not-found`, `revision-stale`. */
  accept(harness: string, expected: number, finding: NamedFinding, reason: string): Promise<Saved>;
  /** Takes an acceptance out again: the finding stands as before. */
  withdraw(harness: string, expected: number, finding: NamedFinding): Promise<Saved>;
}

export interface ProvingDependencies {
  readonly store: HarnessStore;
  readonly harnesses: Harnesses;
  readonly work: ProofWork;
  readonly deadlineMs: number;
  readonly cachedModels: number;
}

/** Answers kept for who asks the same again: some hundred kilobytes each. */
const answersKept = 24;
/** More than twice the largest harness that a person wires by hand; what is larger is proved unit by unit. */
export const mostWires = 10_000;
/** Plans run beside the server's own thread, so that nobody else waits: they may take so many times the deadline of an answer. */
const patience = 6;
/** Of the deadline, what a search may use before it tells what it has. */
const searchShare = 0.8;

export function createProving({ store, harnesses, work, deadlineMs, cachedModels }: ProvingDependencies): Proving {
  const models = createModelCache(store, cachedModels);
  const answered = new LeastRecent<string, Promise<unknown>>(answersKept);

  const prove = async <J extends ProofJob>(at: RevisionChoice, job: J): Promise<FromRevision<ProofResult<J>>> => {
    const stored = await harnesses.get(at.harness, at.revision);
    if (stored.wires > mostWires) throw refusal('proof-too-large', { wires: stored.wires, limit: mostWires });
    const key = `${at.harness} ${stored.revision} ${stored.savedAt}`;
    const question = `${key} ${JSON.stringify(job)}`;
    // The promise is kept: who asks while the answer is being worked out waits for the same one.
    const known = answered.get(question) as Promise<ProofResult<J>> | undefined;
    const answer = known ?? work.run({ key, record: stored.record }, job, patience * deadlineMs);
    answered.set(question, answer);
    try {
      return { revision: stored.revision, value: await answer };
    } catch (error) {
      answered.forget(question);
      throw error;
    }
  };

  const change = async (
    harness: string,
    expected: number,
    note: string,
    next: (stored: StoredRevision) => NonNullable<StoredRevision['record']['acceptedFindings']>,
  ): Promise<Saved> => {
    const stored = await harnesses.get(harness, expected);
    const acceptedFindings = next(stored);
    return harnesses.edit(harness, expected, [{ op: 'set-record', fields: { acceptedFindings } }], note);
  };

  return {
    findings: (at) => prove(at, { do: 'findings' }),

    async plan(at, plan) {
      // Names are read here, so that what is wrong with them is told at once and in full.
      readPlan((await models.get(at.harness, at.revision)).model, plan);
      const answer = await prove(at, { do: 'plan', plan });
      if (answer.value.refused === null) return answer;
      const issues = answer.value.first.map(asIssue);
      throw refusal('plan-refused', { count: issues.length }, { issues });
    },

    sneaks: (at, maxSolves) => prove(at, { do: 'sneaks', maxSolves, budgetMs: Math.round(deadlineMs * searchShare) }),

    async accept(harness, expected, finding, reason) {
      await current(harnesses, harness, expected);
      const { standing } = (await prove({ harness, revision: expected }, { do: 'findings' })).value;
      const found = standing.find((it) => isNamed(it, finding));
      if (found === undefined) throw notFound(finding, standing);
      const entry = { code: found.code, at: [...found.at], reason };
      const note = `Accepted ${found.code} at ${found.at[0]}: ${reason}`.slice(0, 400);
      return change(harness, expected, note, ({ record }) => [...(record.acceptedFindings ?? []), entry]);
    },

    async withdraw(harness, expected, finding) {
      const { record } = await current(harnesses, harness, expected);
      const entries = record.acceptedFindings ?? [];
      const wanted = new Set(finding.at.map(normaliseAddress));
      const left = entries.filter(
        (entry) => entry.code !== finding.code || !entry.at.some((address) => wanted.has(normaliseAddress(address))),
      );
      if (left.length === entries.length) throw notFound(finding, entries);
      return change(harness, expected, `Withdrew the acceptance of ${finding.code} at ${finding.at[0]}`, () => left);
    },
  };
}

/** The newest revision, which must be the expected one: with `revision-stale` the edit tells what changed. */
async function current(harnesses: Harnesses, harness: string, expected: number): Promise<StoredRevision> {
  const stored = await harnesses.get(harness);
  if (stored.revision !== expected) await harnesses.edit(harness, expected, [], null);
  return stored;
}

function isNamed(it: NamedFinding, { code, at }: NamedFinding): boolean {
  const [own, named] = [it.at, at].map((addresses) => new Set(addresses.map(normaliseAddress)));
  return it.code === code && own.size === named.size && [...own].every((address) => named.has(address));
}

function notFound({ code, at }: NamedFinding, there: readonly NamedFinding[]) {
  const accepted = there.length === 0 ? 'none: there are no such findings' : shortList(there.map(nameOf));
  const issue: Issue = {
    code: 'unknown-finding',
    path: '/at',
    value: nameOf({ code, at }),
    reason: 'no such finding here',
    accepted,
  };
  return refusal('finding-not-found', { finding: nameOf({ code, at }) }, { issues: [issue] });
}

const nameOf = ({ code, at }: NamedFinding): string => `${code} at ${at.join(', ')}`;

const asIssue = ({ code, at, text, remedy }: Finding): Issue => ({
  code,
  path: at.join(', '),
  value: at[0] ?? null,
  reason: text.replace(/\.$/, ''),
  accepted: remedy.replace(/\.$/, ''),
});
