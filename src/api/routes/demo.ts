// The route that brings in the demonstration harnesses.
// It must not know what they are.

import { z } from 'zod';
import { problems } from '../schemas/problem.js';
import type { RouteContext } from './context.js';

export function demoRoutes({ app, services: { demo }, security }: RouteContext): void {
  app.route({
    method: 'POST',
    url: '/demo',
    schema: {
      operationId: 'loadDemo',
      summary: 'Bring in the demonstration harnesses',
      description: 'Invented vehicles, marked as such. Those that are there already stay as they are.',
      tags: ['Harnesses'],
      security,
      response: {
        200: z
          .strictObject({ harnesses: z.array(z.string()).readonly().describe('Ids of those that were put in now') })
          .meta({ id: 'LoadedDemo' }),
        ...problems('record-invalid'),
      },
    },
    handler: async () => ({ harnesses: await demo.load() }),
  });
}
