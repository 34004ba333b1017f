// Routes that prove a harness: findings and their acceptance, test plans, sneak search.
// They must not compute anything: the answer goes out as the core made it.

import { harnessParams, ifMatchHeader, savedSchema } from '../schemas/harness.js';
import { bodyProblems, problems } from '../schemas/problem.js';
import {
  acceptBody,
  findingsAnswer,
  planAnswer,
  planBody,
  sneaksAnswer,
  sneaksBody,
  withdrawBody,
} from '../schemas/proving.js';
import { revisionQuery } from '../schemas/questions.js';
import type { RouteContext } from './context.js';
import { etagOf, expectedRevision, revisionOf } from './preconditions.js';

const proofProblems = ['harness-not-found', 'revision-not-found', 'proof-too-large', 'answer-too-slow'] as const;

export function provingRoutes({ app, services: { proving }, security }: RouteContext): void {
  const shared = { tags: ['Proving'], security, params: harnessParams };
  const changes = {
    200: savedSchema,
    ...problems(
      ...proofProblems,
      'finding-not-found',
      'precondition-required',
      'header-invalid',
      'revision-stale',
      'record-invalid',
      ...bodyProblems,
    ),
  };

  app.route({
    method: 'GET',
    url: '/harnesses/:harness/findings',
    schema: {
      ...shared,
      operationId: 'findMistakes',
      summary: 'What is wrong with this record?',
      description:
        'Worst first, each with its numbers, limit, source and remedy. Accepted ones stand apart, with the reason.',
      querystring: revisionQuery,
      response: { 200: findingsAnswer, ...problems(...proofProblems) },
    },
    handler: async ({ params, query }, reply) =>
      revisionOf(reply, await proving.findings({ harness: params.harness, revision: query.revision })),
  });

  app.route({
    method: 'POST',
    url: '/harnesses/:harness/findings/accept',
    schema: {
      ...shared,
      operationId: 'acceptFinding',
      summary: 'Accept a finding by name, with the reason',
      description: 'The reason is kept in the record, as a new revision; the finding is told apart from then on.',
      headers: ifMatchHeader,
      body: acceptBody,
      response: changes,
    },
    handler: async (request, reply) => {
      const { reason, ...finding } = request.body;
      const saved = await proving.accept(request.params.harness, expectedRevision(request), finding, reason);
      reply.header('etag', etagOf(saved.head.revision));
      return { harness: saved.head, warnings: saved.warnings };
    },
  });

  app.route({
    method: 'POST',
    url: '/harnesses/:harness/findings/withdraw',
    schema: {
      ...shared,
      operationId: 'withdrawAcceptance',
      summary: 'Withdraw an acceptance',
      description: 'The finding stands again, from a new revision on.',
      headers: ifMatchHeader,
      body: withdrawBody,
      response: changes,
    },
    handler: async (request, reply) => {
      const saved = await proving.withdraw(request.params.harness, expectedRevision(request), request.body);
      reply.header('etag', etagOf(saved.head.revision));
      return { harness: saved.head, warnings: saved.warnings };
    },
  });

  app.route({
    method: 'POST',
    url: '/harnesses/:harness/plans',
    schema: {
      ...shared,
      operationId: 'makePlan',
      summary: 'Make a test plan',
      description:
        'Continuity, isolation, voltage drop, first power-up or parasitic draw. A first power-up is refused while findings of the highest severity stand.',
      querystring: revisionQuery,
      body: planBody,
      response: {
        200: planAnswer,
        ...problems(...proofProblems, 'plan-refused', 'question-invalid', ...bodyProblems),
      },
    },
    handler: async ({ params, query, body }, reply) =>
      revisionOf(reply, await proving.plan({ harness: params.harness, revision: query.revision }, body)),
  });

  app.route({
    method: 'POST',
    url: '/harnesses/:harness/sneaks',
    schema: {
      ...shared,
      operationId: 'findSneaks',
      summary: 'Which loads get current while their own feed is off?',
      description:
        'Over the switch states, and with each single ground and plug lost. Near the deadline it tells what it has, and that it is not all.',
      querystring: revisionQuery,
      body: sneaksBody,
      response: { 200: sneaksAnswer, ...problems(...proofProblems, ...bodyProblems) },
    },
    handler: async ({ params, query, body }, reply) =>
      revisionOf(reply, await proving.sneaks({ harness: params.harness, revision: query.revision }, body.maxSolves)),
  });
}
