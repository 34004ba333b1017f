// Does the work of proving in the thread that asks: for tests, and where no other thread can be had.
// It must not promise a deadline: nothing here can be stopped from outside.

import { buildModel, type Model } from '../../core/answers/model.js';
import { LeastRecent } from '../least-recent.js';
import type { ProofSubject, ProofWork } from '../ports/proof-work.js';
import { doProof } from './proof-job.js';

const modelsKept = 4;

/** Models by the key of their subject, so that what was found once for one of them serves the next question too. */
export function modelsBySubject(): (subject: ProofSubject) => Model {
  const kept = new LeastRecent<string, Model>(modelsKept);
  return ({ key, record }) => {
    const model = kept.get(key) ?? buildModel(record);
    kept.set(key, model);
    return model;
  };
}

export function workHere(stopwatch: () => number): ProofWork {
  const modelOf = modelsBySubject();
  return {
    run: async (subject, job) => doProof(modelOf(subject), job, stopwatch),
    close: async () => {},
  };
}
