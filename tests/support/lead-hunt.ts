// Leads a whole hunt against a faulty vehicle: report, checks as proposed, repair as told, proof. For tests and benchmarks.
// It must not help the diagnosis with anything that a person would not know.

import type { Model } from '../../src/core/answers/model.js';
import { Hunt, type HuntOptions } from '../../src/core/diagnosis/hunt.js';
import type { Predictor } from '../../src/core/diagnosis/predictor.js';
import type { CheckResult, StateChoice } from '../../src/core/diagnosis/shapes/check.js';
import type { HuntEntry, HuntView, ProposedCheck } from '../../src/core/diagnosis/shapes/hunt.js';
import type { Symptom } from '../../src/core/diagnosis/shapes/symptom.js';
import type { Workings } from '../../src/core/diagnosis/workings.js';
import type { FaultyVehicle } from './faulty-vehicle.js';

export interface HuntStep {
  readonly check: ProposedCheck;
  readonly result: CheckResult;
  readonly workings: Workings | null;
}

export interface LedHunt {
  readonly log: readonly HuntEntry[];
  readonly steps: readonly HuntStep[];
  readonly last: HuntView;
  readonly lastWorkings: Workings | null;
  readonly minutes: number;
}

export interface LeadOptions extends HuntOptions {
  readonly mostSteps?: number;
  readonly predictor?: Predictor;
  /** Alters an answer: slips of the operator. Null: cannot reach. */
  readonly disturb?: (check: ProposedCheck, result: CheckResult) => CheckResult | null;
}

/** What a person reports of a complaint; `works` for others seen in the same state. */
export function reports(
  vehicle: FaultyVehicle,
  state: StateChoice,
  complaint: string,
  others: readonly string[],
): Symptom[] {
  return [complaint, ...others].map((id): Symptom => {
    const seen = vehicle.condition(id, state);
    return { kind: 'function', function: id, state, report: seen === 'reversed' ? 'runs-backwards' : seen };
  });
}

/** Follows every proposal until a verdict, at most `mostSteps` checks. */
export function leadHunt(
  model: Model,
  vehicle: FaultyVehicle,
  symptoms: readonly Symptom[],
  { mostSteps = 40, predictor, disturb, ...options }: LeadOptions,
): LedHunt {
  const hunt = new Hunt(model, options, predictor);
  const log: HuntEntry[] = symptoms.map((symptom, i) => ({ id: `s${i + 1}`, kind: 'symptom', symptom }));
  const steps: HuntStep[] = [];
  let minutes = 0;
  for (;;) {
    const { view, workings } = hunt.assess(log);
    if (view.next === null || steps.length >= mostSteps)
      return { log, steps, last: view, lastWorkings: workings, minutes };
    const check = view.next;
    const fair = vehicle.answer(check.check);
    const result = disturb === undefined ? fair : disturb(check, fair);
    if (result === null) {
      const place = check.red?.point ?? check.place?.point;
      if (place === undefined) throw new Error('nothing to reach');
      log.push({ id: `e${log.length}`, kind: 'cannot-reach', place });
      continue;
    }
    minutes += check.why.minutes;
    steps.push({ check, result, workings });
    log.push({ id: `e${log.length}`, kind: 'reading', check: check.check, result });
  }
}
