// Addresses within the page, the part behind #: what each means, and how links write them.
// It must not look at the browser's address itself; `route` does.

export type Route =
  | { readonly page: 'start' }
  | { readonly page: 'import' }
  | { readonly page: 'settings' }
  | { readonly page: 'ask'; readonly harness: string }
  | { readonly page: 'feeds'; readonly harness: string; readonly target: string }
  | { readonly page: 'profile'; readonly harness: string; readonly target: string }
  | { readonly page: 'pull'; readonly harness: string; readonly targets: readonly string[] }
  | { readonly page: 'read'; readonly harness: string; readonly targets: readonly string[] }
  | { readonly page: 'plug'; readonly harness: string; readonly target: string }
  | { readonly page: 'free'; readonly harness: string; readonly target: string }
  | { readonly page: 'map'; readonly harness: string; readonly target: string }
  | { readonly page: 'record'; readonly harness: string }
  | { readonly page: 'part'; readonly harness: string; readonly target: string }
  | { readonly page: 'wire'; readonly harness: string; readonly target: string }
  | { readonly page: 'history'; readonly harness: string; readonly from?: number; readonly to?: number }
  | { readonly page: 'hunts'; readonly harness: string }
  | { readonly page: 'hunt'; readonly harness: string; readonly target: string }
  | { readonly page: 'plans'; readonly harness: string }
  | { readonly page: 'findings'; readonly harness: string }
  | { readonly page: 'sneaks'; readonly harness: string }
  | { readonly page: 'run'; readonly harness: string; readonly target: string }
  | { readonly page: 'print'; readonly harness: string; readonly target: string }
  | { readonly page: 'unknown' };

const withTarget = new Set([
  'feeds',
  'profile',
  'plug',
  'free',
  'map',
  'part',
  'wire',
  'hunt',
  'run',
  'print',
] as const);
const withTargets = new Set(['pull', 'read'] as const);
const withHarness = new Set(['ask', 'record', 'hunts', 'plans', 'findings', 'sneaks'] as const);

type TargetPage = Extract<Route, { target: string }>['page'];
type TargetsPage = Extract<Route, { targets: readonly string[] }>['page'];
type HarnessPage = 'ask' | 'record' | 'hunts' | 'plans' | 'findings' | 'sneaks';

export function readRoute(hash: string): Route {
  const parts = hash.replace(/^#\/?/, '').split('/').map(decoded);
  const [first = '', harness = '', page = 'ask', ...rest] = parts;
  if (first === '') return { page: 'start' };
  if (first === 'import' || first === 'settings') return { page: first };
  if (first !== 'h' || harness === '') return { page: 'unknown' };
  if (withHarness.has(page as HarnessPage)) return { page: page as HarnessPage, harness };
  if (page === 'history') {
    const [from, to] = rest.map(Number);
    return from > 0 && to > 0 ? { page, harness, from, to } : { page, harness };
  }
  if (withTargets.has(page as TargetsPage)) {
    return { page: page as TargetsPage, harness, targets: rest.filter((target) => target !== '') };
  }
  if (withTarget.has(page as TargetPage) && rest[0]) return { page: page as TargetPage, harness, target: rest[0] };
  return { page: 'unknown' };
}

const decoded = (text: string): string => {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
};

const join = (...parts: readonly string[]): string => `#/${parts.map(encodeURIComponent).join('/')}`;

/** Addresses of the pages, for `href`. */
export const to = {
  start: '#/',
  import: '#/import',
  settings: '#/settings',
  home: (harness: string): string => join('h', harness),
  page: (harness: string, page: HarnessPage | 'history'): string => join('h', harness, page),
  at: (harness: string, page: TargetPage, target: string): string => join('h', harness, page, target),
  many: (harness: string, page: TargetsPage, targets: readonly string[]): string =>
    join('h', harness, page, ...targets),
  compare: (harness: string, a: number, b: number): string => join('h', harness, 'history', String(a), String(b)),
};
