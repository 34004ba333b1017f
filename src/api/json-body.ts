// Reads JSON bodies: size, encoding, nesting and forbidden keys are checked before any schema sees the value.
// It must not know what the document means.

import type { IncomingMessage } from 'node:http';
import type { FastifyInstance, FastifyRequest } from 'fastify';
import { refusal } from '../service/errors.js';

export const nestingLimit = 64;

/** Takes `application/json` bodies on every route of `app`, each up to the route's own limit. */
export function registerJsonBody(app: FastifyInstance): void {
  app.removeAllContentTypeParsers();
  app.addContentTypeParser('application/json', async (request: FastifyRequest, payload: IncomingMessage) => {
    const bytes = await readBody(payload, request.routeOptions.bodyLimit);
    return bytes.length === 0 ? undefined : parseJson(bytes);
  });
}

/**
 * The whole body. What exceeds `limitBytes` is read on and thrown away up to eight times the limit before `body-too-large` is told:
 * a client that is cut off while it sends sees a broken connection instead of the answer.
 */
export async function readBody(payload: IncomingMessage, limitBytes: number): Promise<Buffer> {
  const chunks: Buffer[] = [];
  let received = 0;
  for await (const chunk of payload as AsyncIterable<Buffer>) {
    received += chunk.length;
    if (received <= limitBytes) chunks.push(chunk);
    else chunks.length = 0;
    if (received > limitBytes * 8) break;
  }
  if (received > limitBytes) throw refusal('body-too-large', { limitBytes });
  return Buffer.concat(chunks);
}

/** The value of a JSON text in UTF-8. Throws `malformed-json`, `body-too-deep` or `forbidden-key`. */
export function parseJson(bytes: Uint8Array): unknown {
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw refusal('malformed-json', { reason: 'it is not UTF-8' });
  }
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    throw refusal('malformed-json', { reason: placeOf(error as SyntaxError, text) });
  }
  refuseHostile(value);
  return value;
}

/** Line and column of a syntax error. The engine's own message echoes the text, which may be anything. */
function placeOf({ message }: SyntaxError, text: string): string {
  const at = /position (\d+)/.exec(message);
  if (at === null) return text.trim() === '' ? 'it is empty' : 'it ends too early or begins with a wrong sign';
  const before = text.slice(0, Number(at[1])).split('\n');
  return `a wrong sign at line ${before.length}, column ${before[before.length - 1].length + 1}`;
}

/** Walks without recursion, so that no nesting can exhaust the stack. */
function refuseHostile(root: unknown): void {
  let level: { readonly value: object; readonly path: string }[] = isObject(root) ? [{ value: root, path: '' }] : [];
  for (let depth = 1; level.length > 0; depth++) {
    if (depth > nestingLimit) throw refusal('body-too-deep', { limit: nestingLimit });
    const next: typeof level = [];
    for (const { value, path } of level) {
      const isList = Array.isArray(value);
      for (const key of Object.keys(value)) {
        const child = (value as Record<string, unknown>)[key];
        if (!isList && isForbidden(key, child)) {
          throw refusal('forbidden-key', { key, path: path === '' ? '/' : path.slice(0, 200) });
        }
        if (isObject(child))
          next.push({ value: child, path: path.length > 200 ? path : `${path}/${key.slice(0, 60)}` });
      }
    }
    level = next;
  }
}

/** Keys through which a careless copy would reach every object's prototype. */
function isForbidden(key: string, child: unknown): boolean {
  return key === '__proto__' || (key === 'constructor' && isObject(child) && Object.hasOwn(child, 'prototype'));
}

const isObject = (value: unknown): value is object => typeof value === 'object' && value !== null;
