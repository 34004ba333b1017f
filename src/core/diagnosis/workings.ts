/**
 * What a hunt has worked out from its log: facts, probabilities, groups, checks that could be done, and the plan over them.
 * Types only.
 */
import type { Candidate } from './candidates.js';
import type { SuspectGroup } from './groups.js';
import type { HuntFacts } from './hunt-log.js';
import type { Plan } from './plan-table.js';
import type { Posterior } from './suspects.js';

export interface Workings {
  readonly facts: HuntFacts;
  readonly posterior: Posterior;
  readonly groups: readonly SuspectGroup[];
  readonly candidates: readonly Candidate[];
  readonly plan: Plan;
}
