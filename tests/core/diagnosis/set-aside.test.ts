// Two complaints at once on the trailer: of one matter where one fault explains both, of two where it would take two.
// It must not pick a fault by luck; vehicles scatter, and every answer is settled anew.

import { describe, expect, it } from 'vitest';
import { leadOf, sitesOf } from '../../../src/core/diagnosis/groups.js';
import { Hunt } from '../../../src/core/diagnosis/hunt.js';
import { createPredictor } from '../../../src/core/diagnosis/predictor.js';
import type { HuntEntry } from '../../../src/core/diagnosis/shapes/hunt.js';
import type { Symptom } from '../../../src/core/diagnosis/shapes/symptom.js';
import { FaultyVehicle, type HiddenFault, noFault } from '../../support/faulty-vehicle.js';
import { fixtureModel } from '../../support/fixture-model.js';
import { leadHunt } from '../../support/lead-hunt.js';
import { leadToCure } from '../../support/lead-to-cure.js';
import { seededRandom } from '../../support/random.js';

const model = fixtureModel('trailer');
const predictor = createPredictor(model);
const options = { profile: 'in-service', instruments: { breakOutLeads: true } } as const;
const STATE = 'All lamps';

const told = (fn: string, report: 'dead' | 'works') =>
  ({ kind: 'function', function: fn, state: STATE, report }) as const;
const entries = (symptoms: readonly Symptom[]): HuntEntry[] =>
  symptoms.map((symptom, i) => ({ id: `s${i}`, kind: 'symptom', symptom }));
const open = (element: string, repair: string, curedBy: string | null = null): HiddenFault => ({
  ...noFault,
  changes: [{ kind: 'open', element }],
  elements: [element],
  curedBy,
  repair,
});
const twoFaults = [open('L11@E2/stop', 'remake L11@E2/stop'), open('E5:fog', 'replace E5', 'E5')];

/** Left stop lamp and rear fog lamp: a feed and a return each, nothing in common but the trailer's plug and the battery. */
const stop = told('E2:stop', 'dead');
const fog = told('E5', 'dead');
const tails = [told('E2:tail', 'works'), told('E4:tail', 'works')];

describe('two complaints', () => {
  const view = (symptoms: readonly Symptom[]) => new Hunt(model, options, predictor).assess(entries(symptoms)).view;

  it('are two matters where what they share is seen to be good: the first is hunted, the second waits', () => {
    const { aside, suspects } = view([stop, fog, ...tails]);
    expect(aside).toEqual([fog]);
    const own = model.structure.between('E5/feed', 'E5/return');
    const others = model.structure.between('E2/stop', 'E2/return');
    const ofFogAlone = suspects.filter(({ id }) =>
      [...own.feed, ...own.return].some(
        (el) => id.endsWith(` ${el}`) && !others.feed.has(el) && !others.return.has(el),
      ),
    );
    expect(ofFogAlone).toEqual([]);
  });

  it('are one matter where one bad ground explains both', () => {
    // Left stop and left tail lamp go home by the same wire.
    expect(view([stop, told('E2:tail', 'dead'), told('E5', 'works')]).aside).toEqual([]);
  });

  it('wait in the order told', () => {
    expect(view([fog, stop, ...tails]).aside).toEqual([stop]);
  });

  it('are mended one after the other, and neither is forgotten', () => {
    const vehicle = new FaultyVehicle(model, twoFaults, seededRandom(3));
    const hunt = new Hunt(model, options, predictor);
    const { checks, repairs, ended } = leadToCure(hunt, vehicle, [stop, fog, ...tails], 30, ({ aside, next }) => {
      if (aside.length > 0) expect(next?.check).not.toMatchObject({ kind: 'observe', function: 'E5' });
    });
    expect(ended).toBe('cured');
    expect(vehicle.left).toEqual([]);
    expect(repairs.map(({ isRight }) => isRight)).toEqual([true, true]);
    // One lamp at a time takes an electrician four or five looks and readings each (engineering judgement).
    expect(checks).toBeLessThanOrEqual(12);
  });

  it('prove the repair of the first by the first alone', () => {
    const vehicle = new FaultyVehicle(model, twoFaults, seededRandom(3));
    const { last } = leadHunt(model, vehicle, [stop, fog, ...tails], { ...options, predictor });
    const looks = last.verdict?.proof.flatMap(({ check }) => (check.kind === 'observe' ? check.function : [])) ?? [];
    expect(looks).toContain('E2:stop');
    expect(looks).not.toContain('E5');
  });
});

describe('a pair of faults as a suspect', () => {
  it('is counted where it is surer: what they have in common comes first, its companion is another question', () => {
    const { workings } = new Hunt(model, options, predictor).assess(entries([stop]));
    if (workings === null) throw new Error('nothing to hunt');
    const { inquiry } = workings.posterior;
    const byRepair = new Map(
      inquiry.hypotheses.flatMap((it) => (it.kind === 'fault' ? [[it.faults[0].repair, it]] : [])),
    );
    const [a, b, c] = [...byRepair.values()];
    const pair = (one: typeof a, other: typeof a) =>
      ({ ...one, id: `${one.id} + ${other.id}`, kind: 'pair', faults: [...one.faults, ...other.faults] }) as const;
    const hypotheses = [pair(b, a), pair(a, c), c];
    const posterior = {
      ...workings.posterior,
      inquiry: Object.assign(Object.create(inquiry), { hypotheses }),
      probabilities: Float64Array.from([0.4, 0.35, 0.25]),
    };
    const sites = sitesOf(posterior);
    expect(sites.map(({ repair, members }) => [repair, members])).toEqual([
      [a.faults[0].repair, [0, 1]],
      [c.faults[0].repair, [2]],
    ]);
    expect(sites[0].probability).toBeCloseTo(0.75, 12);
    expect(leadOf(posterior.inquiry, sites[0]).faults).toEqual(a.faults);
  });
});
