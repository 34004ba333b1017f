// Who may ask: token, Host and Origin; and the headers that every answer carries.
// It must not test what is answered.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestServer, type TestServer } from '../support/test-server.js';

const token = 'a-token-of-some-length';
let open: TestServer;
let closed: TestServer;

beforeAll(async () => {
  open = await startTestServer({ allowedHosts: ['workshop.local'] });
  closed = await startTestServer({ token });
});

afterAll(async () => {
  await open.close();
  await closed.close();
});

describe('a server with a token', () => {
  it('asks for it on every address of the API but health and readiness', async () => {
    const refused = await closed.request.get('/api/v1/harnesses');
    expect([refused.status, refused.body.code, refused.headers['www-authenticate']]).toEqual([
      401,
      'token-required',
      'Bearer',
    ]);
    expect((await closed.request.get('/api/v1/nowhere')).status).toBe(401);
    expect((await closed.request.get('/api/v1/health')).status).toBe(200);
    expect((await closed.request.get('/api/v1/ready')).status).toBe(200);
  });

  it('takes the right one only', async () => {
    const ask = (authorization: string) => closed.request.get('/api/v1/harnesses').set('Authorization', authorization);
    expect((await ask(`Bearer ${token}`)).status).toBe(200);
    expect((await ask(`bearer ${token}`)).status).toBe(200);
    for (const wrong of ['', 'Bearer', `Bearer ${token}x`, `Bearer ${token.slice(1)}`, `Basic ${token}`, token]) {
      expect((await ask(wrong)).status, wrong).toBe(401);
    }
  });

  it('does not take it from the address', async () => {
    expect((await closed.request.get(`/api/v1/harnesses?token=${token}`)).status).toBe(401);
  });

  it('refuses before it reads a body', async () => {
    const refused = await closed.request.post('/api/v1/harnesses').set('Content-Type', 'application/json').send('{');
    expect(refused.status).toBe(401);
  });
});

describe('the Host header', () => {
  const ask = (host: string) => open.request.get('/api/v1/health').set('Host', host);

  it.each([
    'localhost',
    'localhost:4700',
    '127.0.0.1:1',
    '[::1]:4700',
    '192.168.1.20:4700',
    'LOCALHOST',
    'workshop.local:4700',
  ])('may be %s', async (host) => {
    expect((await ask(host)).status).toBe(200);
  });

  it.each([
    'attacker.example',
    'attacker.example:4700',
    'localhost.attacker.example',
    '127.0.0.1.attacker.example',
    'a@localhost',
    '',
  ])('must not be %j, which may resolve to this machine all the same', async (host) => {
    const refused = await ask(host);
    expect([refused.status, refused.body.code]).toEqual([403, 'host-refused']);
  });
});

describe('the Origin header', () => {
  const change = (origin: string) =>
    open.request.post('/api/v1/harnesses').set('Host', 'localhost:4700').set('Origin', origin).send({});

  it('may be this server`s own', async () => {
    expect((await change('http://localhost:4700')).body.code).toBe('request-invalid');
  });

  it.each(['http://attacker.example', 'http://localhost:9999', 'null', 'nonsense'])(
    'must not be %s',
    async (origin) => {
      const refused = await change(origin);
      expect([refused.status, refused.body.code]).toEqual([403, 'origin-refused']);
    },
  );

  it('hinders nobody from reading, since no answer is readable across sites', async () => {
    const read = await open.request.get('/api/v1/health').set('Origin', 'http://attacker.example');
    expect(read.status).toBe(200);
    expect(read.headers).not.toHaveProperty('access-control-allow-origin');
  });
});

describe('every answer', () => {
  it.each(['/api/v1/health', '/api/v1/nowhere', '/'])('carries the headers at %s', async (url) => {
    const { headers } = await open.request.get(url);
    const policy = headers['content-security-policy'];
    expect(policy).toContain("default-src 'self'");
    expect(policy).toContain("frame-ancestors 'none'");
    expect(policy).not.toMatch(/unsafe|upgrade-insecure-requests|https?:/);
    expect(headers['x-content-type-options']).toBe('nosniff');
    expect(headers['referrer-policy']).toBe('no-referrer');
    // Plain http on a local network: a browser must not be told to insist on https.
    expect(headers).not.toHaveProperty('strict-transport-security');
    expect(headers).not.toHaveProperty('x-powered-by');
    expect(headers['x-request-id']).toMatch(/^[0-9a-f-]{36}$/);
  });
});
