// Routes of the one-file backup: take it, restore it.
// They must not hold the whole backup as one string when taking it.

import type { IncomingMessage } from 'node:http';
import { Readable } from 'node:stream';
import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import { readBody } from '../json-body.js';
import { problems } from '../schemas/problem.js';
import type { RouteContext } from './context.js';

const tags = ['Backup'];
export const backupMediaType = 'application/x-ndjson';

const restoredSchema = z
  .strictObject({ harnesses: z.int(), revisions: z.int(), runs: z.int(), hunts: z.int() })
  .meta({ id: 'RestoreReport', description: 'What was put in.' });

export function backupRoutes({ app, services: { backups }, security, restoreLimitBytes }: RouteContext): void {
  app.addContentTypeParser(backupMediaType, async (request: FastifyRequest, payload: IncomingMessage) =>
    (await readBody(payload, request.routeOptions.bodyLimit)).toString('utf8'),
  );

  app.route({
    method: 'GET',
    url: '/backup',
    schema: {
      operationId: 'takeBackup',
      summary: 'Take a backup of everything',
      description:
        'All harnesses, revisions, runs of plans and hunts as JSON lines; the last line holds the SHA-256 of all bytes before it.',
      tags,
      security,
      response: {
        200: { description: 'The backup', content: { [backupMediaType]: { schema: z.string() } } },
        ...problems(),
      },
    },
    handler: async (_request, reply) => {
      const lines = await backups.backup();
      reply.type(backupMediaType).header('content-disposition', 'attachment; filename="lastgood-backup.jsonl"');
      // The declared body is text; a stream of it is sent as it is made.
      return reply.send(Readable.from(lines, { objectMode: false }) as unknown as string);
    },
  });

  app.route({
    method: 'POST',
    url: '/restore',
    bodyLimit: restoreLimitBytes,
    config: { accepts: backupMediaType },
    schema: {
      operationId: 'restoreBackup',
      summary: 'Restore a backup',
      description: 'All of it or nothing. Without `replace` no harness of the backup may be here already.',
      tags,
      security,
      querystring: z.strictObject({
        replace: z.enum(['true', 'false']).default('false').describe('true: everything here goes first'),
      }),
      consumes: [backupMediaType],
      body: z.string().describe('The file as the backup wrote it'),
      response: {
        200: restoredSchema,
        ...problems('backup-invalid', 'harness-exists', 'body-too-large', 'media-type-unsupported', 'origin-refused'),
      },
    },
    handler: ({ body, query }) => backups.restore(body, { replace: query.replace === 'true' }),
  });
}
