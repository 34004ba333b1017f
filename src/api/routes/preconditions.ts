// Reads and writes the headers by which changes say what they start from: ETag, If-Match, If-None-Match.
// It must not accept a wildcard or a weak tag: either would let a change be lost.

import type { FastifyReply, FastifyRequest } from 'fastify';
import { refusal } from '../../service/errors.js';

export const etagOf = (revision: number): string => `"${revision}"`;

/** The revision in If-Match. Throws `precondition-required` or `header-invalid`. */
export function expectedRevision({ headers }: FastifyRequest): number {
  const value = headers['if-match'];
  if (value === undefined || value === '') throw refusal('precondition-required', {});
  const match = /^"([1-9]\d{0,8})"$/.exec(value);
  if (match === null) {
    throw refusal('header-invalid', {
      header: 'If-Match',
      value: value.slice(0, 60),
      accepted: 'one ETag as this server gave it, such as "3"',
    });
  }
  return Number(match[1]);
}

/** Sets the ETag; true when the caller already has this revision, and 304 without a body will do. */
export function isKnown(request: FastifyRequest, reply: FastifyReply, revision: number): boolean {
  const etag = etagOf(revision);
  reply.header('etag', etag).header('cache-control', 'no-cache');
  return (request.headers['if-none-match'] ?? '').split(/\s*,\s*/).includes(etag);
}

/** Sent where there is no body: undefined passes the serialisers by, null would be written as a text. */
export const noBody = undefined as unknown as null;

/** Names the revision that an answer was made from in its ETag, and gives the answer itself back. */
export function revisionOf<T>(reply: FastifyReply, { revision, value }: { revision: number; value: T }): T {
  reply.header('etag', etagOf(revision));
  return value;
}
