// Routes of the questions asked of a harness. POST, because a state may be spelled out; nothing is changed by any of them.
// They must not compute anything: the answer goes out as the core made it.

import type { StateChoice } from '../../service/question-reader.js';
import type { RevisionChoice } from '../../service/questions.js';
import type { SolvedState } from '../../service/solved-state.js';
import { harnessParams } from '../schemas/harness.js';
import { bodyProblems, problems } from '../schemas/problem.js';
import {
  feedsAnswer,
  functionBody,
  plugCircuitsAnswer,
  plugCircuitsBody,
  profileAnswer,
  readingsAnswer,
  readingsBody,
  revisionQuery,
  separationAnswer,
  separationBody,
  solveBody,
  solvedSchema,
  unplugAnswer,
  unplugBody,
} from '../schemas/questions.js';
import type { RouteContext } from './context.js';
import { revisionOf } from './preconditions.js';

const questionProblems = problems(
  'harness-not-found',
  'revision-not-found',
  'question-invalid',
  'answer-too-slow',
  ...bodyProblems,
);

export function questionRoutes({ app, services: { questions }, security }: RouteContext): void {
  /** What `include` may add to an answer. */
  const included = async (at: RevisionChoice, state: StateChoice): Promise<{ solution: SolvedState }> => ({
    solution: (await questions.solve(at, state)).value,
  });

  const shared = { tags: ['Questions'], security, params: harnessParams, querystring: revisionQuery };

  app.route({
    method: 'POST',
    url: '/harnesses/:harness/feeds',
    schema: {
      ...shared,
      operationId: 'askFeeds',
      summary: 'What feeds this load?',
      description:
        'Supply, return and control paths element by element with expected volts, shares of parallel feeds, single points of failure, conditions, fuses, and what shares them.',
      body: functionBody,
      response: { 200: feedsAnswer, ...questionProblems },
    },
    handler: async (request, reply) => {
      const { state = null, include, ...fields } = request.body;
      const at = choiceOf(request);
      const answer = revisionOf(reply, await questions.ask(at, 'feeds', { ...fields, state }));
      return include.length === 0 ? answer : { ...answer, ...(await included(at, state)) };
    },
  });

  app.route({
    method: 'POST',
    url: '/harnesses/:harness/unplug',
    schema: {
      ...shared,
      operationId: 'askUnplug',
      summary: 'What breaks if these plugs are pulled?',
      description: 'Loads that die, weaken, stay or start; relays and modules that change; live pins; what floats.',
      body: unplugBody,
      response: { 200: unplugAnswer, ...questionProblems },
    },
    handler: async (request, reply) => {
      const { state = null, include, ...fields } = request.body;
      const at = choiceOf(request);
      const answer = revisionOf(reply, await questions.ask(at, 'unplug', { ...fields, state }));
      return include.length === 0 ? answer : { ...answer, ...(await included(at, state)) };
    },
  });

  app.route({
    method: 'POST',
    url: '/harnesses/:harness/readings',
    schema: {
      ...shared,
      operationId: 'askReadings',
      summary: 'What should the meter read here?',
      description:
        'For each pair of points: the healthy value, with the load connected and unplugged, by kind of meter.',
      body: readingsBody,
      response: { 200: readingsAnswer, ...questionProblems },
    },
    handler: async (request, reply) => {
      const { state = null, include, ...fields } = request.body;
      const at = choiceOf(request);
      const answer = revisionOf(reply, await questions.ask(at, 'readings', { ...fields, state }));
      return include.length === 0 ? answer : { ...answer, ...(await included(at, state)) };
    },
  });

  app.route({
    method: 'POST',
    url: '/harnesses/:harness/profile',
    schema: {
      ...shared,
      operationId: 'askProfile',
      summary: 'How do the volts fall along this circuit?',
      description:
        'Every point along feed and return path with expected volts, drop and limit: a bad joint shows as a step.',
      body: functionBody,
      response: { 200: profileAnswer, ...questionProblems },
    },
    handler: async (request, reply) => {
      const { state = null, include, ...fields } = request.body;
      const at = choiceOf(request);
      const answer = revisionOf(reply, await questions.ask(at, 'profile', { ...fields, state }));
      return include.length === 0 ? answer : { ...answer, ...(await included(at, state)) };
    },
  });

  app.route({
    method: 'POST',
    url: '/harnesses/:harness/plug-circuits',
    schema: {
      ...shared,
      operationId: 'askPlugCircuits',
      summary: 'Which circuits run through this plug?',
      description: 'Per cavity its wires and the functions that it feeds, returns or controls, over all states.',
      body: plugCircuitsBody,
      response: { 200: plugCircuitsAnswer, ...questionProblems },
    },
    handler: async (request, reply) =>
      revisionOf(reply, await questions.ask(choiceOf(request), 'plug-circuits', request.body)),
  });

  app.route({
    method: 'POST',
    url: '/harnesses/:harness/separation',
    schema: {
      ...shared,
      operationId: 'askSeparation',
      summary: 'What must come off to free this assembly or isolate this circuit?',
      description:
        'Fewest plugs, then easiest access; wires that tie without a plug; pins left live in the state asked.',
      body: separationBody,
      response: { 200: separationAnswer, ...questionProblems },
    },
    handler: async (request, reply) => {
      const { state = null, ...target } = request.body;
      return revisionOf(reply, await questions.ask(choiceOf(request), 'separation', { ...target, state }));
    },
  });

  app.route({
    method: 'POST',
    url: '/harnesses/:harness/solve',
    schema: {
      ...shared,
      operationId: 'solveState',
      summary: 'The whole picture of a state',
      description: 'Volts of every point and amps of every element: more than the answers give, for other tools.',
      body: solveBody,
      response: { 200: solvedSchema, ...questionProblems },
    },
    handler: async (request, reply) =>
      revisionOf(reply, await questions.solve(choiceOf(request), request.body.state ?? null)),
  });
}

const choiceOf = ({
  params,
  query,
}: {
  readonly params: { readonly harness: string };
  readonly query: { readonly revision?: number };
}): RevisionChoice => ({ harness: params.harness, revision: query.revision });
