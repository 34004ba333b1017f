// A hunt that ends at leads which no hand may touch: the stretch is named, not called unknown.
// It must not lean on how the answers are drawn.

import { describe, expect, it } from 'vitest';
import { Hunt } from '../../../src/core/diagnosis/hunt.js';
import type { HuntEntry } from '../../../src/core/diagnosis/shapes/hunt.js';
import { FaultyVehicle } from '../../support/faulty-vehicle.js';
import { fixtureModel } from '../../support/fixture-model.js';
import { seededRandom } from '../../support/random.js';

describe('an ignition driver of the Tern whose contact comes and goes', () => {
  const model = fixtureModel('tern');
  const state = 'Cranking';
  const element = 'M1:IGN';

  it('is named with its stretch, and never probed, pulled or moved', () => {
    const fault = {
      changes: [{ kind: 'open', element } as const],
      elements: [element],
      curedBy: null,
      fuseLook: null,
      isIntermittent: true,
    };
    const vehicle = new FaultyVehicle(model, [fault], seededRandom(982));
    const hunt = new Hunt(model, { profile: 'in-service', instruments: {} });
    const symptom = { kind: 'function', function: 'E36', state, report: 'comes-and-goes' } as const;
    const log: HuntEntry[] = [{ id: 's1', kind: 'symptom', symptom }];
    let view = hunt.assess(log).view;
    for (let step = 0; view.next !== null && step < 25; step++) {
      const { check } = view.next;
      expect(JSON.stringify(check)).not.toContain('M1/IGN');
      log.push({ id: `e${step}`, kind: 'reading', check, result: vehicle.answer(check) });
      view = hunt.assess(log).view;
    }
    expect(view.verdict?.kind).toBe('group');
    expect(view.suspects[0].sites.map(({ repair }) => repair)).toContain('remake M1:IGN');
    // The trade leaves high-voltage ignition circuits to the maker's procedure (common practice).
    expect(view.verdict?.sentence).not.toContain('not wired as recorded');
  }, 60_000);
});
