// A hunt over HTTP: from a dead lamp to the next check, answers kept, names that are not in the record refused and nothing stored.
// It must not judge which check is best; the core's tests do.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestServer, type TestServer } from '../support/test-server.js';

let server: TestServer;
let board: string;

beforeAll(async () => {
  server = await startTestServer();
  board = await server.keep('bench-board');
});

afterAll(() => server.close());

const dead = { kind: 'function', function: 'e1', state: 'lamp on', report: 'dead' };
const path = (rest = ''): string => `/api/v1/harnesses/${board}/hunts${rest}`;
const start = (body: object) => server.request.post(path()).send(body);
const answer = (hunt: string, body: object) => server.request.post(path(`/${hunt}/entries`)).send(body);

describe('a hunt over HTTP', () => {
  it('starts from a dead lamp with a check, what it needs, and suspects that add up to no more than one', async () => {
    const { status, body } = await start({ symptoms: [dead] });
    expect(status).toBe(201);
    expect(body.phase).toBe('checking');
    expect(body.next.title.length).toBeGreaterThan(5);
    expect(body.next.cautions.map(({ code }: { code: string }) => code)).toContain('maker-first');
    const total = body.suspects.reduce((sum: number, { probability }: { probability: number }) => sum + probability, 0);
    expect(total).toBeGreaterThan(0.3);
    expect(total).toBeLessThanOrEqual(1 + 1e-9);
  });

  it('keeps an answer once however often it is sent, and takes it back', async () => {
    const { body: begun } = await start({ symptoms: [dead] });
    const sent = { id: 'r1', check: begun.next.id, answer: { kind: 'skipped' } };
    const { body: once } = await answer(begun.id, sent);
    const { body: twice } = await answer(begun.id, sent);
    expect(once.entries).toHaveLength(2);
    expect(twice.entries).toEqual(once.entries);
    const { body: back } = await server.request.post(path(`/${begun.id}/undo`)).send({ to: null });
    expect(back.entries.at(-1).isUndone).toBe(true);
    expect(back.next.id).toBe(begun.next.id);
  });

  it('corrects a reading, keeps the old one in the log, and tells what each reading changed', async () => {
    const { body: begun } = await start({ symptoms: [dead] });
    const { body: seen } = await answer(begun.id, {
      id: 'r1',
      check: begun.next.id,
      answer: { kind: 'word', word: 'dead' },
    });
    expect(seen.entries.at(-1).effect).toMatch(/places; likeliest now: .+ \((over )?\d+ %\)\.$/);
    const at = path(`/${begun.id}/entries/r1/correction`);
    const corrected = await server.request.post(at).send({ id: 'c1', answer: { kind: 'word', word: 'works' } });
    expect(corrected.status).toBe(200);
    expect(corrected.body.suspects[0].id).not.toBe(seen.suspects[0].id);
    expect(corrected.body.entries.find(({ id }: { id: string }) => id === 'r1').result).toBe('dead');
    const wrong = await server.request.post(at).send({ id: 'c2', answer: { kind: 'number', value: 3 } });
    expect(wrong.status).toBe(422);
    const none = await server.request
      .post(path(`/${begun.id}/entries/r9/correction`))
      .send({ id: 'c3', answer: { kind: 'word', word: 'works' } });
    expect(none.status).toBe(422);
  });

  it('chooses within what the person has: no volts without a voltmeter', async () => {
    const { body } = await start({ symptoms: [dead], instruments: { voltmeter: false, sparesAtHand: false } });
    for (let asked = body, turn = 0; asked.next !== null && turn < 4; turn++) {
      expect(['volts', 'ohms', 'isolation']).not.toContain(JSON.parse(asked.next.id).kind);
      asked = (await answer(body.id, { id: `r${turn}`, check: asked.next.id, answer: { kind: 'skipped' } })).body;
    }
  });

  it.each([
    ['a point', { kind: 'volts', state: 'Lamp on', red: 'X99.plug/1', black: 'BAT1/neg' }, '/check/red'],
    ['a function', { kind: 'observe', function: 'E77', state: 'Lamp on' }, '/check/function'],
    ['a state', { kind: 'observe', function: 'E1', state: 'Lamp onn' }, '/state'],
    ['an element', { kind: 'ohms', red: 'E1/feed', black: 'E1/return', elements: ['W99'] }, '/check/elements/0'],
    ['a part', { kind: 'look', fuse: 'F99' }, '/check/fuse'],
  ])('refuses %s that the record lacks, stores nothing, and goes on', async (_what, check, at) => {
    const { body: begun } = await start({ symptoms: [dead] });
    const given =
      'fuse' in check || check.kind === 'observe'
        ? { kind: 'word', word: check.kind === 'look' ? 'good' : 'dead' }
        : { kind: 'number', value: 1 };
    const { status, body } = await answer(begun.id, { id: 'r1', check: JSON.stringify(check), answer: given });
    expect(status).toBe(422);
    expect(body.issues[0].path).toBe(at);
    const { status: still, body: read } = await server.request.get(path(`/${begun.id}`));
    expect(still).toBe(200);
    expect(read.entries).toHaveLength(1);
  });

  it('refuses symptoms of parts that are not there', async () => {
    const { status, body } = await start({ symptoms: [{ kind: 'fuse-found-blown', fuse: 'F99', state: 'Lamp on' }] });
    expect(status).toBe(422);
    expect(body.issues[0].path).toBe('/symptoms/0/fuse');
  });
});
