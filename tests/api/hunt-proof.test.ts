// After the repair, over HTTP: who mended what says so; the complaint proves it, then the drop across the joint and what shares it are asked.
// It must not judge the diagnosis; the hidden fault is found as it comes.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { checkSchema } from '../../src/core/diagnosis/shapes/check.js';
import { FaultyVehicle, noFault } from '../support/faulty-vehicle.js';
import { fixtureModel } from '../support/fixture-model.js';
import { seededRandom } from '../support/random.js';
import { startTestServer, type TestServer } from '../support/test-server.js';

let server: TestServer;
let board: string;
beforeAll(async () => {
  server = await startTestServer();
  board = await server.keep('bench-board');
});
afterAll(() => server.close());

const post = (rest: string, body: object) => server.request.post(`/api/v1/harnesses/${board}/hunts${rest}`).send(body);

/** A bad plug contact, led to the verdict. */
async function toTheVerdict(): Promise<{ id: string; vehicle: FaultyVehicle; repairs: string[] }> {
  const dull = {
    ...noFault,
    changes: [{ kind: 'series', element: 'X1:1', ohms: 7.7 } as const],
    elements: ['X1:1'],
  };
  const vehicle = new FaultyVehicle(fixtureModel('bench-board'), [dull], seededRandom(11));
  let { body } = await post('', {
    symptoms: [{ kind: 'function', function: 'E1', state: 'Lamp on', report: vehicle.condition('E1', 'Lamp on') }],
    instruments: { breakOutLeads: true },
  });
  for (let i = 0; body.phase === 'checking' && i < 30; i++) {
    const answer = vehicle.answer(checkSchema.parse(JSON.parse(body.next.id)));
    ({ body } = await post(`/${body.id}/entries`, { id: `r${i}`, check: body.next.id, answer }));
  }
  expect(body.phase).toBe('repairing');
  return { id: body.id, vehicle, repairs: body.suspects[0].repairs };
}

describe('after the repair', () => {
  it('takes the repairs that were made by name, and no others', async () => {
    const { id } = await toTheVerdict();
    const wrong = await post(`/${id}/phase`, { phase: 'proving', repairs: ['remake NOWHERE'] });
    expect(wrong.status).toBe(422);
    expect(wrong.body.code).toBe('hunt-entry-invalid');
    expect((await post(`/${id}/phase`, { phase: 'closed', repairs: ['remake X1:1'] })).status).toBe(422);
    const { body } = await post(`/${id}/phase`, { phase: 'proving', repairs: ['remake X1:1', 'remake X1:2'] });
    expect(body.phase).toBe('proving');
    expect(body.entries.at(-1).words).toBe('Repair: remake X1:1, remake X1:2');
  });

  it('takes the likeliest place of the first suspect when nobody says', async () => {
    const { id, repairs } = await toTheVerdict();
    const { body } = await post(`/${id}/phase`, { phase: 'proving' });
    expect(body.entries.at(-1).words).toBe(`Repair: ${repairs[0]}`);
  });

  it('is cured once the lamp works; then asks the drop across the joint, and says what it means', async () => {
    const { id } = await toTheVerdict();
    const { body: proving } = await post(`/${id}/phase`, { phase: 'proving' });
    expect(proving.next.title).toMatch(/work now\?$/);
    const works = { kind: 'word', word: 'works' };
    let { body } = await post(`/${id}/entries`, { id: 'p1', check: proving.next.id, answer: works });
    expect(body).toMatchObject({ phase: 'closed', view: { verdict: { kind: 'cured' } } });
    const asked: string[] = [];
    for (let i = 0; body.next !== null && i < 10; i++) {
      expect(body.next.canSkip).toBe(true);
      asked.push(body.next.unit ?? 'word');
      const answer = body.next.unit === 'V' ? { kind: 'number', value: 0.61 } : { kind: 'skipped' };
      ({ body } = await post(`/${id}/entries`, { id: `x${i}`, check: body.next.id, answer }));
    }
    expect(asked).toContain('V');
    expect(body).toMatchObject({ phase: 'closed', next: null });
    const drop = body.entries.find(({ id: own }: { id: string }) => own === `x${asked.indexOf('V')}`);
    // Common practice: a tenth of a volt at a joint, half a volt over a circuit.
    expect(drop.effect).toMatch(/^Over 0\.\d\d V: .*still bad/);
  });

  it('calls a small drop good', async () => {
    const { id } = await toTheVerdict();
    const { body: proving } = await post(`/${id}/phase`, { phase: 'proving' });
    const { body } = await post(`/${id}/entries`, {
      id: 'p1',
      check: proving.next.id,
      answer: { kind: 'word', word: 'works' },
    });
    expect(body.next.unit).toBe('V');
    const { body: after } = await post(`/${id}/entries`, {
      id: 'x',
      check: body.next.id,
      answer: { kind: 'number', value: 0.01 },
    });
    expect(after.entries.at(-1).effect).toMatch(/^Within .* good\.$/);
  });

  it('asks one complaint after the other, and is cured when the last of them works', async () => {
    const trailer = await server.keep('trailer');
    const at = (rest: string, body: object) =>
      server.request.post(`/api/v1/harnesses/${trailer}/hunts${rest}`).send(body);
    const dead = (fn: string) => ({ kind: 'function', function: fn, state: 'All lamps', report: 'dead' });
    const { body: begun } = await at('', { symptoms: [dead('E1'), dead('E5')], instruments: {} });
    const works = { kind: 'word', word: 'works' };
    const { body: proving } = await at(`/${begun.id}/phase`, { phase: 'proving', repairs: ['replace E1'] });
    expect(JSON.parse(proving.next.id)).toMatchObject({ kind: 'observe', function: 'E1' });
    const { body: further } = await at(`/${begun.id}/entries`, { id: 'p1', check: proving.next.id, answer: works });
    expect(further).toMatchObject({ phase: 'proving', verdict: null });
    expect(JSON.parse(further.next.id)).toMatchObject({ kind: 'observe', function: 'E5' });
    const { body: cured } = await at(`/${begun.id}/entries`, { id: 'p2', check: further.next.id, answer: works });
    expect(cured).toMatchObject({ phase: 'closed', view: { verdict: { kind: 'cured' } } });
  });
});
