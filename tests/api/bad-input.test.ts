// Bad input over HTTP: each gets a problem document that names what is wrong; nothing is stored in part; the server stays up.
// It must not test what the record check finds in detail; the core's tests do.

import type { AddressInfo } from 'node:net';
import { connect } from 'node:net';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { problemSchema } from '../../src/api/schemas/problem.js';
import { fixtureDocument } from '../support/fixture-records.js';
import { startTestServer, type TestServer } from '../support/test-server.js';

let server: TestServer;

beforeAll(async () => {
  server = await startTestServer({ bodyLimitBytes: 1024 * 1024 });
  await server.app.listen({ host: '127.0.0.1', port: 0 });
});

afterEach(async () => {
  // Whatever was sent: nothing was kept, and the server answers.
  expect((await server.request.get('/api/v1/harnesses').expect(200)).body.harnesses).toEqual([]);
});

afterAll(() => server.close());

interface Refused {
  readonly status: number;
  readonly headers: Record<string, string>;
  readonly body: unknown;
}

function problemOf(response: Refused) {
  expect(response.headers['content-type']).toContain('application/problem+json');
  const problem = problemSchema.parse(response.body);
  expect(problem.status).toBe(response.status);
  return problem;
}

const post = (text: string, type = 'application/json') =>
  server.request.post('/api/v1/harnesses').set('Content-Type', type).send(text);

type Document = Record<string, unknown> & { parts: Record<string, unknown>[]; wires: Record<string, unknown>[] };

/** The bench board with one thing done to it. */
function spoilt(spoil: (document: Document) => void): Document {
  const document = fixtureDocument('bench-board') as Document;
  spoil(document);
  return document;
}

describe('a record with a mistake', () => {
  const mistakes: [string, (document: Document) => void, string][] = [
    [
      'a duplicate address, whatever its case',
      ({ parts }) => parts.push({ ...parts[1], address: 'f1' }),
      '/parts/10/address',
    ],
    ['a wire end at an unknown part', ({ wires }) => Object.assign(wires[0], { to: 'F9/in' }), '/wires/0/to'],
    ['a wire to itself', ({ wires }) => Object.assign(wires[0], { to: wires[0].from }), '/wires/0/to'],
    ['a negative length', ({ wires }) => Object.assign(wires[2], { lengthMetres: -1 }), '/wires/2/lengthMetres'],
    ['no length to speak of', ({ wires }) => Object.assign(wires[2], { lengthMetres: 0 }), '/wires/2/lengthMetres'],
    ['an unknown size', ({ wires }) => Object.assign(wires[2], { size: 'thick' }), '/wires/2/size'],
    [
      'a load with a negative resistance',
      ({ parts }) => parts.push({ kind: 'resistor', address: 'R9', resistanceOhms: -5 }),
      '/parts/10/resistanceOhms',
    ],
    ['an unknown colour', ({ wires }) => Object.assign(wires[2], { colour: 'sunset' }), '/wires/2/colour'],
    ['a terminal that the part lacks', ({ wires }) => Object.assign(wires[2], { to: 'K1/88' }), '/wires/2/to'],
    ['an unknown kind', ({ parts }) => Object.assign(parts[1], { kind: 'flux' }), '/parts/1/kind'],
    ['an infinite number', ({ parts }) => Object.assign(parts[1], { ratingAmps: 1e300 }), '/parts/1/ratingAmps'],
    ['an unknown field', ({ parts }) => Object.assign(parts[1], { colour: 'RD' }), '/parts/1/colour'],
    [
      'a state that names nothing',
      (it) => Object.assign(it, { states: [{ name: 'x', positions: { S9: 'on' } }] }),
      '/states/0/positions/S9',
    ],
  ];

  it.each(mistakes)('%s is refused with its place', async (_what, spoil, path) => {
    const problem = problemOf(await server.request.post('/api/v1/harnesses').send({ record: spoilt(spoil) }));
    expect([problem.status, problem.code]).toEqual([422, 'record-invalid']);
    const issue = problem.issues?.find((it) => it.path === path);
    expect(issue, JSON.stringify(problem.issues)).toBeDefined();
    expect(issue?.reason).not.toBe('');
    expect(issue?.accepted).not.toBe('');
  });

  it('is told all of them at once', async () => {
    const record = spoilt((document) => {
      Object.assign(document.wires[0], { to: 'F9/in' });
      Object.assign(document.wires[2], { lengthMetres: -1 });
      Object.assign(document.parts[1], { ratingAmps: 'ten-ish' });
    });
    const problem = problemOf(await server.request.post('/api/v1/harnesses').send({ record }));
    expect(problem.issueCount).toBeGreaterThanOrEqual(3);
    expect(problem.issues?.map(({ path }) => path)).toEqual(
      expect.arrayContaining(['/wires/0/to', '/wires/2/lengthMetres', '/parts/1/ratingAmps']),
    );
  });

  it('changes nothing when it is to become a new revision, and the old one goes on answering', async () => {
    const apart = await startTestServer();
    const id = await apart.keep('bench-board');
    const record = spoilt(({ wires }) => Object.assign(wires[0], { to: 'F9/in' }));
    const put = await apart.request.put(`/api/v1/harnesses/${id}`).set('If-Match', '"1"').send({ record });
    expect(problemOf(put).code).toBe('record-invalid');
    const edits = [
      { op: 'set-record', fields: { name: 'half done' } },
      { op: 'set', what: 'wire', address: 'W1', fields: { size: 'thick' } },
    ];
    const patch = await apart.request.patch(`/api/v1/harnesses/${id}`).set('If-Match', '"1"').send({ edits });
    expect(problemOf(patch).code).toBe('record-invalid');
    const now = await apart.request.get(`/api/v1/harnesses/${id}`);
    expect([now.body.revision, now.body.record.name]).toEqual([1, 'Bench board']);
    await apart.close();
  });
});

