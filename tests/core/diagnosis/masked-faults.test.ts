// Two faults in one circuit, one behind the other: a dead bulb behind a contact that is open as well, two joints in one feed.
// It must not pick vehicles by luck: each pair is led on several that scatter differently.

import { describe, expect, it } from 'vitest';
import type { Change } from '../../../src/core/circuit/solution.js';
import { Hunt } from '../../../src/core/diagnosis/hunt.js';
import { createPredictor } from '../../../src/core/diagnosis/predictor.js';
import { FaultyVehicle, type HiddenFault, noFault } from '../../support/faulty-vehicle.js';
import { fixtureModel } from '../../support/fixture-model.js';
import { leadToCure } from '../../support/lead-to-cure.js';
import { seededRandom } from '../../support/random.js';

const hide = (change: Change, element: string, repair: string, curedBy: string | null = null): HiddenFault => ({
  ...noFault,
  changes: [change],
  elements: [element],
  curedBy,
  repair,
});
const open = (element: string): HiddenFault => hide({ kind: 'open', element }, element, `remake ${element}`);
const dull = (element: string, ohms: number): HiddenFault =>
  hide({ kind: 'series', element, ohms }, element, `remake ${element}`);
const burntOut = (bulb: string, filament: string): HiddenFault =>
  hide({ kind: 'open', element: filament }, filament, `replace ${bulb}`, bulb);

function lead(fixture: string, fn: string, state: string, hidden: readonly HiddenFault[], seed: number) {
  const model = fixtureModel(fixture);
  const vehicle = new FaultyVehicle(model, hidden, seededRandom(seed));
  const hunt = new Hunt(model, { profile: 'in-service', instruments: { breakOutLeads: true } }, createPredictor(model));
  return leadToCure(hunt, vehicle, [{ kind: 'function', function: fn, state, report: 'dead' }]);
}

describe('one fault behind another', () => {
  it.each([1, 2, 3])(
    'a burnt-out stop filament behind an open plug contact: not something that comes and goes (%i)',
    (seed) => {
      const led = lead('trailer', 'E4:stop', 'All lamps', [burntOut('E4', 'E4:stop'), open('X3:4')], seed);
      expect(led.ended).toBe('cured');
      expect(led.repairs.filter(({ isRight }) => !isRight)).toEqual([]);
      expect(led.checks).toBeLessThanOrEqual(20);
    },
  );

  it.each([1, 2, 3])(
    'two dull contacts in one feed: what is left is reckoned with what was mended, whatever its ohms (%i)',
    (seed) => {
      const led = lead('bench-board', 'E1', 'Lamp on, battery low', [dull('K1:30', 76), dull('E1:feed', 53)], seed);
      expect(led.ended).toBe('cured');
      expect(led.repairs.filter(({ isRight }) => !isRight).length).toBeLessThanOrEqual(1);
    },
  );
});
