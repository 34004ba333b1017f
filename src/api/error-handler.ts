// Makes every error a problem document: the catalogue's own, Fastify's, Node's parser's, and those nobody expected.
// It must not leak what an unexpected error says; that goes to the log alone.

import { STATUS_CODES } from 'node:http';
import type { Socket } from 'node:net';
import type { FastifyError, FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { isResponseSerializationError } from 'fastify-type-provider-zod';
import { refusal, ServiceError } from '../service/errors.js';
import { problemDocument } from '../service/problem.js';

export const problemMediaType = 'application/problem+json';
/** Longest single path parameter; ids and sheet names are far shorter. */
export const pathParameterLimit = 100;

export function registerErrorHandler(app: FastifyInstance): void {
  app.setErrorHandler((error: FastifyError, request, reply) => sendProblem(error, request, reply));
}

/** Sends the problem document for `error`, whatever it is. */
export function sendProblem(error: unknown, request: FastifyRequest, reply: FastifyReply): FastifyReply {
  const refused = asServiceError(error, request);
  if (refused.status >= 500) request.log.error({ err: error, code: refused.code }, refused.message);
  if (refused.extras.allow !== undefined) reply.header('allow', refused.extras.allow);
  if (refused.code === 'token-required') reply.header('www-authenticate', 'Bearer');
  const document = problemDocument(refused, request.url.split('?', 1)[0]);
  // A string passes Fastify's serialisers untouched: the document is the same whether or not the route lists the status.
  return reply.code(refused.status).type(problemMediaType).send(JSON.stringify(document));
}

function asServiceError(error: unknown, request: FastifyRequest): ServiceError {
  if (error instanceof ServiceError) return error;
  if (isResponseSerializationError(error)) return refusal('response-mismatch', {}, {}, error);
  switch ((error as FastifyError | null)?.code) {
    case 'FST_ERR_CTP_BODY_TOO_LARGE':
      return refusal('body-too-large', { limitBytes: request.routeOptions.bodyLimit });
    case 'FST_ERR_CTP_INVALID_MEDIA_TYPE':
      return refusal('media-type-unsupported', {
        received: (request.headers['content-type'] ?? 'of no stated type').slice(0, 100),
        accepted: acceptedTypes(request),
      });
    case 'FST_ERR_CTP_INVALID_CONTENT_LENGTH':
      return refusal('http-malformed', { reason: 'the body is not as long as Content-Length says' });
    case 'FST_ERR_BAD_URL':
      return refusal('http-malformed', { reason: 'the address holds a wrong percent sign' });
    case 'FST_ERR_MAX_PARAM_LENGTH':
      return refusal('uri-too-long', { limit: pathParameterLimit });
    case 'ECONNRESET':
    case 'ERR_STREAM_PREMATURE_CLOSE':
      return refusal('http-malformed', { reason: 'the connection ended before the body did' });
    default:
      return refusal('internal', {}, {}, error);
  }
}

const acceptedTypes = (request: FastifyRequest): string =>
  (request.routeOptions.config as { accepts?: string }).accepts ?? 'application/json';

/** Answers what Node's HTTP parser refuses, for which there is no request: the reply is written by hand. */
export function answerClientError(error: Error & { code?: string }, socket: Socket): void {
  if (error.code === 'ECONNRESET' || !socket.writable) {
    socket.destroy();
    return;
  }
  const refused =
    error.code === 'HPE_HEADER_OVERFLOW'
      ? refusal('headers-too-large', {})
      : refusal('http-malformed', {
          reason: error.code === 'ERR_HTTP_REQUEST_TIMEOUT' ? 'it did not arrive in time' : 'a wrong sign in its head',
        });
  const body = JSON.stringify(problemDocument(refused, '/'));
  const head = [
    `HTTP/1.1 ${refused.status} ${STATUS_CODES[refused.status]}`,
    `content-type: ${problemMediaType}`,
    `content-length: ${Buffer.byteLength(body)}`,
    'connection: close',
  ];
  socket.end(`${head.join('\r\n')}\r\n\r\n${body}`);
}