describe('a circuit that cannot be', () => {
  const keepAndAsk = async (document: object, state: string) => {
    const apart = await startTestServer();
    const kept = await apart.request.post('/api/v1/harnesses').send({ record: document });
    expect(kept.status, JSON.stringify(kept.body)).toBe(201);
    const answer = await apart.request
      .post(`/api/v1/harnesses/${kept.body.harness.id}/feeds`)
      .send({ function: 'E1', state });
    await apart.close();
    return answer;
  };

  it('two batteries in parallel with opposite polarity: the answer says so or names the fuse that goes, never NaN', async () => {
    const document = spoilt(({ parts, wires }) => {
      parts.push({ ...parts[0], address: 'BAT2' });
      wires.push(
        { label: 'W21', from: 'BAT2/pos', to: 'BAT1/neg', size: '25 mm²', lengthMetres: 0.3 },
        { label: 'W22', from: 'BAT2/neg', to: 'BAT1/pos', size: '25 mm²', lengthMetres: 0.3 },
      );
    });
    const { status, body, text } = await keepAndAsk(document, 'Lamp on');
    expect(status).toBe(200);
    expect(text).not.toMatch(/NaN|Infinity/);
    expect(body.basis.settling.kind === 'impossible' || body.condition !== 'works').toBe(true);
  });

  const heavy = (label: string, from: string, to: string) => ({ label, from, to, size: '25 mm²', lengthMetres: 0.3 });

  it.each([
    [
      'a short across the battery',
      ({ wires }: Document) => {
        wires.push(heavy('W21', 'BAT1/pos', 'BAT1/neg'));
      },
    ],
    [
      'a battery of 48 V in hard parallel with one of 12 V',
      ({ parts, wires }: Document) => {
        parts.push({ ...parts[0], address: 'BAT2', emfVolts: 48 });
        wires.push(heavy('W21', 'BAT2/pos', 'BAT1/pos'), heavy('W22', 'BAT2/neg', 'BAT1/neg'));
      },
    ],
  ])('%s: impossible, with the battery named', async (_what, spoil) => {
    const { status, body, text } = await keepAndAsk(spoilt(spoil), 'Lamp on');
    expect(status).toBe(200);
    expect(text).not.toMatch(/NaN|Infinity/);
    expect(body.basis.settling.kind).toBe('impossible');
    expect(body.basis.settling.elements).toContain('BAT1:emf');
  });

  it('a state that names a switch that is not there is refused with its place', async () => {
    const apart = await startTestServer();
    const id = await apart.keep('bench-board');
    const asked = { function: 'E1', state: { name: 'asked', positions: { S9: 'on' } } };
    const problem = problemOf(await apart.request.post(`/api/v1/harnesses/${id}/feeds`).send(asked));
    expect([problem.status, problem.code]).toEqual([422, 'question-invalid']);
    expect(JSON.stringify(problem.issues)).toContain('S9');
    await apart.close();
  });

  it('a relay that interrupts its own coil: chatter, with the relay named', async () => {
    const chattering = spoilt((document) => {
      const { parts, wires } = document;
      const relay = parts.find(({ address }) => address === 'K1');
      Object.assign(relay ?? {}, { contacts: 'break' });
      const control = wires.find(({ label }) => label === 'W5');
      // The coil is fed through its own break contact.
      Object.assign(control ?? {}, { from: 'X1.receptacle/1' });
      Object.assign(wires.find(({ label }) => label === 'W7') ?? {}, { from: 'K1/87a' });
      const bridged = (it: unknown): boolean => (it as { name: string }).name === 'Relay bridged';
      Object.assign(document, { states: (document.states as unknown[]).filter((it) => !bridged(it)) });
      const [lamp] = (parts.find(({ address }) => address === 'E1')?.functions ?? []) as Record<string, unknown>[];
      delete lamp.runsIn;
    });
    const { status, body } = await keepAndAsk(chattering, 'Lamp on');
    expect(status).toBe(200);
    expect(body.basis.settling.kind).toBe('chatter');
    expect(body.basis.settling.elements).toEqual(['K1:coil']);
  });
});

