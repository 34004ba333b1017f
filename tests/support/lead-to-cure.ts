// Leads a hunt through repair after repair: checks as asked, mends what is named, looks again at what was complained of, goes on.
// It must not help the diagnosis with anything that a person would not know.

import type { Hunt } from '../../src/core/diagnosis/hunt.js';
import type { HuntEntry, HuntView } from '../../src/core/diagnosis/shapes/hunt.js';
import type { Symptom } from '../../src/core/diagnosis/shapes/symptom.js';
import type { FaultyVehicle } from './faulty-vehicle.js';

export interface CuredHunt {
  /** Kind of the last verdict. */
  readonly ended: string;
  readonly checks: number;
  /** Keys of each repair in turn, and whether something was wrong there. */
  readonly repairs: readonly { readonly keys: readonly string[]; readonly isRight: boolean }[];
}

type FunctionSymptom = Extract<Symptom, { kind: 'function' }>;

export function leadToCure(
  hunt: Hunt,
  vehicle: FaultyVehicle,
  symptoms: readonly FunctionSymptom[],
  mostChecks = 40,
  onView: (view: HuntView) => void = () => {},
): CuredHunt {
  const log: HuntEntry[] = symptoms.map((symptom, i) => ({ id: `s${i}`, kind: 'symptom', symptom }));
  const repairs: { keys: string[]; isRight: boolean }[] = [];
  let checks = 0;
  for (;;) {
    const { view } = hunt.assess(log);
    onView(view);
    const id = `e${log.length}`;
    if (view.next !== null) {
      if (checks >= mostChecks) return { ended: 'too many checks', checks, repairs };
      checks += 1;
      log.push({ id, kind: 'reading', check: view.next.check, result: vehicle.answer(view.next.check) });
      continue;
    }
    const named = view.suspects.find((suspect) => suspect.id === view.verdict?.suspects[0]);
    if (view.verdict?.repair === null || named === undefined)
      return { ended: view.verdict?.kind ?? 'nothing said', checks, repairs };
    const keys = named.sites.map(({ repair }) => repair);
    repairs.push({ keys, isRight: vehicle.mend(({ repair }) => keys.includes(repair ?? '')) });
    log.push({ id, kind: 'repair', repairs: keys });
    const seen = symptoms.map(({ function: fn, state }): Symptom => {
      const condition = vehicle.condition(fn, state);
      return { kind: 'function', function: fn, state, report: condition === 'reversed' ? 'runs-backwards' : condition };
    });
    log.push({ id: `p${log.length}`, kind: 'proof', symptoms: seen });
  }
}
