// Who may ask: the Host header must be ours, changes must not come from another site's page, a token must match when one is set.
// It must not look at bodies or routes beyond their path.

import { createHash, timingSafeEqual } from 'node:crypto';
import { isIP } from 'node:net';
import type { FastifyInstance, FastifyRequest } from 'fastify';
import { refusal } from '../service/errors.js';

export interface GuardOptions {
  /** Names besides IP addresses and localhost, in lower case. */
  readonly allowedHosts: readonly string[];
  /** Null: none is asked for. */
  readonly token: string | null;
}

const safeMethods: ReadonlySet<string> = new Set(['GET', 'HEAD', 'OPTIONS']);
/** A load balancer asks for these without a token; they tell nothing of the content. */
const openPaths: ReadonlySet<string> = new Set(['/api/v1/health', '/api/v1/ready']);

export function registerGuards(app: FastifyInstance, { allowedHosts, token }: GuardOptions): void {
  const hosts = new Set(allowedHosts);
  const expected = token === null ? null : digest(token);

  app.addHook('onRequest', async (request) => {
    const host = request.headers.host ?? '';
    if (!isOurs(host, hosts)) throw refusal('host-refused', { host: host.slice(0, 100) });
    const { origin } = request.headers;
    if (!safeMethods.has(request.method) && origin !== undefined && !isSameOrigin(origin, request)) {
      throw refusal('origin-refused', { origin: origin.slice(0, 100) });
    }
    if (expected !== null && needsToken(request.url) && !timingSafeEqual(digest(tokenOf(request)), expected)) {
      throw refusal('token-required', {});
    }
  });
}

/**
 * A name that resolves to this machine may belong to anybody (DNS rebinding), an address cannot: so any IP address is taken, and of
 * names only localhost and those allowed.
 */
function isOurs(host: string, allowed: ReadonlySet<string>): boolean {
  const name = hostName(host);
  return name !== null && (isIP(name) !== 0 || name === 'localhost' || allowed.has(name));
}

function hostName(host: string): string | null {
  const match = /^(?:\[([0-9a-f:.]+)\]|([^:[\]/\s@]+))(?::\d{1,5})?$/i.exec(host);
  return match === null ? null : (match[1] ?? match[2]).toLowerCase();
}

function isSameOrigin(origin: string, request: FastifyRequest): boolean {
  try {
    return new URL(origin).host.toLowerCase() === (request.headers.host ?? '').toLowerCase();
  } catch {
    return false;
  }
}

function needsToken(url: string): boolean {
  const path = url.split('?', 1)[0];
  return path.startsWith('/api/') && !openPaths.has(path);
}

const tokenOf = ({ headers }: FastifyRequest): string =>
  /^Bearer ([\x21-\x7e]+)$/i.exec(headers.authorization ?? '')?.[1] ?? '';

/** Digests have one length, so that the comparison takes one time whatever was sent. */
const digest = (text: string): Buffer => createHash('sha256').update(text).digest();
