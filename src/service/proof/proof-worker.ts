// The thread that proves: takes a record and a job, gives the answer back.
// It must not keep anything but the models it was asked about last.

import type { ProofSubject } from '../ports/proof-work.js';
import { doProof, type ProofJob } from './proof-job.js';
import { modelsBySubject } from './work-here.js';

const modelOf = modelsBySubject();

export default function prove({ subject, job }: { readonly subject: ProofSubject; readonly job: ProofJob }): unknown {
  return doProof(modelOf(subject), job, () => performance.now());
}
