// Requests that were sound until something in them was spoilt: whatever comes, the server answers, and never with a fault of its own.
// `LASTGOOD_FUZZ=20000 npx vitest run tests/api/fuzz.test.ts` sends as many as the target names. It must not judge which refusal is the right one.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { fixtureDocument } from '../support/fixture-records.js';
import { seededRandom } from '../support/random.js';
import { type Json, spoil } from '../support/spoil.js';
import { startTestServer, type TestServer } from '../support/test-server.js';

const REQUESTS = Number(process.env.LASTGOOD_FUZZ ?? 800);
const SEED = Number(process.env.LASTGOOD_FUZZ_SEED ?? 5);

interface Sound {
  readonly method: 'get' | 'post' | 'put' | 'patch' | 'delete';
  readonly path: string;
  readonly body: Json;
  readonly headers?: Readonly<Record<string, string>>;
}

const state: Json = { name: 'asked', positions: { S1: 'on' } };
const record = fixtureDocument('bench-board') as unknown as Json;
const symptom: Json = { kind: 'function', function: 'E1', report: 'dead', state: 'Lamp on' };
const look: Json = { kind: 'observe', function: 'E1', state: 'Lamp on' };

function soundRequests(harness: string, hunt: string): readonly Sound[] {
  const own = `/api/v1/harnesses/${harness}`;
  const post = (path: string, body: Json): Sound => ({ method: 'post', path, body });
  return [
    post('/api/v1/harnesses', { record, note: 'a note' }),
    { method: 'put', path: own, body: { record, note: 'as it was' }, headers: { 'if-match': '"1"' } },
    {
      method: 'patch',
      path: own,
      body: {
        edits: [{ op: 'set', what: 'wire', address: 'W1', fields: { lengthMetres: 2 } }],
        note: 'cut shorter',
      },
      headers: { 'if-match': '"1"' },
    },
    post('/api/v1/imports?store=false', {
      sheets: [{ name: 'wires.csv', text: 'label,from,to\nW1,BAT1/pos,F1/in' }],
    }),
    post(`${own}/feeds`, { function: 'E1', state, include: ['solution'] }),
    post(`${own}/unplug`, { plugs: ['X1'], state: 'Lamp on' }),
    post(`${own}/readings`, { pairs: [{ red: 'E1/feed', black: 'G1' }], meter: 'voltmeter', state: 'Lamp on' }),
    post(`${own}/profile`, { function: 'E1', state: 'Lamp on' }),
    post(`${own}/plug-circuits`, { plug: 'X1' }),
    post(`${own}/separation`, { function: 'E1', state: 'Lamp on' }),
    post(`${own}/solve`, { state }),
    post(`${own}/plans`, { kind: 'continuity', leadOhms: 0.2 }),
    post(`${own}/plans`, { kind: 'voltage-drop', functions: ['E1'] }),
    post(`${own}/hunts`, { symptoms: [symptom], instruments: { voltmeter: true } }),
    post(`${own}/hunts/${hunt}/entries`, {
      id: 'a1',
      check: JSON.stringify(look),
      answer: { kind: 'word', word: 'dead' },
    }),
    post(`${own}/hunts/${hunt}/undo`, { to: 's1' }),
    post(`${own}/hunts/${hunt}/phase`, { phase: 'closed' }),
    {
      method: 'post',
      path: `${own}/findings/accept`,
      body: { code: 'unfused-wire', at: ['W1'], reason: 'a short stretch' },
      headers: { 'if-match': '"1"' },
    },
    {
      method: 'post',
      path: `${own}/runs`,
      body: { id: 'run-1', who: 'Ada', plan: { kind: 'parasitic-draw' } },
      headers: { 'if-match': '"1"' },
    },
    { method: 'get', path: `${own}/find?q=E1&limit=5`, body: null },
    { method: 'get', path: `${own}/compare?from=1&to=1`, body: null },
    { method: 'get', path: `${own}/revisions/1`, body: null },
  ];
}

const PLACES: readonly string[] = ['%00', '..%2f..', 'h%F0', '-1', '1e9', 'null', '%', 'x'.repeat(300), '🚙', "'", ''];

let server: TestServer;
let harness: string;
let hunt: string;

beforeAll(async () => {
  server = await startTestServer({ deadlineMs: 2_000 });
  harness = await server.keep('bench-board');
  const started = await server.request.post(`/api/v1/harnesses/${harness}/hunts`).send({ symptoms: [symptom] });
  hunt = (started.body as { id: string }).id;
});

afterAll(() => server.close());

describe('spoilt requests', () => {
  it('were sound before, or nothing would be tried', async () => {
    for (const { method, path, body, headers = {} } of soundRequests(harness, hunt)) {
      const request = server.request[method](path);
      for (const [name, value] of Object.entries(headers)) request.set(name, value);
      const answer = body === null ? await request : await request.send(body as object);
      // Known and refused all the same: another revision by now, a finding that does not stand, sheets with a part missing.
      const fine = answer.status < 300 || [404, 409, 412, 422].includes(answer.status);
      expect(fine, `${method} ${path} -> ${answer.status} ${answer.text.slice(0, 400)}`).toBe(true);
    }
  });

  it(`are answered, and never with a fault of the server (${REQUESTS} of them)`, { timeout: 3_600_000 }, async () => {
    expect(hunt).toBeTypeOf('string');
    const random = seededRandom(SEED);
    const sound = soundRequests(harness, hunt);
    const statuses = new Map<number, number>();
    for (let sent = 0; sent < REQUESTS; sent++) {
      const { method, path, body, headers = {} } = random.pick(sound);
      const segments = path.split('/');
      if (random.chance(0.1)) segments[random.whole(3, segments.length - 1)] = random.pick(PLACES);
      const spoilt = body === null ? undefined : JSON.stringify(spoil(body, random));
      const text =
        spoilt !== undefined && random.chance(0.05) ? spoilt.slice(0, random.whole(0, spoilt.length)) : spoilt;
      const type = random.chance(0.03) ? random.pick(['text/plain', 'application/xml', '']) : 'application/json';
      const request = server.request[method](encodeURI(decodeSafely(segments.join('/'))));
      for (const [name, value] of Object.entries(headers)) request.set(name, value);
      const answer = text === undefined ? await request : await request.set('Content-Type', type).send(text);
      statuses.set(answer.status, (statuses.get(answer.status) ?? 0) + 1);
      expect(answer.status, `${method} ${segments.join('/')} ${text?.slice(0, 2_000)} -> ${answer.text}`).toBeLessThan(
        500,
      );
    }
    expect(statuses.get(400) ?? 0).toBeGreaterThan(REQUESTS / 5);
    expect((statuses.get(200) ?? 0) + (statuses.get(201) ?? 0)).toBeGreaterThan(0);
    expect((await server.request.get('/api/v1/ready')).status).toBe(200);
  });
});

/** Paths are sent as they stand: what is already escaped must not be escaped twice. */
function decodeSafely(path: string): string {
  return path.replaceAll('%', '%25').replaceAll('%2500', '%00').replaceAll('%252f', '%2f');
}
