// Routes that tell what can be asked about: choices, states, search.
// They must not solve anything.

import { z } from 'zod';
import { harnessParams } from '../schemas/harness.js';
import { problems } from '../schemas/problem.js';
import { choicesSchema, foundSchema, revisionQuery, statesSchema } from '../schemas/questions.js';
import type { RouteContext } from './context.js';
import { revisionOf } from './preconditions.js';

export function lookUpRoutes({ app, services: { questions }, security }: RouteContext): void {
  const shared = { tags: ['Look-ups'], security, params: harnessParams };
  const lookUpProblems = problems('harness-not-found', 'revision-not-found');

  app.route({
    method: 'GET',
    url: '/harnesses/:harness/choices',
    schema: {
      ...shared,
      operationId: 'getChoices',
      summary: 'What can be asked about and set',
      description: 'Functions, plugs, positions, outputs, states and assemblies: all that a page needs to offer.',
      querystring: revisionQuery,
      response: { 200: choicesSchema, ...lookUpProblems },
    },
    handler: async ({ params, query }, reply) => revisionOf(reply, await questions.choices({ ...params, ...query })),
  });

  app.route({
    method: 'GET',
    url: '/harnesses/:harness/states',
    schema: {
      ...shared,
      operationId: 'listStates',
      summary: 'The named states of a harness',
      description: 'Whole, so that one can be changed and asked about.',
      querystring: revisionQuery,
      response: { 200: statesSchema, ...lookUpProblems },
    },
    handler: async ({ params, query }, reply) => ({
      states: revisionOf(reply, await questions.states({ ...params, ...query })),
    }),
  });

  app.route({
    method: 'GET',
    url: '/harnesses/:harness/find',
    schema: {
      ...shared,
      operationId: 'findAddresses',
      summary: 'Find what a few words mean',
      description:
        'Every address, label, load, plug and state: `x4 3`, `left dip`, `G2`. Every word must stand in what is found.',
      querystring: revisionQuery.extend({
        q: z.string().min(1).max(80),
        limit: z.coerce.number().int().min(1).max(200).default(20),
      }),
      response: { 200: foundSchema, ...lookUpProblems },
    },
    handler: async ({ params, query: { q, limit, revision } }, reply) => ({
      found: revisionOf(reply, await questions.find({ ...params, revision }, q, limit)),
    }),
  });
}
