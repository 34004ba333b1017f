// What readings from before a repair are worth, on the bench board: two places of one feed broken, one of them mended. Expected values
// follow from Ohm's law on the drawing: behind a break there is nothing, before it the battery.

import { describe, expect, it } from 'vitest';
import { expectCheck } from '../../../src/core/diagnosis/expect-check.js';
import { Hunt } from '../../../src/core/diagnosis/hunt.js';
import { factsOf } from '../../../src/core/diagnosis/hunt-log.js';
import { nothingWrong, singlesOf, together, whileGone } from '../../../src/core/diagnosis/hypotheses.js';
import { cleanLikelihood } from '../../../src/core/diagnosis/likelihood.js';
import { createPredictor } from '../../../src/core/diagnosis/predictor.js';
import type { Check } from '../../../src/core/diagnosis/shapes/check.js';
import type { HuntEntry } from '../../../src/core/diagnosis/shapes/hunt.js';
import { fixtureModel } from '../../support/fixture-model.js';

const model = fixtureModel('bench-board');
const hunt = new Hunt(model, { profile: 'in-service', instruments: { breakOutLeads: true } }, createPredictor(model));
const reported = (report: 'dead' | 'weak') => ({ kind: 'function', function: 'E1', state: 'Lamp on', report }) as const;
const voltsAt = (red: string): Check => ({ kind: 'volts', state: 'Lamp on', red, black: 'BAT1/neg' });
const reading = (id: string, red: string, value: number): HuntEntry => ({
  id,
  kind: 'reading',
  check: voltsAt(red),
  result: { kind: 'number', value },
});
const complaint: HuntEntry = { id: 's1', kind: 'symptom', symptom: reported('dead') };
const before = [complaint, reading('e1', 'F1/out', 12.5), reading('e2', 'SP1', 0), reading('e3', 'K1/87', 0)];
const repair: HuntEntry = { id: 'r1', kind: 'repair', repairs: ['remake W2@SP1'] };
const proof = (report: 'dead' | 'weak'): HuntEntry => ({ id: 'p1', kind: 'proof', symptoms: [reported(report)] });

function probabilityOf(log: readonly HuntEntry[], repairs: readonly string[]): number {
  const { workings } = hunt.assess(log);
  if (workings === null) return 0;
  const { inquiry, probabilities } = workings.posterior;
  return inquiry.hypotheses.reduce(
    (sum, { kind, faults }, i) =>
      sum +
      (repairs.includes(kind) || (faults.length > 0 && faults.every((it) => repairs.includes(it.repair)))
        ? probabilities[i]
        : 0),
    0,
  );
}

describe('readings from before a repair', () => {
  it('are kept, with the repairs made since and whether anything came of them', () => {
    const facts = factsOf([...before, repair, proof('dead'), reading('e4', 'SP1', 12.4)]);
    expect(facts.past.map(({ entry, repairsBefore }) => [entry, repairsBefore])).toEqual([
      ['e1', 0],
      ['e2', 0],
      ['e3', 0],
    ]);
    expect(facts.repairs).toEqual([{ keys: ['remake W2@SP1'], hasChanged: false }]);
    expect(factsOf([...before, repair, proof('weak')]).repairs[0].hasChanged).toBe(true);
  });

  it('still clear what they cleared: 12.5 V at F1/out had come through all of wire W1', () => {
    const { workings } = hunt.assess([...before, repair, proof('dead')]);
    const breaks = ['W1@BAT1/pos:open', 'W1:open', 'W1@F1/in:open'];
    const cleared = workings?.posterior.inquiry.hypotheses.reduce(
      (sum, { id }, i) => sum + (breaks.includes(id) ? workings.posterior.probabilities[i] : 0),
      0,
    );
    expect(cleared).toBeLessThan(0.002);
  });

  it('are explained by the second break together with the first: 0 V before it, where the battery is to be read now', () => {
    const log = [...before, repair, proof('dead'), reading('e4', 'SP1', 12.4), reading('e5', 'K1/30', 0)];
    const stretch = ['remake W3@SP1', 'remake W3', 'remake W3@K1/30'];
    expect(probabilityOf(log, stretch)).toBeGreaterThan(0.7);
    expect(probabilityOf(log, ['unknown', 'record-wrong'])).toBeLessThan(0.1);
  });
});

describe('several faults as one state of the vehicle', () => {
  const { workings } = hunt.assess([complaint]);
  const inquiry = workings?.posterior.inquiry;
  if (inquiry === undefined) throw new Error('no inquiry');
  const named = (id: string) => inquiry.hypotheses.find((it) => it.id === id) ?? nothingWrong;
  const [broken, loose] = [named('W8:open'), named('W2@SP1:intermittent')];

  it('is what each does, and while what comes and goes is gone, the rest', () => {
    const both = together([broken, nothingWrong, loose]);
    expect(singlesOf(both).map(({ id }) => id)).toEqual(['W8:open', 'W2@SP1:intermittent']);
    expect(whileGone(both)).toBe(broken);
    expect(whileGone(loose)).toBe(nothingWrong);
  });

  it('so a lamp behind a lasting break stays dead while the loose joint holds', () => {
    const look: Check = { kind: 'observe', function: 'E1', state: 'Lamp on' };
    const works = (hypothesis: typeof broken): number => {
      const expected = expectCheck(inquiry, hypothesis, look);
      return expected.kind === 'words' ? (expected.shares.get('works') ?? 0) : Number.NaN;
    };
    expect(works(together([broken, loose]))).toBeLessThan(0.01);
    expect(works(loose)).toBeCloseTo(0.5, 1);
  });

  it('a new fuse mends what was wrong with the old one: 12 V behind it again', () => {
    const missing = named('F1:link:missing');
    const shown = (check: Check, value: number): number =>
      cleanLikelihood(expectCheck(inquiry, missing, check), { kind: 'number', value });
    expect(shown(voltsAt('F1/out'), 12.6)).toBeLessThan(0.01);
    expect(shown({ ...voltsAt('F1/out'), newFuse: 'F1' } as Check, 12.6)).toBeGreaterThan(0.5);
  });

  it('a floating point shows the 0 V of a dead one: a meter’s own 10 MΩ pull it down (common practice)', () => {
    const floating = expectCheck(inquiry, named('W2@SP1:open'), voltsAt('K1/87'));
    const open = together([named('W3:open'), named('W8:open')]);
    const likelihoods = [floating, expectCheck(inquiry, open, voltsAt('K1/87'))].map((expected) =>
      cleanLikelihood(expected, { kind: 'number', value: 0 }),
    );
    expect(Math.max(...likelihoods) / Math.min(...likelihoods)).toBeLessThan(3);
  });
});
