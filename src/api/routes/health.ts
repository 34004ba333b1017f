// Routes by which a supervisor learns whether the server lives and can answer.
// They must not tell anything of what is stored: they are open without a token.

import { z } from 'zod';
import { problemsOf } from '../schemas/problem.js';
import type { RouteContext } from './context.js';

const tags = ['Health'];
const statusSchema = z.strictObject({ status: z.enum(['ok', 'unavailable']) }).meta({ id: 'Health' });

export function healthRoutes({ app, services }: RouteContext): void {
  app.route({
    method: 'GET',
    url: '/health',
    schema: {
      operationId: 'getHealth',
      summary: 'Whether the server lives',
      description: 'Answers as long as the process does.',
      tags,
      security: [],
      response: { 200: statusSchema, ...problemsOf(['host-refused']) },
    },
    handler: async () => ({ status: 'ok' as const }),
  });

  app.route({
    method: 'GET',
    url: '/ready',
    schema: {
      operationId: 'getReady',
      summary: 'Whether the server can answer',
      description: '503 while the store cannot be read.',
      tags,
      security: [],
      response: { 200: statusSchema, 503: statusSchema, ...problemsOf(['host-refused']) },
    },
    handler: async (_request, reply) => {
      if (await services.ready()) return { status: 'ok' as const };
      reply.code(503);
      return { status: 'unavailable' as const };
    },
  });
}
