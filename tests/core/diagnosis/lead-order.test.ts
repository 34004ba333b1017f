// Voltage drops are told with the red lead at the end nearer the battery's plus: what is lost reads as a positive figure.
// It must not look at which drop is chosen.

import { describe, expect, it } from 'vitest';
import { Hunt } from '../../../src/core/diagnosis/hunt.js';
import { Inquiry } from '../../../src/core/diagnosis/inquiry.js';
import { leadOrder } from '../../../src/core/diagnosis/lead-order.js';
import { createPredictor } from '../../../src/core/diagnosis/predictor.js';
import { fixtureModel } from '../../support/fixture-model.js';

const model = fixtureModel('trailer');
const predictor = createPredictor(model);

describe('leads of a voltage drop', () => {
  it('read no negative figure anywhere on a healthy harness, whichever end is named first', () => {
    const inquiry = new Inquiry(model, predictor, [], 'All lamps', null);
    const healthy = inquiry.healthy('All lamps');
    for (const { id, a, b } of model.graph.elements.values()) {
      const { red, black } = leadOrder(inquiry, 'All lamps', a, b);
      expect(healthy.voltsBetween(red, black) ?? 0, id).toBeGreaterThan(-1e-5);
    }
    expect(leadOrder(inquiry, 'All lamps', 'X1.plug/3', 'X1.receptacle/3')).toEqual({
      red: 'X1.plug/3',
      black: 'X1.receptacle/3',
    });
    expect(leadOrder(inquiry, 'All lamps', 'X1.plug/6', 'X1.receptacle/6')).toEqual({
      red: 'X1.receptacle/6',
      black: 'X1.plug/6',
    });
  });

  it('goes by the rails where no current runs', () => {
    const inquiry = new Inquiry(model, predictor, [], 'Brake', null);
    expect(leadOrder(inquiry, 'Brake', 'S1/2', 'S1/1').red).toBe('S1/1');
    expect(leadOrder(inquiry, 'Brake', 'G1', 'S1/2').red).toBe('S1/2');
  });

  it('are so in every drop that a hunt could ask for', () => {
    const hunt = new Hunt(model, { profile: 'in-service', instruments: { breakOutLeads: true } }, predictor);
    const report = { kind: 'function', function: 'E4:tail', state: 'All lamps', report: 'weak' } as const;
    const { workings } = hunt.assess([{ id: 's1', kind: 'symptom', symptom: report }]);
    const healthy = new Inquiry(model, predictor, [], 'All lamps', null).healthy('All lamps');
    const drops = (workings?.candidates ?? []).flatMap(({ check }) =>
      check.kind === 'volts' && check.black !== model.graph.reference ? [check] : [],
    );
    expect(drops.length).toBeGreaterThan(10);
    for (const { red, black } of drops) expect(healthy.voltsBetween(red, black) ?? 0).toBeGreaterThan(-1e-5);
  });
});
