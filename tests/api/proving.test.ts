// Findings, plans and sneak search over HTTP: accepted by name with a reason that is kept, refused while a danger stands, wrong names told.
// It must not judge findings or plans; the core's tests do.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findMistakes } from '../../src/core/answers/findings/find-mistakes.js';
import { buildModel } from '../../src/core/answers/model.js';
import { planIsolation } from '../../src/core/answers/plans/isolation.js';
import { fixtureRecord } from '../support/fixture-records.js';
import { startTestServer, type TestServer } from '../support/test-server.js';

let server: TestServer;
let board: string;
const asJson = (value: unknown): unknown => JSON.parse(JSON.stringify(value));
const at = (rest: string): string => `/api/v1/harnesses/${board}/${rest}`;
const findings = () => server.request.get(at('findings'));
const plan = (body: object) => server.request.post(at('plans')).send(body);
const judge = (verb: 'accept' | 'withdraw', revision: number, body: object) =>
  server.request
    .post(at(`findings/${verb}`))
    .set('If-Match', `"${revision}"`)
    .send(body);

beforeAll(async () => {
  server = await startTestServer();
  board = await server.keep('bench-board');
});

afterAll(() => server.close());

describe('findings', () => {
  it('go out as the core found them', async () => {
    const { status, body, headers } = await findings();
    expect([status, headers.etag]).toEqual([200, '"1"']);
    expect(body).toEqual(asJson(findMistakes(buildModel(fixtureRecord('bench-board')))));
    expect(body.standing.map(({ code }: { code: string }) => code)).toContain('unfused-wire');
  });

  it('hold the first power-up back, are accepted by name with a reason that stays, and can be withdrawn', async () => {
    const refused = await plan({ kind: 'first-power' });
    expect([refused.status, refused.body.code]).toEqual([409, 'plan-refused']);
    expect(refused.body.issues).toEqual([expect.objectContaining({ code: 'unfused-wire', path: 'W1' })]);

    const reason = 'Ten centimetres in a guard';
    const accepted = await judge('accept', 1, { code: 'unfused-wire', at: ['w1'], reason });
    expect([accepted.status, accepted.headers.etag]).toEqual([200, '"2"']);
    const after = await findings();
    expect(after.body.standing).toEqual([]);
    expect(after.body.accepted).toEqual([expect.objectContaining({ code: 'unfused-wire', acceptedBecause: reason })]);
    const { body: revision } = await server.request.get(at('revisions/2'));
    expect(revision.note).toContain(reason);
    expect(revision.record.acceptedFindings).toEqual([{ code: 'unfused-wire', at: ['W1'], reason }]);
    const allowed = await plan({ kind: 'first-power' });
    expect([allowed.status, allowed.body.refused]).toEqual([200, null]);
    expect(allowed.body.steps.length).toBeGreaterThan(1);

    const old = await server.request.get(at('findings?revision=1'));
    expect(old.body.standing).toHaveLength(1);
    expect((await judge('withdraw', 2, { code: 'unfused-wire', at: ['W1'] })).status).toBe(200);
    expect((await findings()).body.standing).toHaveLength(1);
    expect((await plan({ kind: 'first-power' })).status).toBe(409);
  });

  it('are not accepted without a reason, under a wrong name, twice, or over another’s change', async () => {
    const { headers } = await findings();
    const now = Number(headers.etag.slice(1, -1));
    const named = { code: 'unfused-wire', at: ['W1'] };
    expect((await judge('accept', now, { ...named, reason: ' ' })).body.code).toBe('request-invalid');
    const unknown = await judge('accept', now, { code: 'unfused-wire', at: ['W9'], reason: 'no reason' });
    expect([unknown.status, unknown.body.code]).toEqual([404, 'finding-not-found']);
    expect(unknown.body.issues[0].accepted).toContain('unfused-wire at W1');
    expect((await judge('withdraw', now, named)).body.code).toBe('finding-not-found');
    const stale = await judge('accept', now - 1, { ...named, reason: 'too late' });
    expect([stale.status, stale.body.code, stale.body.currentRevision]).toEqual([412, 'revision-stale', now]);
    const without = await server.request.post(at('findings/accept')).send({ ...named, reason: 'no header' });
    expect(without.status).toBe(428);
    expect((await findings()).headers.etag).toBe(`"${now}"`);
  });
});

