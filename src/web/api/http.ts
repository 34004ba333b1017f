// One request to our own API: JSON in, JSON or a problem document out, never an exception.
// It must not know any single operation, and must not talk to another host.

import { storedToken } from '../state/token.js';
import type { Issue } from './types.js';

/** What the page shows when something was refused or could not be reached. */
export interface Problem {
  /** `offline` and `unreadable` are the page's own; all others come from the server's catalogue. */
  readonly code: string;
  readonly title: string;
  readonly detail: string;
  readonly hint: string;
  readonly status: number;
  readonly issues: readonly Issue[];
  readonly issueCount: number;
  readonly currentRevision: number | null;
  readonly differences: readonly { readonly text: string }[];
}

export type Result<T> =
  | { readonly ok: true; readonly value: T; readonly etag: string | null }
  | { readonly ok: false; readonly problem: Problem };

export interface RequestOptions {
  readonly body?: unknown;
  /** Revision that a change starts from. */
  readonly ifMatch?: string;
  readonly signal?: AbortSignal;
}

const base = 'api/v1/';

export async function request<T>(method: string, path: string, options: RequestOptions = {}): Promise<Result<T>> {
  const headers: Record<string, string> = { accept: 'application/json, application/problem+json' };
  const token = storedToken();
  if (token !== null) headers.authorization = `Bearer ${token}`;
  if (options.body !== undefined) headers['content-type'] = 'application/json';
  if (options.ifMatch !== undefined) headers['if-match'] = options.ifMatch;
  try {
    const response = await fetch(base + path, {
      method,
      headers,
      body: options.body === undefined ? undefined : JSON.stringify(options.body),
      signal: options.signal,
    });
    const text = await response.text();
    const value: unknown = text === '' ? null : JSON.parse(text);
    return response.ok
      ? { ok: true, value: value as T, etag: response.headers.get('etag') }
      : { ok: false, problem: asProblem(value, response.status) };
  } catch (error) {
    return { ok: false, problem: error instanceof SyntaxError ? unreadable : offline };
  }
}

const ownProblem = (code: string, title: string, detail: string, hint: string): Problem => ({
  code,
  title,
  detail,
  hint,
  status: 0,
  issues: [],
  issueCount: 0,
  currentRevision: null,
  differences: [],
});

export const offline = ownProblem(
  'offline',
  'The server cannot be reached',
  'The question was not answered.',
  'Readings that you enter are kept here and sent when it is back.',
);

const unreadable = ownProblem(
  'unreadable',
  'The answer could not be read',
  'Something between this page and the server sent something else.',
  'Check the address, then reload the page.',
);

function asProblem(value: unknown, status: number): Problem {
  const given = (typeof value === 'object' && value !== null ? value : {}) as Partial<Problem>;
  return {
    code: given.code ?? 'unreadable',
    title: given.title ?? 'The server refused',
    detail: given.detail ?? `It answered with status ${status}.`,
    hint: given.hint ?? '',
    status,
    issues: given.issues ?? [],
    issueCount: given.issueCount ?? given.issues?.length ?? 0,
    currentRevision: given.currentRevision ?? null,
    differences: given.differences ?? [],
  };
}

/** A path of segments, each encoded; `undefined` values of the query are left out. */
export function path(
  segments: readonly string[],
  query: Readonly<Record<string, string | number | undefined>> = {},
): string {
  const given = Object.entries(query).filter((entry): entry is [string, string | number] => entry[1] !== undefined);
  const search = new URLSearchParams(given.map(([key, value]) => [key, String(value)])).toString();
  return segments.map(encodeURIComponent).join('/') + (search === '' ? '' : `?${search}`);
}