describe('a body that cannot be read', () => {
  it.each([
    ['{', 'malformed-json'],
    ['', 'request-invalid'],
    ['   ', 'malformed-json'],
    ['{"record":{}}x', 'malformed-json'],
    ["{'record':1}", 'malformed-json'],
    ['{"record":NaN}', 'malformed-json'],
    ['[1,2', 'malformed-json'],
    ['null', 'request-invalid'],
    ['[]', 'request-invalid'],
    ['"text"', 'request-invalid'],
    ['{"record":[]}', 'request-invalid'],
    ['{"recrod":{}}', 'request-invalid'],
    ['{"record":{},"note":7}', 'request-invalid'],
    ['{"record":{}}', 'record-invalid'],
  ])('%s is %s', async (text, code) => {
    expect(problemOf(await post(text)).code).toBe(code);
  });

  it('names line and column of a wrong sign', async () => {
    expect(problemOf(await post('{\n  "record": {,}\n}')).detail).toContain('line 2, column 14');
  });

  it('is refused when it is not UTF-8', async () => {
    const { port } = server.app.server.address() as AddressInfo;
    // `{"ä":1}` in Latin-1
    const bytes = Buffer.from([0x7b, 0x22, 0xe4, 0x22, 0x3a, 0x31, 0x7d]);
    const response = await fetch(`http://127.0.0.1:${port}/api/v1/harnesses`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: bytes,
    });
    const problem = problemSchema.parse(await response.json());
    expect([problem.code, problem.detail]).toEqual(['malformed-json', expect.stringContaining('not UTF-8')]);
  });

  it.each(['text/plain', 'application/xml', 'multipart/form-data; boundary=x', 'application/x-www-form-urlencoded'])(
    'is refused as %s',
    async (type) => {
      const problem = problemOf(await post('{"record":{}}', type));
      expect([problem.status, problem.code]).toEqual([415, 'media-type-unsupported']);
    },
  );

  it('is refused when it is nested deeply, as lists, objects or both, however deep', async () => {
    for (const depth of [65, 1_000, 100_000]) {
      for (const [open, close] of [
        ['[', ']'],
        ['{"a":', '}'],
        ['[{"a":', '}]'],
      ]) {
        const text = `{"record":${open.repeat(depth)}1${close.repeat(depth)}}`;
        expect(problemOf(await post(text)).code, `${depth} ${open}`).toBe('body-too-deep');
      }
    }
  });

  it('is refused when it reaches for a prototype', async () => {
    for (const text of [
      '{"__proto__":{"admin":true},"record":{}}',
      '{"record":{"parts":[{"\\u005f_proto__":{}}]}}',
      '{"record":{"constructor":{"prototype":{"x":1}}}}',
    ]) {
      expect(problemOf(await post(text)).code).toBe('forbidden-key');
    }
    expect(({} as { admin?: unknown }).admin).toBeUndefined();
  });
});

