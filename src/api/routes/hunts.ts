// Routes of the hunt: start, list, read, answer a check, take back, go on to the next phase.
// They must not interpret a log.

import { harnessParams } from '../schemas/harness.js';
import {
  answerBody,
  correctionBody,
  entryParams,
  huntListSchema,
  huntParams,
  huntSchema,
  phaseBody,
  startBody,
  undoBody,
} from '../schemas/hunts.js';
import { bodyProblems, problems } from '../schemas/problem.js';
import type { RouteContext } from './context.js';

export function huntRoutes({ app, services: { hunts }, security }: RouteContext): void {
  const shared = { tags: ['Hunts'], security };
  const changes = {
    200: huntSchema,
    ...problems(
      'harness-not-found',
      'hunt-not-found',
      'hunt-entry-invalid',
      'question-invalid',
      'answer-too-slow',
      ...bodyProblems,
    ),
  };

  app.route({
    method: 'POST',
    url: '/harnesses/:harness/hunts',
    schema: {
      ...shared,
      operationId: 'startHunt',
      summary: 'Start a hunt from what is wrong',
      description: 'What still works counts as well. The hunt stays tied to the newest revision of now.',
      params: harnessParams,
      body: startBody,
      response: {
        201: huntSchema,
        ...problems('harness-not-found', 'question-invalid', 'answer-too-slow', ...bodyProblems),
      },
    },
    handler: async ({ params, body }, reply) => {
      const hunt = await hunts.start(params.harness, body.symptoms, body.instruments);
      return reply.code(201).send(hunt);
    },
  });

  app.route({
    method: 'GET',
    url: '/harnesses/:harness/hunts',
    schema: {
      ...shared,
      operationId: 'listHunts',
      summary: 'List the hunts of a harness',
      description: 'Newest first.',
      params: harnessParams,
      response: { 200: huntListSchema, ...problems('harness-not-found') },
    },
    handler: async ({ params }) => ({ hunts: await hunts.list(params.harness) }),
  });

  app.route({
    method: 'GET',
    url: '/harnesses/:harness/hunts/:hunt',
    schema: {
      ...shared,
      operationId: 'getHunt',
      summary: 'Read a hunt: next check, suspects, log',
      description: 'Worked out anew from the log each time.',
      params: huntParams,
      response: { 200: huntSchema, ...problems('harness-not-found', 'hunt-not-found', 'answer-too-slow') },
    },
    handler: ({ params }) => hunts.get(params.harness, params.hunt),
  });

  app.route({
    method: 'POST',
    url: '/harnesses/:harness/hunts/:hunt/entries',
    schema: {
      ...shared,
      operationId: 'answerCheck',
      summary: 'Tell what a check showed, or that it cannot be reached',
      description: 'Appends to the log. An answer kept offline may be sent late, and twice.',
      params: huntParams,
      body: answerBody,
      response: changes,
    },
    handler: ({ params, body }) => hunts.answer(params.harness, params.hunt, body.id, body.check, body.answer),
  });

  app.route({
    method: 'POST',
    url: '/harnesses/:harness/hunts/:hunt/entries/:entry/correction',
    schema: {
      ...shared,
      operationId: 'correctReading',
      summary: 'Correct what a reading showed',
      description: 'The reading stays in the log as it was; from now on it counts as corrected.',
      params: entryParams,
      body: correctionBody,
      response: changes,
    },
    handler: ({ params, body }) => hunts.correct(params.harness, params.hunt, body.id, params.entry, body.answer),
  });

  app.route({
    method: 'POST',
    url: '/harnesses/:harness/hunts/:hunt/undo',
    schema: {
      ...shared,
      operationId: 'undoHuntEntries',
      summary: 'Take entries back',
      description: 'They stay in the log, marked as undone.',
      params: huntParams,
      body: undoBody,
      response: changes,
    },
    handler: ({ params, body }) => hunts.undo(params.harness, params.hunt, body.to),
  });

  app.route({
    method: 'POST',
    url: '/harnesses/:harness/hunts/:hunt/phase',
    schema: {
      ...shared,
      operationId: 'advanceHunt',
      summary: 'Say that the repair is done, or close the hunt',
      description:
        '`proving`: something was mended, the proof comes next: first the complaint, then the drop across the mended place and what shares it, each of which may be left out. `closed`: the hunt is over.',
      params: huntParams,
      body: phaseBody,
      response: changes,
    },
    handler: ({ params, body }) => hunts.advance(params.harness, params.hunt, body.phase, body.repairs ?? null),
  });
}
