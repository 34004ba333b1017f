// One whole hunt on the Tern, told step by step: the left stop lamp glows dimly, the right one works. Hidden: ground G5 has come loose.
// The vehicle answers by settling anew with scattered parts; it shares no prediction with the hunt.

import { describe, expect, it } from 'vitest';
import { FaultyVehicle, type HiddenFault } from '../../support/faulty-vehicle.js';
import { fixtureModel } from '../../support/fixture-model.js';
import { leadHunt, reports } from '../../support/lead-hunt.js';
import { seededRandom } from '../../support/random.js';

const model = fixtureModel('tern');
const looseGround: HiddenFault = {
  changes: [{ kind: 'open', element: 'G5:joint' }],
  elements: ['G5:joint'],
  curedBy: null,
  fuseLook: null,
  isIntermittent: false,
};

describe('a hunt on the Tern: left stop lamp weak', () => {
  const vehicle = new FaultyVehicle(model, [looseGround], seededRandom(5));
  const symptoms = reports(vehicle, 'Brake', 'E7:stop', ['E8:stop']);
  const led = leadHunt(model, vehicle, symptoms, { profile: 'in-service', instruments: { breakOutLeads: true } });

  it('starts from what a person sees: weak on the left, fine on the right', () => {
    expect(symptoms.map((symptom) => (symptom.kind === 'function' ? symptom.report : ''))).toEqual(['weak', 'works']);
  });

  it('confirms the complaint before anything is taken apart (common practice)', () => {
    expect(led.steps[0].check.why.method).toBe('confirm');
  });

  it('looks at a lamp that should be dark: a lost shared ground feeds back through it (common practice)', () => {
    const second = led.steps[1].check.check;
    expect(second.kind).toBe('observe');
    expect(led.steps[1].check.healthy.word).toBe('dead');
  });

  it('then reads volts on the ground side with the load on, black lead on the battery', () => {
    const volts = led.steps.flatMap(({ check }) => (check.check.kind === 'volts' ? [check.check] : []));
    expect(volts.length).toBeGreaterThan(0);
    for (const check of volts) expect(check.black).toBe('BAT1/neg');
    expect(volts.at(-1)?.red).toBe('G5');
  });

  it('names the bolted joint of G5 in few steps and says how to prove it', () => {
    expect(led.last.status).toBe('ended');
    expect(led.last.verdict?.kind).toBe('named');
    expect(led.last.verdict?.suspects).toEqual(['remake G5:joint']);
    expect(led.last.verdict?.proof.length).toBeGreaterThan(0);
    expect(led.steps.length).toBeLessThanOrEqual(8);
  });

  it('never lets the true fault fall below one in a thousand on the way', () => {
    for (const { workings } of led.steps) {
      const group = workings?.groups.find(({ sites }) => sites.some(({ repair }) => repair === 'remake G5:joint'));
      expect(group?.probability ?? 0).toBeGreaterThan(0.001);
    }
  });

  it('says of each check what it costs, what each outcome clears, and the cautions', () => {
    for (const { check } of led.steps) {
      expect(check.why.sentence).toMatch(
        /(Of \d+ places it leaves \d+ if .*|^See the complaint .*)\. About \d\.\d minutes/,
      );
      expect(check.outcomes.length).toBeGreaterThan(1);
      expect(check.cautions.at(-1)?.code).toBe('maker-first');
    }
  });

  it('ends cured once the repair is made and the lamp works', () => {
    vehicle.mend(({ elements }) => elements.includes('G5:joint'));
    const [seen] = reports(vehicle, 'Brake', 'E7:stop', []);
    expect(seen).toMatchObject({ report: 'works' });
  });
});
