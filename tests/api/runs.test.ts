// Runs of plans over HTTP: readings judged at once and kept once, what does not fit refused and nothing lost, drift since the baseline.
// It must not judge the limits; the core's tests do.

import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { startTestServer, type TestServer } from '../support/test-server.js';

const server: TestServer = await startTestServer();
let board: string;
interface Step {
  readonly id: string;
  readonly unit: string;
  readonly most: number | null;
  readonly least: number | null;
}

afterAll(() => server.close());
beforeEach(async () => {
  board = await server.keep('bench-board');
});

const at = (rest: string): string => `/api/v1/harnesses/${board}/${rest}`;
const start = (id: string, plan: object = { kind: 'continuity' }, revision = 1) =>
  server.request.post(at('runs')).set('If-Match', `"${revision}"`).send({ id, who: 'Ada', plan });
const read = (run: string, body: object, revision = 1) =>
  server.request
    .post(at(`runs/${run}/readings`))
    .set('If-Match', `"${revision}"`)
    .send(body);
const ohms = (id: string, step: Step, value: number | 'OL') => ({ id, step: step.id, reading: { value, unit: 'Ω' } });
const get = async (run: string) => (await server.request.get(at(`runs/${run}`))).body;
const rename = () =>
  server.request
    .patch(at('').replace(/\/$/, ''))
    .set('If-Match', '"1"')
    .send({ edits: [{ op: 'set', what: 'wire', address: 'W1', fields: { lengthMetres: 3 } }] })
    .expect(200);

describe('a run', () => {
  it('keeps plan, who and when, and the readings with pass or fail at once', async () => {
    const begun = await start('r1');
    expect([begun.status, begun.headers.etag]).toEqual([201, '"1"']);
    expect(begun.body).toMatchObject({ who: 'Ada', revision: 1, kind: 'continuity', isBaseline: true, baseline: null });
    const [first, second] = begun.body.plan.steps as Step[];
    const good = await read('r1', ohms('a', first, (first.most ?? 0) / 2));
    expect([good.status, good.body.reading.passes]).toEqual([200, true]);
    const milli = {
      id: 'b',
      step: second.id,
      reading: { value: 2000 * (second.most ?? 0), unit: 'mΩ' },
      note: 'green',
    };
    const bad = await read('r1', milli);
    expect(bad.body).toMatchObject({ reading: { passes: false, note: 'green' }, drift: null });
    expect(bad.body.counts).toEqual({ steps: begun.body.plan.steps.length, read: 2, passed: 1, failed: 1 });
    const again = await read('r1', ohms('c', second, second.most ?? 0));
    expect(again.body.counts).toMatchObject({ read: 2, passed: 2, failed: 0 });
    expect((await get('r1')).readings.map(({ id }: { id: string }) => id)).toEqual(['a', 'b', 'c']);
    const { body } = await server.request.get(at('runs'));
    expect(body.runs).toEqual([expect.objectContaining({ id: 'r1', counts: again.body.counts })]);
  });

  it('takes a reading once however often the phone sends it, and begins once', async () => {
    const [step] = (await start('r1')).body.plan.steps as Step[];
    const once = await read('r1', ohms('a', step, 0.2));
    const twice = await read('r1', ohms('a', step, 0.2));
    expect(twice.body).toEqual(once.body);
    expect((await start('r1')).body.readings).toHaveLength(1);
    expect((await server.request.get(at('runs'))).body.runs).toHaveLength(1);
  });

  it('keeps when the meter was read, if that was earlier', async () => {
    const [step] = (await start('r1')).body.plan.steps as Step[];
    const takenAt = '2025-12-31T23:00:00.000Z';
    const { body } = await read('r1', { ...ohms('a', step, 'OL'), takenAt });
    expect(body.reading).toMatchObject({ takenAt, typed: 'OL', value: null, passes: false });
    expect(body.reading.addedAt).not.toBe(takenAt);
  });
});

