// Keeps the page's own files in the browser, so that it opens where there is no signal.
// It must not keep answers of the API: what a person reads offline is kept, and marked as such, by the page itself.

/** The few parts of the worker's world that are used here; the compiler's own list clashes with the page's. */
interface WorkerScope {
  addEventListener(
    type: 'install' | 'activate',
    listener: (event: { waitUntil(work: Promise<unknown>): void }) => void,
  ): void;
  addEventListener(
    type: 'fetch',
    listener: (event: { readonly request: Request; respondWith(answer: Promise<Response>): void }) => void,
  ): void;
  skipWaiting(): Promise<void>;
  readonly clients: { claim(): Promise<void> };
  readonly registration: { readonly scope: string };
}

interface BuiltFile {
  readonly file: string;
  readonly css?: readonly string[];
}

const scope = self as unknown as WorkerScope;
const home = scope.registration.scope;
const cachePrefix = 'lastgood-page-';
/** The drawing's layout engine is large, and nobody needs a drawing without a connection. */
const isTooLarge = (file: string): boolean => file.includes('elk-worker');
const slowNetworkMillis = 2_500;

scope.addEventListener('install', (event) => event.waitUntil(fetchAll().then(() => scope.skipWaiting())));
scope.addEventListener('activate', (event) => event.waitUntil(dropOld().then(() => scope.clients.claim())));
scope.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET' || !request.url.startsWith(home)) return;
  const path = request.url.slice(home.length).split(/[?#]/, 1)[0];
  if (path.startsWith('api/')) return;
  if (path.startsWith('assets/')) event.respondWith(fromCacheFirst(request));
  else event.respondWith(fromNetworkFirst(request));
});

let currentCache: string | null = null;

async function fetchAll(): Promise<void> {
  const text = await (await fetch(`${home}built-files.json`, { cache: 'no-store' })).text();
  const built = Object.values(JSON.parse(text) as Record<string, BuiltFile>);
  const files = new Set(built.flatMap(({ file, css = [] }) => [file, ...css]).filter((file) => !isTooLarge(file)));
  files.delete('service-worker.js');
  currentCache = cachePrefix + (await digest(text));
  const cache = await caches.open(currentCache);
  await cache.addAll([home, ...['manifest.webmanifest', 'icon.svg', ...files].map((file) => home + file)]);
}

async function dropOld(): Promise<void> {
  if (currentCache === null) return;
  const old = (await caches.keys()).filter((key) => key.startsWith(cachePrefix) && key !== currentCache);
  await Promise.all(old.map((key) => caches.delete(key)));
}

async function fromCacheFirst(request: Request): Promise<Response> {
  return (await caches.match(request)) ?? fetch(request);
}

/** Asks the server, but does not let a person stand and wait for one that is out of reach. */
async function fromNetworkFirst(request: Request): Promise<Response> {
  const kept = caches.match(request, { ignoreSearch: true });
  const fresh = fetch(request);
  const first = await Promise.race([fresh.catch(() => null), after(slowNetworkMillis)]);
  if (first !== null) return first;
  return (await kept) ?? fresh;
}

const after = (millis: number): Promise<null> => new Promise((resolve) => setTimeout(() => resolve(null), millis));

async function digest(text: string): Promise<string> {
  const bytes = new Uint8Array(await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text)));
  return [...bytes.slice(0, 8)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}
