// The demonstration on request: put in once, left alone after, and never over a harness of the same id.
// It must not depend on which vehicles the demonstration holds.

import { afterAll, beforeAll, expect, it } from 'vitest';
import { startTestServer, type TestServer } from '../support/test-server.js';

let server: TestServer;
beforeAll(async () => {
  server = await startTestServer();
});
afterAll(() => server.close());

it('puts the demonstration in, and leaves alone what is there', async () => {
  const first = await server.request.post('/api/v1/demo');
  expect([first.status, first.body]).toEqual([200, { harnesses: ['bench-board'] }]);
  const kept = await server.request.get('/api/v1/harnesses/bench-board');
  expect(kept.body).toMatchObject({ revision: 1, record: { invented: true } });
  const again = await server.request.post('/api/v1/demo');
  expect([again.status, again.body]).toEqual([200, { harnesses: [] }]);
});