describe('plans', () => {
  it.each([
    [{ kind: 'continuity' }, 'Ω'],
    [{ kind: 'continuity', leadOhms: 0.3 }, 'Ω'],
    [{ kind: 'isolation' }, 'Ω'],
    [{ kind: 'voltage-drop', functions: ['e1'] }, 'V'],
    [{ kind: 'parasitic-draw', state: 'lamp on' }, 'A'],
  ])('%j is made, with steps in its unit and cautions', async (body, unit) => {
    const answer = await plan(body);
    expect(answer.status).toBe(200);
    expect(answer.body.kind).toBe(body.kind);
    expect(answer.body.steps[0].unit).toBe(unit);
    expect(answer.body.cautions.map(({ code }: { code: string }) => code)).toContain('maker-first');
  });

  it('name the kit, and are those of the core', async () => {
    const { body } = await plan({ kind: 'isolation', kit: 'two-tie-bars' });
    expect(body).toEqual(asJson(planIsolation(buildModel(fixtureRecord('bench-board')), 'two-tie-bars')));
  });

  it.each([
    [{ kind: 'voltage-drop', functions: ['E1', 'E9'] }, '/functions/1'],
    [{ kind: 'parasitic-draw', state: 'Underwater' }, '/state'],
  ])('%j names what the record lacks', async (body, path) => {
    const answer = await plan(body);
    expect([answer.status, answer.body.code]).toEqual([422, 'question-invalid']);
    expect(answer.body.issues).toEqual([expect.objectContaining({ path })]);
  });

  it.each([
    [{ kind: 'torque' }],
    [{ kind: 'isolation', kit: 'three-hands' }],
    [{ kind: 'continuity', leadOhms: -1 }],
    [{ kind: 'first-power', state: 'Lamp on' }],
  ])('%j is not a plan', async (body) => {
    expect((await plan(body)).body.code).toBe('request-invalid');
  });

  it('are refused for a harness beyond the limit, with the limit', async () => {
    const { services } = server;
    const { createProving, mostWires } = await import('../../src/service/proving.js');
    const { workHere } = await import('../../src/service/proof/work-here.js');
    const get = services.harnesses.get;
    const proving = createProving({
      store: server.store,
      harnesses: { ...services.harnesses, get: async (id, at) => ({ ...(await get(id, at)), wires: mostWires + 1 }) },
      work: workHere(() => 0),
      deadlineMs: 1000,
      cachedModels: 1,
    });
    await expect(proving.findings({ harness: board })).rejects.toMatchObject({ code: 'proof-too-large', status: 422 });
  });
});

describe('sneak search', () => {
  it('tells what it looked through', async () => {
    const { status, body } = await server.request.post(at('sneaks')).send({});
    expect(status).toBe(200);
    expect(body.search).toMatchObject({ switches: 1, complete: true });
  });

  it('finds the lamps that glow through a lost ground of the trailer (common practice)', async () => {
    const trailer = await server.keep('trailer');
    const { body } = await server.request.post(`/api/v1/harnesses/${trailer}/sneaks`).send({});
    expect(body.sneaks.filter(({ removed }: { removed: string | null }) => removed !== null).length).toBeGreaterThan(3);
  });

  it('stops when its time is over, and says that it is not all', async () => {
    const { doProof } = await import('../../src/service/proof/proof-job.js');
    const model = buildModel(fixtureRecord('trailer'));
    let now = 0;
    const { search } = doProof(model, { do: 'sneaks', maxSolves: 20_000, budgetMs: 50 }, () => now++);
    expect(search.complete).toBe(false);
    expect(search.note).toContain('stopped after 0.05 s');
    expect(search.combinations).toBeLessThan(100);
  });
});
