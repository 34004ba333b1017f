// A known good relay goes in and the old one back: what the swap shows is settled by it, socket included.
// It must not look at how the check was chosen.

import { describe, expect, it } from 'vitest';
import { instructionFor } from '../../../src/core/diagnosis/check-words.js';
import { Hunt } from '../../../src/core/diagnosis/hunt.js';
import { Inquiry } from '../../../src/core/diagnosis/inquiry.js';
import { createPredictor } from '../../../src/core/diagnosis/predictor.js';
import type { Check } from '../../../src/core/diagnosis/shapes/check.js';
import type { HuntEntry } from '../../../src/core/diagnosis/shapes/hunt.js';
import { fixtureModel } from '../../support/fixture-model.js';

const model = fixtureModel('bench-board');
const predictor = createPredictor(model);
const state = 'Lamp on';
const swap: Check = { kind: 'swap', part: 'K1', function: 'E1', state };
const volts = (red: string, value: number): HuntEntry => ({
  id: red,
  kind: 'reading',
  check: { kind: 'volts', state, red, black: 'BAT1/neg' },
  result: { kind: 'number', value },
});

describe('another relay in its place', () => {
  it('names the relay, once it works with the good one and fails again with the old one', () => {
    const hunt = new Hunt(model, { profile: 'in-service', instruments: { breakOutLeads: true } }, predictor);
    const log: HuntEntry[] = [
      { id: 's', kind: 'symptom', symptom: { kind: 'function', function: 'E1', state, report: 'dead' } },
      // Fed, and told to pull in: relay or socket.
      volts('K1/30', 12.5),
      volts('K1/86', 12.5),
      volts('K1/85', 0.01),
      volts('K1/87', 0),
      { id: 'swap', kind: 'reading', check: swap, result: { kind: 'word', word: 'cured' } },
    ];
    const { view } = hunt.assess(log);
    expect(view.verdict?.kind).toBe('named');
    expect(view.verdict?.repair).toBe('replace K1');
    expect(view.suspects[0].probability).toBeGreaterThan(0.85);
  });

  it('is told there and back, whichever way the fault shows', () => {
    const inquiry = new Inquiry(model, predictor, [], state, 'E1');
    expect(instructionFor(inquiry, swap)).toBe(
      'Put a known good one in the place of relay K1 (Lamp relay): does lamp E1 (Lamp) work with it, and fail again with the old one back in?',
    );
    expect(instructionFor(inquiry, { ...swap, state: 'Off' })).toBe(
      'Put a known good one in the place of relay K1 (Lamp relay): does lamp E1 (Lamp) go off with it, and come on again with the old one back in?',
    );
  });
});
