// Where the long work of proving is done: findings, plans, sneak searches; in this thread, or in one that can be stopped.
// It must not know what the work finds.

import type { HarnessRecord } from '../../core/record/record.js';
import type { ProofJob, ProofResult } from '../proof/proof-job.js';

export interface ProofSubject {
  /** Two subjects of one key hold one record. */
  readonly key: string;
  readonly record: HarnessRecord;
}

export interface ProofWork {
  /** Rejects with `answer-too-slow` where the work can be stopped and was not ready within `deadlineMs`. */
  run<J extends ProofJob>(subject: ProofSubject, job: J, deadlineMs: number): Promise<ProofResult<J>>;
  close(): Promise<void>;
}