describe('what does not fit', () => {
  it.each([
    [
      'volts on a step of ohms',
      (step: Step) => ({ id: 'x', step: step.id, reading: { value: 12, unit: 'V' } }),
      '/reading/unit',
    ],
    [
      'a unit that is none',
      (step: Step) => ({ id: 'x', step: step.id, reading: { value: 1, unit: 'bar' } }),
      '/reading/unit',
    ],
    [
      'less than no ohms',
      (step: Step) => ({ id: 'x', step: step.id, reading: { value: -3, unit: 'Ω' } }),
      '/reading/value',
    ],
    ['a step of another plan', () => ({ id: 'x', step: 'nope', reading: { value: 1, unit: 'Ω' } }), '/step'],
    [
      'a look where a meter is asked for',
      (step: Step) => ({ id: 'x', step: step.id, reading: { seen: 'otherwise' } }),
      '/reading',
    ],
  ])('%s is refused with what is accepted, and nothing is lost', async (_what, body, path) => {
    const [step] = (await start('r1')).body.plan.steps as Step[];
    await read('r1', ohms('a', step, 0.2));
    const refused = await read('r1', body(step));
    expect([refused.status, refused.body.code]).toEqual([422, 'reading-invalid']);
    expect(refused.body.issues).toEqual([expect.objectContaining({ path })]);
    expect(refused.body.issues[0].accepted).not.toBe('');
    expect((await get('r1')).readings).toHaveLength(1);
  });

  it('a plan of an older revision is told with what changed; the reading can still be kept as of then', async () => {
    const [step] = (await start('r1')).body.plan.steps as Step[];
    await read('r1', ohms('a', step, 0.2));
    await rename();
    const stale = await read('r1', ohms('b', step, 0.3), 1);
    expect([stale.status, stale.body.code, stale.body.currentRevision]).toEqual([412, 'revision-stale', 2]);
    const outdated = await read('r1', ohms('b', step, 0.3), 2);
    expect([outdated.status, outdated.body.code]).toEqual([409, 'plan-outdated']);
    expect(outdated.body.differences[0].text).toContain('W1');
    expect(await get('r1')).toMatchObject({ recordHasChanged: true, readings: [{ id: 'a' }] });
    expect((await read('r1', { ...ohms('b', step, 0.3), forOlderRevision: true })).status).toBe(200);
    expect((await start('r2')).body.code).toBe('revision-stale');
    expect((await start('r2', { kind: 'continuity' }, 2)).status).toBe(201);
  });

  it('unknown runs and harnesses, a missing header, a plan that is refused', async () => {
    const body = { id: 'a', step: 'x', reading: { value: 1, unit: 'Ω' } };
    expect((await read('none', body)).body.code).toBe('run-not-found');
    expect((await server.request.get('/api/v1/harnesses/none/runs')).body.code).toBe('harness-not-found');
    expect(
      (await server.request.post(at('runs')).send({ id: 'r', who: 'A', plan: { kind: 'continuity' } })).status,
    ).toBe(428);
    expect((await start('r1', { kind: 'first-power' })).body.code).toBe('plan-refused');
    expect((await server.request.get(at('runs'))).body.runs).toEqual([]);
  });
});

describe('drift', () => {
  it('is told per joint, then and now, and warns before it fails', async () => {
    const plan = { kind: 'voltage-drop' };
    const steps = (await start('built', plan)).body.plan.steps as Step[];
    const [a, b, c] = steps.filter(({ most }) => most !== null);
    const volts = (id: string, step: Step, share: number) => ({
      id,
      step: step.id,
      reading: { value: share * (step.most ?? 0), unit: 'V' },
    });
    for (const [i, step] of [a, b, c].entries()) await read('built', volts(`b${i}`, step, 0.1));
    const later = (await start('later', plan)).body;
    expect(later.baseline).toMatchObject({ id: 'built', who: 'Ada' });
    const verdicts = [];
    for (const [i, [step, share]] of (
      [
        [a, 0.1],
        [b, 0.7],
        [c, 1.2],
      ] as const
    ).entries()) {
      const { body } = await read('later', volts(`l${i}`, step, share));
      verdicts.push([body.drift.verdict, body.reading.passes]);
    }
    expect(verdicts).toEqual([
      ['steady', true],
      ['warn', true],
      ['failed', false],
    ]);
    const { drifts } = await get('later');
    expect(drifts.map(({ step }: { step: string }) => step)).toEqual([c.id, b.id, a.id]);
    expect(drifts[1].baseline).toBeCloseTo(0.1 * (b.most ?? 0), 9);
    expect(drifts[1].now).toBeCloseTo(0.7 * (b.most ?? 0), 9);
    expect((await get('built')).drifts).toEqual([]);
  });

  it('is held against another run once that is the baseline, and never against a reading that failed', async () => {
    const [step] = (await start('built')).body.plan.steps as Step[];
    await read('built', ohms('a', step, 'OL'));
    await start('mended');
    expect((await read('mended', ohms('a', step, 0.2))).body.drift).toBeNull();
    const { body } = await server.request.post(at('runs/mended/baseline'));
    expect([body.isBaseline, body.baseline]).toEqual([true, null]);
    await start('later');
    expect((await read('later', ohms('a', step, 0.2))).body.drift.verdict).toBe('steady');
    expect((await get('built')).isBaseline).toBe(false);
  });
});

describe('the one-file backup', () => {
  it('holds the runs, and brings them back', async () => {
    const apart = await startTestServer();
    const id = await apart.keep('trailer');
    const url = `/api/v1/harnesses/${id}/runs`;
    const plan = { kind: 'isolation', kit: 'one-tie-bar' };
    const { body } = await apart.request.post(url).set('If-Match', '"1"').send({ id: 'r1', who: 'Ada', plan });
    const entry = { id: 'a', step: body.plan.steps[0].id, reading: { value: 'OL', unit: 'MΩ' } };
    await apart.request.post(`${url}/r1/readings`).set('If-Match', '"1"').send(entry).expect(200);
    const kept = (await apart.request.get(`${url}/r1`)).body;
    const { text } = await apart.request
      .get('/api/v1/backup')
      .buffer()
      .parse((answer, done) => {
        let whole = '';
        answer.on('data', (chunk) => (whole += String(chunk)));
        answer.on('end', () => done(null, whole));
      })
      .then(({ body: whole }) => ({ text: whole as string }));
    const other = await startTestServer();
    const restored = await other.request.post('/api/v1/restore').set('Content-Type', 'application/x-ndjson').send(text);
    expect(restored.body).toEqual({ harnesses: 1, revisions: 1, runs: 1, hunts: 0 });
    expect((await other.request.get(`${url}/r1`)).body).toEqual(kept);
    await Promise.all([apart.close(), other.close()]);
  });
});
