// Whole hunts with a hidden fault on small harnesses: the right group is found, the true fault is never ruled out, nothing forbidden is proposed.

import { describe, expect, it } from 'vitest';
import { isForbidden } from '../../../src/core/answers/cautions.js';
import { placesOf } from '../../../src/core/diagnosis/candidates.js';
import { createPredictor } from '../../../src/core/diagnosis/predictor.js';
import { FaultyVehicle, type HiddenFault, noFault } from '../../support/faulty-vehicle.js';
import { fixtureModel } from '../../support/fixture-model.js';
import { leadHunt, reports } from '../../support/lead-hunt.js';
import { seededRandom } from '../../support/random.js';

const model = fixtureModel('bench-board');
const predictor = createPredictor(model);
const options = { profile: 'in-service', instruments: { breakOutLeads: true }, predictor } as const;
const open = (element: string): HiddenFault => ({
  ...noFault,
  changes: [{ kind: 'open', element }],
  elements: [element],
});
const dull = (element: string, ohms: number): HiddenFault => ({
  ...noFault,
  changes: [{ kind: 'series', element, ohms }],
  elements: [element],
});

function hunt(hidden: HiddenFault, seed: number) {
  const vehicle = new FaultyVehicle(model, [hidden], seededRandom(seed));
  vehicle.lookState = 'Lamp on';
  return leadHunt(model, vehicle, reports(vehicle, 'Lamp on', 'E1', []), options);
}

describe('hunts on the bench board', () => {
  it.each([
    ['wire W7 broken', open('W7'), 'W7'],
    ['fuse F1 contact out', open('F1:out'), 'F1:out'],
    ['relay coil return off', open('K1:85'), 'K1:85'],
    ['ground joint dull', dull('G1:joint', 4.1), 'G1:joint'],
    ['plug contact dull', dull('X1:1', 7.7), 'X1:1'],
    ['crimp at the lamp off', open('W8@E1/feed'), 'W8@E1/feed'],
  ])('%s', (_, hidden, element) => {
    const led = hunt(hidden, 11);
    expect(led.last.status).toBe('ended');
    const [id] = led.last.verdict?.suspects ?? [];
    const group = led.lastWorkings?.groups.find((it) => it.id === id);
    expect(group?.sites.map(({ repair }) => repair)).toContain(`remake ${element}`);
    for (const { workings } of led.steps) {
      const home = workings?.groups.find(({ sites }) => sites.some(({ repair }) => repair === `remake ${element}`));
      expect(home?.probability ?? 0).toBeGreaterThan(0.001);
    }
  });

  it('says that nothing is wrong when the lamp works after all', () => {
    const vehicle = new FaultyVehicle(model, [noFault], seededRandom(3));
    const led = leadHunt(
      model,
      vehicle,
      [{ kind: 'function', function: 'E1', state: 'Lamp on', report: 'dead' }],
      options,
    );
    expect(led.last.verdict?.kind).toBe('nothing-wrong');
    // Seen to work, it is moved about at each place that could come and go; nothing is unplugged or replaced for it.
    expect(led.steps.length).toBeLessThanOrEqual(8);
    for (const { check } of led.steps.slice(1)) expect(['wiggle', 'observe', 'volts']).toContain(check.check.kind);
  });

  it('calls it as designed when the record itself says dead: the switch is off', () => {
    const vehicle = new FaultyVehicle(model, [noFault], seededRandom(3));
    const led = leadHunt(model, vehicle, [{ kind: 'function', function: 'E1', state: 'Off', report: 'dead' }], options);
    expect(led.last.verdict?.kind).toBe('as-designed');
  });

  it('asks again when one reading contradicts the rest, and still ends right', () => {
    const vehicle = new FaultyVehicle(model, [open('W7')], seededRandom(7));
    let [slipped, asked] = [false, 0];
    const led = leadHunt(model, vehicle, reports(vehicle, 'Lamp on', 'E1', []), {
      ...options,
      disturb: (check, result) => {
        if (check.why.method === 'doubt') asked += 1;
        if (slipped || check.check.kind !== 'volts' || check.check.red !== 'E1/return') return result;
        slipped = true;
        return { kind: 'number', value: 6.3 };
      },
    });
    expect(slipped).toBe(true);
    expect(asked).toBeGreaterThan(0);
    const group = led.lastWorkings?.groups.find(({ id }) => id === led.last.verdict?.suspects[0]);
    expect(group?.sites.map(({ repair }) => repair)).toContain('remake W7');
  });

  it('proposes nothing at a point that may not be probed', () => {
    for (const { check, workings } of hunt(open('W7'), 1).steps) {
      for (const point of placesOf(model, check.check)) {
        expect(isForbidden(model.graph.points.get(point)?.marks ?? [])).toBe(false);
      }
      expect(workings?.candidates.every((candidate) => candidate.minutes > 0)).toBe(true);
    }
  });
});
