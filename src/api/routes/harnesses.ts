// Routes of harnesses: make, list, read, replace, edit, remove.
// They must not decide anything: each reads the request, calls one use case and gives its value back.

import { z } from 'zod';
import {
  editsBody,
  harnessId,
  harnessPageSchema,
  harnessParams,
  ifMatchHeader,
  recordBody,
  revisionSchema,
  savedSchema,
} from '../schemas/harness.js';
import { bodyProblems, problems } from '../schemas/problem.js';
import type { RouteContext } from './context.js';
import { etagOf, expectedRevision, isKnown, noBody } from './preconditions.js';

const tags = ['Harnesses'];
const empty = z.null().describe('No body');

export function harnessRoutes({ app, services: { harnesses }, security }: RouteContext): void {
  app.route({
    method: 'GET',
    url: '/harnesses',
    schema: {
      operationId: 'listHarnesses',
      summary: 'List the harnesses',
      description: 'Heads without records, in ascending order of id, a page at a time.',
      tags,
      security,
      querystring: z.strictObject({
        limit: z.coerce.number().int().min(1).max(200).default(100),
        after: harnessId.optional().describe('`next` of the page before'),
      }),
      response: { 200: harnessPageSchema, ...problems() },
    },
    handler: ({ query: { limit, after } }) => harnesses.list({ limit, after: after ?? null }),
  });

  app.route({
    method: 'POST',
    url: '/harnesses',
    schema: {
      operationId: 'createHarness',
      summary: 'Keep a new harness',
      description:
        'Checks the record whole; every problem is told at once, and nothing is stored unless there is none.',
      tags,
      security,
      body: recordBody,
      response: { 201: savedSchema, ...problems('record-invalid', ...bodyProblems) },
    },
    handler: async ({ body }, reply) => {
      const { head, warnings } = await harnesses.create(body.record, body.note ?? null);
      reply.code(201).header('location', `/api/v1/harnesses/${head.id}`).header('etag', etagOf(head.revision));
      return { harness: head, warnings };
    },
  });

  app.route({
    method: 'GET',
    url: '/harnesses/:harness',
    schema: {
      operationId: 'getHarness',
      summary: 'Read the newest revision of a harness',
      description:
        'The ETag is what a change must send as If-Match. With If-None-Match answers 304 when nothing changed.',
      tags,
      security,
      params: harnessParams,
      response: { 200: revisionSchema, 304: empty, ...problems('harness-not-found') },
    },
    handler: async (request, reply) => {
      const { revision } = await harnesses.head(request.params.harness);
      if (isKnown(request, reply, revision)) return reply.code(304).send(noBody);
      return harnesses.get(request.params.harness, revision);
    },
  });

  app.route({
    method: 'PUT',
    url: '/harnesses/:harness',
    schema: {
      operationId: 'replaceHarness',
      summary: 'Keep a new revision of the whole record',
      description:
        'Needs If-Match. When somebody saved in the meantime, 412 tells what they changed, and nothing of yours is stored.',
      tags,
      security,
      params: harnessParams,
      headers: ifMatchHeader,
      body: recordBody,
      response: { 200: savedSchema, ...problems(...changeProblems, 'record-invalid', ...bodyProblems) },
    },
    handler: async (request, reply) => {
      const { record, note } = request.body;
      const saved = await harnesses.replace(request.params.harness, expectedRevision(request), record, note ?? null);
      reply.header('etag', etagOf(saved.head.revision));
      return { harness: saved.head, warnings: saved.warnings };
    },
  });

  app.route({
    method: 'PATCH',
    url: '/harnesses/:harness',
    schema: {
      operationId: 'editHarness',
      summary: 'Keep a new revision made by small edits',
      description: 'Edits apply in order, all or none; the edited record is checked whole. Needs If-Match.',
      tags,
      security,
      params: harnessParams,
      headers: ifMatchHeader,
      body: editsBody,
      response: { 200: savedSchema, ...problems(...changeProblems, 'record-invalid', 'edit-invalid', ...bodyProblems) },
    },
    handler: async (request, reply) => {
      const { edits, note } = request.body;
      const saved = await harnesses.edit(request.params.harness, expectedRevision(request), edits, note ?? null);
      reply.header('etag', etagOf(saved.head.revision));
      return { harness: saved.head, warnings: saved.warnings };
    },
  });

  app.route({
    method: 'DELETE',
    url: '/harnesses/:harness',
    schema: {
      operationId: 'deleteHarness',
      summary: 'Remove a harness with all its revisions',
      description: 'Needs If-Match. There is no way back but a backup.',
      tags,
      security,
      params: harnessParams,
      headers: ifMatchHeader,
      response: { 204: empty, ...problems(...changeProblems, 'origin-refused') },
    },
    handler: async (request, reply) => {
      await harnesses.remove(request.params.harness, expectedRevision(request));
      return reply.code(204).send(noBody);
    },
  });
}

const changeProblems = ['harness-not-found', 'precondition-required', 'header-invalid', 'revision-stale'] as const;
