// The operations of proving that the page uses. Only this file knows their addresses.
// It must not judge what comes back.

import { path, type RequestOptions, type Result, request } from '../api/http.js';
import type { SavedHarness } from '../api/types.js';
import type { components } from '../api-types.js';
import { newEntryId, sendOrKeep } from '../state/outbox.js';

type Schemas = components['schemas'];
export type Findings = Schemas['Findings'];
export type Finding = Findings['standing'][number];
export type Plan = Schemas['Plan'];
export type PlanStep = Plan['steps'][number];
export type PlanKind = Plan['kind'];
export type Kit = NonNullable<Plan['kit']>;
export type Sneaks = Schemas['Sneaks'];
export type Run = Schemas['Run'];
export type ListedRun = Schemas['RunList']['runs'][number];
export type KeptReading = Schemas['KeptReading'];
export type JudgedReading = Schemas['JudgedReading'];
export type Drift = Schemas['Drift'];

/** Which plan: the kind, and the kit where there is a choice. */
export type PlanChoice =
  | { readonly kind: Exclude<PlanKind, 'isolation'> }
  | { readonly kind: 'isolation'; readonly kit: Kit };
export type Taken =
  | { readonly value: number | 'OL'; readonly unit: 'V' | 'Ω' | 'A' }
  | { readonly seen: 'as-expected' | 'otherwise' };

type Signal = Pick<RequestOptions, 'signal'>;
const at = (harness: string, ...rest: readonly string[]): string => path(['harnesses', harness, ...rest]);
const tag = (revision: number): string => `"${revision}"`;

export const getFindings = (harness: string, options: Signal): Promise<Result<Findings>> =>
  request('GET', at(harness, 'findings'), options);

const named = ({ code, at: addresses }: { code: string; at: readonly string[] }) => ({ code, at: addresses });

export const acceptFinding = (
  harness: string,
  revision: number,
  finding: Finding,
  reason: string,
): Promise<Result<SavedHarness>> =>
  request('POST', at(harness, 'findings', 'accept'), {
    body: { ...named(finding), reason },
    ifMatch: tag(revision),
  });

export const withdrawAcceptance = (
  harness: string,
  revision: number,
  finding: { code: string; at: readonly string[] },
): Promise<Result<SavedHarness>> =>
  request('POST', at(harness, 'findings', 'withdraw'), { body: named(finding), ifMatch: tag(revision) });

export const askPlan = (harness: string, plan: PlanChoice, options: Signal): Promise<Result<Plan>> =>
  request('POST', at(harness, 'plans'), { ...options, body: plan });

export const askSneaks = (harness: string, options: Signal): Promise<Result<Sneaks>> =>
  request('POST', at(harness, 'sneaks'), { ...options, body: {} });

export const listRuns = (harness: string, options: Signal): Promise<Result<{ runs: readonly ListedRun[] }>> =>
  request('GET', at(harness, 'runs'), options);

export const getRun = (harness: string, run: string, options: Signal): Promise<Result<Run>> =>
  request('GET', at(harness, 'runs', run), options);

export const startRun = (
  harness: string,
  revision: number,
  body: { id: string; who: string; plan: PlanChoice },
): Promise<Result<Run>> => request('POST', at(harness, 'runs'), { body, ifMatch: tag(revision) });

export const makeBaseline = (harness: string, run: string): Promise<Result<Run>> =>
  request('POST', at(harness, 'runs', run, 'baseline'));

export interface TakenEntry {
  readonly id: string;
  readonly step: string;
  readonly reading: Taken;
  readonly takenAt: string;
  readonly forOlderRevision?: boolean;
}

/** A reading with an id and the time of now. */
export const takenNow = (step: string, reading: Taken): TakenEntry => ({
  id: newEntryId(),
  step,
  reading,
  takenAt: new Date().toISOString(),
});

/** Null: kept on this device, and sent when the server is back. */
export const sendReading = (
  harness: string,
  run: Pick<Run, 'id' | 'revision'>,
  entry: TakenEntry,
  words: string,
): Promise<Result<JudgedReading> | null> =>
  sendOrKeep({
    id: entry.id,
    path: at(harness, 'runs', run.id, 'readings'),
    body: entry,
    // Sent late it was taken on the harness as it was then, whatever has been changed since.
    lateBody: { ...entry, forOlderRevision: true },
    ifMatch: tag(run.revision),
    words,
    enteredAt: entry.takenAt,
  });
