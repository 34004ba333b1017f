// A whole server in this process over a store in memory, with a clock and ids that tests can foresee.
// It must not listen; supertest opens a port of its own for each request.

import type { FastifyInstance } from 'fastify';
import supertest from 'supertest';
import { type ApiOptions, buildApp } from '../../src/api/app.js';
import type { HarnessStore } from '../../src/service/ports/harness-store.js';
import { workHere } from '../../src/service/proof/work-here.js';
import { createServices, type Services } from '../../src/service/services.js';
import { MemoryHarnessStore } from '../../src/store/memory/memory-harness-store.js';
import { MemoryHuntStore } from '../../src/store/memory/memory-hunt-store.js';
import { MemoryRunStore } from '../../src/store/memory/memory-run-store.js';
import { type FixtureName, fixtureDocument } from './fixture-records.js';

export interface TestServer {
  readonly app: FastifyInstance;
  readonly services: Services;
  readonly store: HarnessStore;
  readonly request: ReturnType<typeof supertest>;
  /** Keeps a fixture and gives its id. */
  keep(fixture: FixtureName): Promise<string>;
  close(): Promise<void>;
}

export interface TestServerOptions extends Partial<ApiOptions> {
  readonly store?: HarnessStore;
  readonly deadlineMs?: number;
}

export async function startTestServer(options: TestServerOptions = {}): Promise<TestServer> {
  const { store = new MemoryHarnessStore(), deadlineMs = 60_000, ...api } = options;
  let ticks = 0;
  let ids = 0;
  const services = createServices({
    store,
    hunts: store instanceof MemoryHarnessStore ? store.hunts : new MemoryHuntStore(),
    runs: store instanceof MemoryHarnessStore ? store.runs : new MemoryRunStore(),
    work: workHere(() => performance.now()),
    clock: () => new Date(Date.UTC(2026, 0, 1) + 1000 * ticks++).toISOString(),
    newId: () => `h${++ids}`,
    stopwatch: () => performance.now(),
    deadlineMs,
    cachedModels: 4,
    demoDocuments: () => [{ id: 'bench-board', document: fixtureDocument('bench-board') }],
  });
  const app = await buildApp({
    services,
    allowedHosts: [],
    token: null,
    bodyLimitBytes: 16 * 1024 * 1024,
    restoreLimitBytes: 64 * 1024 * 1024,
    pageFolder: null,
    https: null,
    logger: false,
    ...api,
  });
  await app.ready();
  return {
    app,
    services,
    store,
    request: supertest(app.server),
    async keep(fixture) {
      const { head } = await services.harnesses.create(fixtureDocument(fixture), null);
      return head.id;
    },
    close: () => app.close(),
  };
}
