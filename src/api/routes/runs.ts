// Routes of runs of test plans: begin, list, read, take a reading, choose the baseline.
// They must not judge a reading.

import { harnessParams, ifMatchHeader } from '../schemas/harness.js';
import { bodyProblems, problems } from '../schemas/problem.js';
import { judgedSchema, readingBody, runListSchema, runParams, runSchema, startRunBody } from '../schemas/runs.js';
import type { RouteContext } from './context.js';
import { expectedRevision, revisionOf } from './preconditions.js';

const changing = ['precondition-required', 'header-invalid', 'revision-stale', ...bodyProblems] as const;

export function runRoutes({ app, services: { runs }, security }: RouteContext): void {
  const shared = { tags: ['Proving'], security };

  app.route({
    method: 'POST',
    url: '/harnesses/:harness/runs',
    schema: {
      ...shared,
      operationId: 'startRun',
      summary: 'Begin a run of a test plan',
      description:
        'The plan is made and kept with the run. Needs If-Match: the revision that the plan is of. The first run of a kind is its as-built baseline.',
      params: harnessParams,
      headers: ifMatchHeader,
      body: startRunBody,
      response: {
        201: runSchema,
        ...problems(
          'harness-not-found',
          'revision-not-found',
          'proof-too-large',
          'answer-too-slow',
          'plan-refused',
          'question-invalid',
          ...changing,
        ),
      },
    },
    handler: async (request, reply) => {
      const run = await runs.start(request.params.harness, expectedRevision(request), request.body);
      return reply.code(201).send(revisionOf(reply, { revision: run.revision, value: run }));
    },
  });

  app.route({
    method: 'GET',
    url: '/harnesses/:harness/runs',
    schema: {
      ...shared,
      operationId: 'listRuns',
      summary: 'List the runs of plans of a harness',
      description: 'Newest first, with how far each is.',
      params: harnessParams,
      response: { 200: runListSchema, ...problems('harness-not-found') },
    },
    handler: async ({ params }) => ({ runs: await runs.list(params.harness) }),
  });

  app.route({
    method: 'GET',
    url: '/harnesses/:harness/runs/:run',
    schema: {
      ...shared,
      operationId: 'getRun',
      summary: 'Read a run: plan, readings, drift since the baseline',
      description: 'The ETag names the revision that the plan was made from.',
      params: runParams,
      response: { 200: runSchema, ...problems('harness-not-found', 'run-not-found') },
    },
    handler: async ({ params }, reply) => {
      const run = await runs.get(params.harness, params.run);
      return revisionOf(reply, { revision: run.revision, value: run });
    },
  });

  app.route({
    method: 'POST',
    url: '/harnesses/:harness/runs/:run/readings',
    schema: {
      ...shared,
      operationId: 'takeReading',
      summary: 'Keep a reading, judged at once',
      description:
        'Needs If-Match: the revision of the plan. What does not fit the step is refused with what is accepted; nothing kept before is lost.',
      params: runParams,
      headers: ifMatchHeader,
      body: readingBody,
      response: {
        200: judgedSchema,
        ...problems('harness-not-found', 'run-not-found', 'reading-invalid', 'plan-outdated', ...changing),
      },
    },
    handler: (request) => {
      const { note = null, takenAt = null, ...entry } = request.body;
      const { harness, run } = request.params;
      return runs.read(harness, run, expectedRevision(request), { ...entry, note, takenAt });
    },
  });

  app.route({
    method: 'POST',
    url: '/harnesses/:harness/runs/:run/baseline',
    schema: {
      ...shared,
      operationId: 'makeBaseline',
      summary: 'Keep this run as the as-built baseline of its kind',
      description: 'Later runs of the same kind and kit are held against it.',
      params: runParams,
      response: { 200: runSchema, ...problems('harness-not-found', 'run-not-found', 'origin-refused') },
    },
    handler: ({ params }) => runs.makeBaseline(params.harness, params.run),
  });
}
