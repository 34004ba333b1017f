// Serves the built page at `/`, when there is one.
// It must not answer under /api, and must not reach outside its folder.

import { existsSync } from 'node:fs';
import { join } from 'node:path';
import fastifyStatic from '@fastify/static';
import type { FastifyInstance } from 'fastify';

/** Registers the page in `folder`; without an index.html there nothing is served. */
export async function registerPage(app: FastifyInstance, folder: string): Promise<void> {
  if (!existsSync(join(folder, 'index.html'))) return;
  await app.register(fastifyStatic, {
    root: folder,
    // One route per file that is there now: no other name can ever reach the disk.
    wildcard: false,
    cacheControl: false,
    schemaHide: true,
    setHeaders: (reply, path) => {
      // The builder puts a digest into the names of its assets; everything else must be asked for anew.
      const isHashed = /[\\/]assets[\\/]/.test(path);
      reply.header('cache-control', isHashed ? 'public, max-age=31536000, immutable' : 'no-cache');
    },
  });
}
