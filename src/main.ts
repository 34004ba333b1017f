// The one place that wires: settings, store, use cases, API, page. Starts the server and ends it in good order.
// It must not hold a rule of its own; what can be tested stands in the layers.

import { randomBytes } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { networkInterfaces } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { renderUnicodeCompact } from 'uqr';
import { buildApp } from './api/app.js';
import { type DemoDocument, fillWhenEmpty } from './service/demo.js';
import { ServiceError } from './service/errors.js';
import type { Clock, IdSource } from './service/ports/clock.js';
import { proofPool } from './service/proof/proof-pool.js';
import { createServices } from './service/services.js';
import { isLoopback, readSettings, type Settings } from './service/settings.js';
import { type ShareIdentity, shareIdentity } from './service/share/share-identity.js';
import { openDatabase } from './store/sqlite/open-database.js';
import { SqliteHarnessStore } from './store/sqlite/sqlite-harness-store.js';
import { SqliteHuntStore } from './store/sqlite/sqlite-hunt-store.js';
import { SqliteRunStore } from './store/sqlite/sqlite-run-store.js';

const clock: Clock = () => new Date().toISOString();
/** 80 random bits: no two alike, however many servers give them out. */
const newId: IdSource = () =>
  `h${BigInt(`0x${randomBytes(10).toString('hex')}`)
    .toString(36)
    .padStart(16, '0')}`;

const besideThis = (path: string): string => fileURLToPath(new URL(path, import.meta.url));
const demoNames = ['tern', 'trailer', 'bench-board'];

/** Where the page was built to, seen from src as well as from dist. */
const pageFolder = besideThis(import.meta.url.endsWith('.ts') ? '../dist/web' : './web');

/** The thread that proves, as built: it stands in dist also when the sources run. */
const proofWorker = besideThis(
  import.meta.url.endsWith('.ts') ? '../dist/service/proof/proof-worker.js' : './service/proof/proof-worker.js',
);
const proofThreads = 2;

function demoDocuments(): readonly DemoDocument[] {
  return demoNames
    .map((id) => ({ id, file: besideThis(`../fixtures/${id}/record.json`) }))
    .filter(({ file }) => existsSync(file))
    .map(({ id, file }) => ({ id, document: JSON.parse(readFileSync(file, 'utf8')) as unknown }));
}

/** This machine's IPv4 addresses on its networks. */
const networkAddresses = (): readonly string[] =>
  Object.values(networkInterfaces())
    .flatMap((addresses) => addresses ?? [])
    .filter(({ family, internal }) => family === 'IPv4' && !internal)
    .map(({ address }) => address);

async function start(settings: Settings): Promise<void> {
  const shared = settings.share
    ? shareIdentity(join(dirname(settings.file), 'share.json'), networkAddresses(), new Date())
    : null;
  const connection = openDatabase(settings.file);
  const store = new SqliteHarnessStore(connection);
  const work = proofPool(proofWorker, proofThreads);
  const services = createServices({
    store,
    hunts: new SqliteHuntStore(connection),
    runs: new SqliteRunStore(connection),
    work,
    clock,
    newId,
    stopwatch: () => performance.now(),
    deadlineMs: settings.deadlineMs,
    cachedModels: settings.cachedModels,
    demoDocuments,
  });
  if (settings.demo) await fillWhenEmpty(store, services.demo);

  const token = settings.token === '' ? (shared?.token ?? null) : settings.token;
  const app = await buildApp({
    services,
    allowedHosts: settings.allowedHosts,
    token,
    bodyLimitBytes: settings.bodyLimitMb * 1024 * 1024,
    restoreLimitBytes: settings.restoreLimitMb * 1024 * 1024,
    pageFolder,
    https: shared === null ? null : { key: shared.key, cert: shared.cert },
    logger: settings.log === 'silent' ? false : { level: settings.log },
  });

  let stopping = false;
  const stop = async (): Promise<void> => {
    if (stopping) return;
    stopping = true;
    // Finishes what was accepted, then lets go of the file.
    await app.close();
    await work.close();
    await store.close();
  };
  process.once('SIGINT', stop);
  process.once('SIGTERM', stop);

  try {
    await app.listen({ host: listeningHost(settings), port: settings.port });
  } catch (error) {
    await stop();
    throw error;
  }
  const { port } = app.server.address() as AddressInfo;
  announce(settings, shared, token, port);
}

/** Sharing opens every network of this machine, unless one address was asked for. */
const listeningHost = ({ share, host }: Settings): string => (share && isLoopback(host) ? '0.0.0.0' : host);

function announce(settings: Settings, shared: ShareIdentity | null, token: string | null, port: number): void {
  const host = settings.host.includes(':') ? `[${settings.host}]` : settings.host;
  console.log(`Lastgood listens on ${shared === null ? 'http' : 'https'}://${host}:${port}`);
  if (shared === null || token === null) return;
  // The token stands behind the #, which a browser keeps to itself.
  const links = networkAddresses().map((address) => `https://${address}:${port}/#token=${encodeURIComponent(token)}`);
  for (const link of links) console.log(`On this network: ${link}`);
  if (links.length > 0) console.log(renderUnicodeCompact(links[0]));
  console.log('The certificate was made on this machine; the phone asks once whether to trust it.');
}

function giveUp(lines: readonly string[]): void {
  for (const line of lines) console.error(line);
  process.exitCode = 1;
}

const read = readSettings(process.env, process.argv.slice(2));
if (!read.ok) giveUp(read.problems);
else {
  await start(read.settings).catch((error: unknown) => {
    if (error instanceof ServiceError) {
      const issues = error.extras.issues?.map(({ path, reason }) => `  ${path}: ${reason}`) ?? [];
      return giveUp([error.message, ...issues]);
    }
    if ((error as { code?: unknown } | null)?.code === 'EADDRINUSE') {
      return giveUp([`Port ${read.settings.port} is in use; choose another with --port.`]);
    }
    throw error;
  });
}
