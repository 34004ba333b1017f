// Two halves of a normal: they meet, add up to one, and leave a lossy joint no chance to read the other way round.
// It must not check how wide the halves of each check are.

import { describe, expect, it } from 'vitest';
import { faultCatalogue } from '../../../src/core/diagnosis/catalogue.js';
import { expectCheck } from '../../../src/core/diagnosis/expect-check.js';
import { narrower, normalBelow, normalDensity } from '../../../src/core/diagnosis/expected.js';
import { byRest, type Hypothesis, hypothesesOf, nothingWrong } from '../../../src/core/diagnosis/hypotheses.js';
import { Inquiry } from '../../../src/core/diagnosis/inquiry.js';
import { classesOf, classShares } from '../../../src/core/diagnosis/outcome-classes.js';
import { createPredictor } from '../../../src/core/diagnosis/predictor.js';
import { fixtureModel } from '../../support/fixture-model.js';

describe('a spread with two halves', () => {
  const part = { share: 1, mean: 2, sd: 0.3, sdAbove: 1.2 };

  it('has the area of one below all of it, and in each half as much as the half is wide', () => {
    expect(normalBelow(-20, part)).toBeCloseTo(0, 6);
    expect(normalBelow(20, part)).toBeCloseTo(1, 6);
    expect(normalBelow(2, part)).toBeCloseTo(0.3 / 1.5, 6);
    expect(normalBelow(2 - 1e-9, part)).toBeCloseTo(normalBelow(2, part), 6);
  });

  it('has a density that is the slope of that, and one value where the halves meet', () => {
    for (const x of [1.2, 1.8, 2.4, 4]) {
      const slope = (normalBelow(x + 1e-3, part) - normalBelow(x - 1e-3, part)) / 2e-3;
      expect(normalDensity(x, part)).toBeCloseTo(slope, 3);
    }
    expect(normalDensity(2 - 1e-9, part)).toBeCloseTo(normalDensity(2, part), 6);
    expect(narrower(part)).toBe(0.3);
  });

  it('is the plain normal where both are alike', () => {
    const plain = { share: 1, mean: 0, sd: 1 };
    expect(normalDensity(0, plain)).toBeCloseTo(1 / Math.sqrt(2 * Math.PI), 9);
    expect(normalBelow(1.96, plain)).toBeCloseTo(0.975, 4);
  });
});

describe('volts behind a bad joint', () => {
  const model = fixtureModel('bench-board');
  const state = 'Lamp on';
  const own = new Set(['X1:1']);
  const hypotheses = hypothesesOf(model, { own, beside: new Set() }, { profile: 'in-service' });
  const inquiry = new Inquiry(model, createPredictor(model), hypotheses, state, 'E1');

  it('can be anything from none to all, never the other way round', () => {
    const check = { kind: 'volts', state, red: 'X1.plug/1', black: 'BAT1/neg' } as const;
    const classes = classesOf(expectCheck(inquiry, nothingWrong, check), 12);
    const reversed = classes.findIndex(({ name }) => name === 'reversed');
    const bad = hypotheses.filter(({ faults: [fault] }) => fault?.mode === 'high-resistance');
    expect(bad.length).toBe(
      faultCatalogue(model, { profile: 'in-service', within: own }).filter((it) => it.ohms !== null).length,
    );
    for (const hypothesis of bad)
      expect(classShares(classes, expectCheck(inquiry, hypothesis, check))[reversed], hypothesis.id).toBeLessThan(
        0.002,
      );
  });

  it('is as wide on the side of more ohms where the circuit can rest in two ways', () => {
    const check = { kind: 'volts', state, red: 'X1.plug/1', black: 'BAT1/neg' } as const;
    const family = hypotheses.filter(({ faults: [fault] }) => fault?.mode === 'high-resistance');
    const steps = family.toSorted((a, b) => (a.faults[0].ohms ?? 0) - (b.faults[0].ohms ?? 0));
    const [, , , middle] = steps;
    const split = hypotheses.flatMap((it) => (it === middle ? byRest(it) : it));
    const twice = new Inquiry(model, createPredictor(model), split, state, 'E1');
    const halves = (asked: Inquiry, hypothesis: Hypothesis): number[] => {
      const expected = expectCheck(asked, hypothesis, check);
      const [part] = expected.kind === 'number' ? expected.parts : [];
      return [part.sd, part.sdAbove ?? part.sd];
    };
    for (const rest of split.filter(({ id }) => id.startsWith(middle.id)))
      expect(halves(twice, rest), rest.id).toEqual(halves(inquiry, middle));
    expect(halves(inquiry, middle)[0]).toBeGreaterThan(0.5);
  });

  it('is as wide again beyond the end of the grid, at most down to nothing', () => {
    // Behind 640 Ω a relay coil of some 90 Ω has 1.5 V left; behind 1,300 Ω it has half of that.
    const feed = hypothesesOf(model, { own: new Set(['W5@S1/2']), beside: new Set() }, { profile: 'in-service' });
    const coil = new Inquiry(model, createPredictor(model), feed, state, 'E1');
    const check = { kind: 'volts', state, red: 'K1/86', black: 'BAT1/neg' } as const;
    const most = feed.reduce((one, other) => ((other.faults[0]?.ohms ?? 0) > (one.faults[0]?.ohms ?? 0) ? other : one));
    const expected = expectCheck(coil, most, check);
    const [{ mean, sd }] = expected.kind === 'number' ? expected.parts : [];
    expect(mean).toBeGreaterThan(0.5);
    expect(mean / 2).toBeGreaterThan(mean - 2 * sd);
  });
});