describe('a body that is too large', () => {
  it('of 50 MB is refused with the limit, and the client gets to read it', async () => {
    const apart = await startTestServer();
    await apart.app.listen({ host: '127.0.0.1', port: 0 });
    const refused = await apart.request
      .post('/api/v1/harnesses')
      .set('Content-Type', 'application/json')
      .send(`{"record":"${'x'.repeat(50 * 1024 * 1024)}"}`);
    const problem = problemOf(refused);
    expect([problem.status, problem.code]).toEqual([413, 'body-too-large']);
    expect(problem.detail).toContain(String(16 * 1024 * 1024));
    expect((await apart.request.get('/api/v1/health')).status).toBe(200);
    await apart.close();
  });

  it('is refused at one byte over the limit and read at the limit', async () => {
    const limit = 1024 * 1024;
    const filled = (bytes: number): string => `{"record":"${'x'.repeat(bytes - 13)}"}`;
    expect(problemOf(await post(filled(limit))).code).toBe('request-invalid');
    expect(problemOf(await post(filled(limit + 1))).code).toBe('body-too-large');
  });

  it('is refused without a stated length too', async () => {
    const { port } = server.app.server.address() as AddressInfo;
    const answer = await raw(
      port,
      'POST /api/v1/harnesses HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nTransfer-Encoding: chunked\r\nConnection: close\r\n\r\n' +
        `200000\r\n${'x'.repeat(0x200000)}\r\n0\r\n\r\n`,
    );
    expect(answer).toMatch(/^HTTP\/1\.1 413 /);
    expect(answer).toContain('"code":"body-too-large"');
  });
});

describe('an address that is not there', () => {
  it.each([
    ['get', '/api/v1/harness', 404, 'route-not-found'],
    ['get', '/api/v2/harnesses', 404, 'route-not-found'],
    ['get', '/api/v1/harnesses/nobody', 404, 'harness-not-found'],
    ['get', '/api/v1/harnesses/nobody/revisions', 404, 'harness-not-found'],
    ['get', '/api/v1/harnesses/nobody/choices', 404, 'harness-not-found'],
    ['get', '/api/v1/harnesses/NO%20BODY', 400, 'request-invalid'],
    ['get', '/api/v1/harnesses/%00', 400, 'request-invalid'],
    ['get', '/api/v1/harnesses/..%2f..%2fetc', 400, 'request-invalid'],
    ['get', '/api/v1/harnesses/%zz', 400, 'http-malformed'],
    ['get', `/api/v1/harnesses/${'x'.repeat(101)}`, 414, 'uri-too-long'],
    ['get', '/api/v1/harnesses?limit=0', 400, 'request-invalid'],
    ['get', '/api/v1/harnesses?limit=1e9', 400, 'request-invalid'],
    ['get', '/api/v1/harnesses?order=name', 400, 'request-invalid'],
    ['get', '/api/v1/harnesses/nobody/compare?from=1', 400, 'request-invalid'],
    ['delete', '/api/v1/harnesses', 405, 'method-not-allowed'],
    ['patch', '/api/v1/harnesses', 405, 'method-not-allowed'],
    ['post', '/api/v1/health', 405, 'method-not-allowed'],
    ['get', '/api/v1/harnesses/nobody/feeds', 405, 'method-not-allowed'],
  ] as const)('%s %s is %i', async (method, url, status, code) => {
    const problem = problemOf(await server.request[method](url));
    expect([problem.status, problem.code]).toEqual([status, code]);
  });

  it('says which methods it takes', async () => {
    const refused = await server.request.delete('/api/v1/harnesses');
    expect(refused.headers.allow).toBe('GET, HEAD, POST');
  });
});

