// Routes of the priors of a harness: read what hunts begin with, set factors.
// They must not learn or weigh.

import { harnessParams, ifMatchHeader } from '../schemas/harness.js';
import { priorsBody, priorsSchema } from '../schemas/priors.js';
import { bodyProblems, problems } from '../schemas/problem.js';
import type { RouteContext } from './context.js';
import { etagOf, expectedRevision } from './preconditions.js';

export function priorRoutes({ app, services: { priors }, security }: RouteContext): void {
  const shared = { tags: ['Hunts'], security, params: harnessParams };

  app.route({
    method: 'GET',
    url: '/harnesses/:harness/priors',
    schema: {
      ...shared,
      operationId: 'getPriors',
      summary: 'Read how often what fails: table, set by somebody, learned',
      description:
        'Learned from this harness’s closed hunts with a proved repair. The ETag is what a change must send as If-Match.',
      response: { 200: priorsSchema, ...problems('harness-not-found') },
    },
    handler: async ({ params }, reply) => {
      const found = await priors.get(params.harness);
      reply.header('etag', etagOf(found.version));
      return found;
    },
  });

  app.route({
    method: 'PUT',
    url: '/harnesses/:harness/priors',
    schema: {
      ...shared,
      operationId: 'setPriors',
      summary: 'Set factors on the priors of a harness',
      description: 'In place of those set before; hunts that began earlier keep theirs. Needs If-Match.',
      headers: ifMatchHeader,
      body: priorsBody,
      response: {
        200: priorsSchema,
        ...problems('harness-not-found', 'precondition-required', 'header-invalid', 'priors-stale', ...bodyProblems),
      },
    },
    handler: async (request, reply) => {
      const { learns, factors } = request.body;
      const set = await priors.put(request.params.harness, expectedRevision(request), learns, factors);
      reply.header('etag', etagOf(set.version));
      return set;
    },
  });
}
