// Does the work of proving in threads of its own, so that the server goes on answering, and ends what takes too long.
// It must not hold a thread that has nothing to do for long: a model can be large.

import { Piscina } from 'piscina';
import { refusal } from '../errors.js';
import type { ProofWork } from '../ports/proof-work.js';
import type { ProofJob, ProofResult } from './proof-job.js';

const idleMs = 60_000;

/** `worker` is the file of the thread, as built. */
export function proofPool(worker: string, threads: number): ProofWork {
  let pool: Piscina | null = null;
  return {
    async run<J extends ProofJob>(subject: Parameters<ProofWork['run']>[0], job: J, deadlineMs: number) {
      pool ??= new Piscina({ filename: worker, minThreads: 0, maxThreads: threads, idleTimeout: idleMs });
      const late = new AbortController();
      const timer = setTimeout(() => late.abort(), deadlineMs);
      try {
        return (await pool.run({ subject, job }, { signal: late.signal })) as ProofResult<J>;
      } catch (error) {
        if (late.signal.aborted) throw refusal('answer-too-slow', { deadlineMs }, {}, error);
        throw error;
      } finally {
        clearTimeout(timer);
      }
    },
    close: async () => pool?.destroy(),
  };
}