describe('what is not HTTP', () => {
  it.each([
    ['hello\r\n\r\n', 400, 'http-malformed'],
    [`GET / HTTP/1.1\r\nHost: localhost\r\nX: ${'y'.repeat(40_000)}\r\n\r\n`, 431, 'headers-too-large'],
  ])('is answered all the same', async (text, status, code) => {
    const { port } = server.app.server.address() as AddressInfo;
    const answer = await raw(port, text);
    expect(answer).toMatch(new RegExp(`^HTTP/1\\.1 ${status} `));
    expect(answer).toContain(`"code":"${code}"`);
  });

  it('may end in the middle of a body', async () => {
    const { port } = server.app.server.address() as AddressInfo;
    await new Promise<void>((resolve) => {
      const socket = connect(port, '127.0.0.1', () => {
        socket.write(
          'POST /api/v1/harnesses HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: 1000\r\n\r\n{"rec',
        );
        setTimeout(() => socket.destroy(), 50);
      });
      socket.on('close', () => resolve());
    });
  });
});

describe('a fault of the store', () => {
  it('is told as such, stores nothing, and reading goes on', async () => {
    const { failingOn, MemoryHarnessStore } = await import('../../src/store/memory/memory-harness-store.js');
    const store = new MemoryHarnessStore(failingOn('saveRevision', 'create'));
    await store.restore(
      [
        {
          id: 'board',
          createdAt: '2026-01-01T00:00:00.000Z',
          revisions: [
            {
              harness: 'board',
              revision: 1,
              savedAt: '2026-01-01T00:00:00.000Z',
              note: null,
              parts: 10,
              wires: 11,
              record: fixtureDocument('bench-board') as never,
            },
          ],
          runs: [],
          hunts: [],
          priors: null,
        },
      ],
      { replace: true },
    );
    const apart = await startTestServer({ store });
    const record = fixtureDocument('bench-board');
    for (const refused of [
      await apart.request.post('/api/v1/harnesses').send({ record }),
      await apart.request.put('/api/v1/harnesses/board').set('If-Match', '"1"').send({ record }),
    ]) {
      const problem = problemOf(refused);
      expect([problem.status, problem.code]).toEqual([503, 'store-unavailable']);
    }
    expect((await apart.request.get('/api/v1/harnesses/board')).body.revision).toBe(1);
    await apart.close();
  });

  it('that nobody expected is an internal error that tells nothing of the inside', async () => {
    const { MemoryHarnessStore } = await import('../../src/store/memory/memory-harness-store.js');
    const store = new MemoryHarnessStore(() => {
      throw new Error('secret path and password');
    });
    const apart = await startTestServer({ store });
    const refused = await apart.request.get('/api/v1/harnesses');
    expect(problemOf(refused).code).toBe('internal');
    expect(refused.text).not.toContain('secret');
    await apart.close();
  });
});

/** Sends bytes as they are and gives back all that comes until the other side closes. */
function raw(port: number, text: string): Promise<string> {
  return new Promise((resolve, reject) => {
    let answer = '';
    const socket = connect(port, '127.0.0.1', () => socket.write(text));
    socket.setEncoding('utf8');
    socket.setTimeout(10_000, () => socket.destroy(new Error('no answer')));
    socket.on('data', (chunk) => {
      answer += chunk;
    });
    socket.on('close', () => resolve(answer));
    socket.on('error', (error) => (answer === '' ? reject(error) : resolve(answer)));
  });
}
