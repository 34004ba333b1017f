// Routes of a harness's history: list, read one, compare two.
// They must not change anything.

import { z } from 'zod';
import {
  comparisonSchema,
  harnessParams,
  revisionListSchema,
  revisionNumber,
  revisionParams,
  revisionSchema,
} from '../schemas/harness.js';
import { problems } from '../schemas/problem.js';
import type { RouteContext } from './context.js';

const tags = ['Revisions'];

export function revisionRoutes({ app, services: { harnesses }, security }: RouteContext): void {
  app.route({
    method: 'GET',
    url: '/harnesses/:harness/revisions',
    schema: {
      operationId: 'listRevisions',
      summary: 'List the revisions of a harness',
      description: 'Newest first, without their records. Old revisions stay readable.',
      tags,
      security,
      params: harnessParams,
      response: { 200: revisionListSchema, ...problems('harness-not-found') },
    },
    handler: async ({ params }) => ({ revisions: await harnesses.revisions(params.harness) }),
  });

  app.route({
    method: 'GET',
    url: '/harnesses/:harness/revisions/:revision',
    schema: {
      operationId: 'getRevision',
      summary: 'Read one revision',
      description: 'The record as it was then.',
      tags,
      security,
      params: revisionParams,
      response: { 200: revisionSchema, ...problems('harness-not-found', 'revision-not-found') },
    },
    handler: ({ params }) => harnesses.get(params.harness, params.revision),
  });

  app.route({
    method: 'GET',
    url: '/harnesses/:harness/compare',
    schema: {
      operationId: 'compareRevisions',
      summary: 'Tell what differs between two revisions',
      description: 'In the trade’s words: `wire L12 moved from X4/3 to X4/5`.',
      tags,
      security,
      params: harnessParams,
      querystring: z.strictObject({ from: revisionNumber, to: revisionNumber }),
      response: { 200: comparisonSchema, ...problems('harness-not-found', 'revision-not-found') },
    },
    handler: ({ params, query }) => harnesses.compare(params.harness, query.from, query.to),
  });
}
