// An answer that does not have its published shape is an error, never trimmed; and every route publishes a shape for it.
// It must not repeat the shapes.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestServer, type TestServer } from '../support/test-server.js';

let server: TestServer;
const routes: { url: string; method: string; statuses: string[] }[] = [];

beforeAll(async () => {
  server = await startTestServer();
});

afterAll(() => server.close());

describe('an answer', () => {
  const spoilt = async (spoil: (value: Record<string, unknown>) => unknown) => {
    const { services } = server;
    const apart = await startTestServer({
      services: {
        ...services,
        harnesses: {
          ...services.harnesses,
          list: async (page) => spoil({ ...(await services.harnesses.list(page)) }) as never,
        },
      },
    });
    const answer = await apart.request.get('/api/v1/harnesses');
    await apart.close();
    return answer;
  };

  it('goes out when it has its shape', async () => {
    expect((await spoilt((value) => value)).status).toBe(200);
  });

  it.each([
    ['a key too many', (value: Record<string, unknown>) => ({ ...value, secret: 1 })],
    ['a key too few', ({ harnesses }: Record<string, unknown>) => ({ harnesses })],
    ['a wrong type', (value: Record<string, unknown>) => ({ ...value, next: 7 })],
    ['a list entry of the wrong shape', (value: Record<string, unknown>) => ({ ...value, harnesses: [{ id: 'x' }] })],
  ])('with %s is refused whole', async (_what, spoil) => {
    const answer = await spoilt(spoil);
    expect([answer.status, answer.body.code]).toEqual([500, 'response-mismatch']);
    expect(answer.text).not.toContain('secret');
  });
});

describe('every route of the description', () => {
  it('publishes a success and the errors that it can meet', async () => {
    const { openApiDocument } = await import('../../src/api/openapi-document.js');
    const document = await openApiDocument();
    for (const [url, path] of Object.entries(document.paths ?? {})) {
      for (const [method, operation] of Object.entries(path ?? {})) {
        routes.push({ url, method, statuses: Object.keys((operation as { responses: object }).responses) });
      }
    }
    expect(routes.length).toBeGreaterThan(20);
    for (const { url, method, statuses } of routes) {
      const at = `${method} ${url}`;
      expect(
        statuses.some((status) => /^2\d\d$/.test(status)),
        at,
      ).toBe(true);
      expect(
        statuses.some((status) => /^4\d\d$/.test(status)),
        at,
      ).toBe(true);
    }
  });
});
