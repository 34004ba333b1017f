// Hunts beyond the first repair on the bench board: two faults in series, a wire where it does not belong, what comes and goes, a short
// behind its fuse. The vehicle scatters as real ones do and is settled anew for every answer; nothing of the diagnosis answers.

import { describe, expect, it } from 'vitest';
import { Hunt } from '../../../src/core/diagnosis/hunt.js';
import { createPredictor } from '../../../src/core/diagnosis/predictor.js';
import type { HuntEntry } from '../../../src/core/diagnosis/shapes/hunt.js';
import { FaultyVehicle, type HiddenFault, noFault } from '../../support/faulty-vehicle.js';
import { fixtureModel } from '../../support/fixture-model.js';
import { seededRandom } from '../../support/random.js';

const model = fixtureModel('bench-board');
const predictor = createPredictor(model);
const MOST_CHECKS = 40;
const PROOF_LOOKS = 5;

const open = (element: string): HiddenFault => ({
  ...noFault,
  changes: [{ kind: 'open', element }],
  elements: [element],
  repair: `remake ${element}`,
});
const link = (from: string, to: string, ohms: number): HiddenFault => ({
  ...noFault,
  changes: [{ kind: 'bridge', from, to, ohms }],
  repair: null,
});

interface Led {
  readonly ended: string;
  /** Repairs that the hunt sent somebody to, in turn; whether one of the faults was among each. */
  readonly repairs: readonly { readonly keys: readonly string[]; readonly isRight: boolean }[];
  readonly vehicle: FaultyVehicle;
}

/** Checks as asked, mends as told, tries the lamp, and goes on until the hunt has nothing more to mend. */
function lead(hidden: readonly HiddenFault[], seed: number, report: 'dead' | 'comes-and-goes' = 'dead'): Led {
  const vehicle = new FaultyVehicle(model, hidden, seededRandom(seed));
  vehicle.lookState = 'Lamp on';
  const hunt = new Hunt(model, { profile: 'in-service', instruments: { breakOutLeads: true } }, predictor);
  const symptom = { kind: 'function', function: 'E1', state: 'Lamp on', report } as const;
  const log: HuntEntry[] = [{ id: 's1', kind: 'symptom', symptom }];
  const repairs: { keys: string[]; isRight: boolean }[] = [];
  for (let checks = 0; checks < MOST_CHECKS; ) {
    const { view } = hunt.assess(log);
    const id = `e${log.length}`;
    if (view.next !== null) {
      checks += 1;
      log.push({ id, kind: 'reading', check: view.next.check, result: vehicle.answer(view.next.check) });
      continue;
    }
    const named = view.suspects.find((suspect) => suspect.id === view.verdict?.suspects[0]);
    if (view.verdict?.repair === null || named === undefined)
      return { ended: view.verdict?.kind ?? '', repairs, vehicle };
    const keys = named.sites.flatMap(({ repair }) => repair.split(' + '));
    repairs.push({ keys, isRight: vehicle.mend(({ repair }) => keys.includes(repair ?? '')) });
    const looks = Array.from({ length: PROOF_LOOKS }, () => vehicle.condition('E1', 'Lamp on'));
    if (looks.every((look) => look === 'works')) return { ended: 'cured', repairs, vehicle };
    const seen = looks.every((look) => look === 'dead') ? 'dead' : 'comes-and-goes';
    log.push(
      { id, kind: 'repair', repairs: keys },
      { id: `p${log.length}`, kind: 'proof', symptoms: [{ ...symptom, report: seen }] },
    );
  }
  return { ended: 'too many checks', repairs, vehicle };
}

describe('two faults at once', () => {
  it.each([
    ['feed broken in two places', open('W2@SP1'), open('W3@K1/30')],
    ['switched feed of the coil and the feed of the lamp', open('W5@S1/2'), open('W8')],
    ['both ends of the coil', open('K1:85'), open('W5@K1/86')],
  ])('in series, where mending the first changes nothing that is seen: %s', (_, one, other) => {
    const led = lead([one, other], 5);
    expect(led.ended).toBe('cured');
    expect(led.vehicle.left).toHaveLength(0);
    // What was read before the first repair was read on both faults; it must not send anybody to a sound part.
    expect(led.repairs.filter(({ isRight }) => !isRight)).toHaveLength(0);
  });
});

describe('what the catalogue does not have', () => {
  it.each([
    ['the lamp feed tied to its return', link('K1/87', 'E1/return', 0.05)],
    ['the feed tied to the ground lead in the plug', link('SP1', 'X1.plug/2', 0.29)],
  ])('is said after a repair or two in vain, not hunted through every part: %s', (_, hidden) => {
    const led = lead([hidden], 9);
    expect(led.ended).toBe('record-or-unknown');
    expect(led.repairs.length).toBeLessThanOrEqual(3);
  });
});

describe('one fault that is hard to see', () => {
  it.each([
    ['a crimp that comes and goes', { ...open('W7@K1/87'), isIntermittent: true }],
    ['a ground joint that comes and goes', { ...open('G1:joint'), isIntermittent: true }],
  ])('%s ends at its place, tried in turn where nothing tells two joints of one part apart', (_, hidden) => {
    const led = lead([hidden], 4, 'comes-and-goes');
    expect(led.ended).toBe('cured');
    expect(led.repairs.length).toBeLessThanOrEqual(2);
  });

  it('a short behind a fuse is found by the fuse and the plugs, and the fuse is not blamed', () => {
    const chafe: HiddenFault = { ...link('W8:to', 'PLATE', 0.1), elements: ['W8'], repair: 'insulate W8' };
    const led = lead([chafe], 4);
    expect(led.ended).toBe('cured');
    expect(led.repairs.at(-1)?.isRight).toBe(true);
    expect(led.repairs.flatMap(({ keys }) => keys)).not.toContain('fuse F1');
  });
});
