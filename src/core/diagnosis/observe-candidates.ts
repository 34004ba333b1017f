/**
 * Functions worth a look: they cost nothing but a glance, and what still works clears whatever they share with the suspect.
 * It must not touch a meter.
 */
import type { Condition } from '../answers/shapes/common.js';
import type { LoadFunction } from '../graph/element.js';
import type { Live } from './live.js';
import type { Check, StateChoice } from './shapes/check.js';
import type { Symptom } from './shapes/symptom.js';
import { statesToTry } from './states-to-try.js';
import type { Posterior } from './suspects.js';

/** Other states are looked at once few suspects are left: each of them must be worked out there first. */
const FEW_HYPOTHESES = 60;
const WORTH_A_LOOK = 0.01;

/** Functions whose condition would differ between live hypotheses, in the state of the complaint and a few others. */
export function observeCandidates(posterior: Posterior, live: Live): Check[] {
  const { inquiry } = posterior;
  const states: StateChoice[] = [inquiry.mainState];
  if (live.indices.length <= FEW_HYPOTHESES) states.push(...statesToTry(posterior, live));
  return states.flatMap((state) =>
    [...inquiry.model.graph.functions.values()]
      .filter((fn) => !isSettled(posterior, fn, state) && differs(posterior, live, fn, state))
      .map((fn): Check => ({ kind: 'observe', function: fn.id, state })),
  );
}

/**
 * Who has told how it is needs not be asked to look again, unless what is hunted comes and goes. What waits as another matter would only
 * show that other matter.
 */
function isSettled({ inquiry, evidence, aside }: Posterior, fn: LoadFunction, choice: StateChoice): boolean {
  const state = inquiry.resolve(choice);
  const isOf = (symptom: Symptom): boolean => symptom.kind === 'function' && symptom.function === fn.id;
  const mayDiffer = evidence.symptoms.some((it) => it.kind === 'function' && it.report === 'comes-and-goes');
  return (
    aside.some(isOf) || (!mayDiffer && evidence.symptoms.some((it) => isOf(it) && inquiry.resolve(it.state) === state))
  );
}

function differs({ inquiry, probabilities }: Posterior, live: Live, fn: LoadFunction, state: StateChoice): boolean {
  const shares = new Map<Condition, number>();
  for (const i of live.indices) {
    const condition = inquiry.view(inquiry.hypotheses[i], state).condition(fn);
    shares.set(condition, (shares.get(condition) ?? 0) + probabilities[i]);
  }
  return [...shares.values()].filter((share) => share > WORTH_A_LOOK).length > 1;
}
