// Security headers of every answer, chosen for a page over plain http on a local network as well as over https.
// It must not ask browsers for https by itself: a machine in a workshop has no public certificate.

import helmet from '@fastify/helmet';
import type { FastifyInstance } from 'fastify';

export async function registerSecurityHeaders(
  app: FastifyInstance,
  options: { readonly https: boolean },
): Promise<void> {
  await app.register(helmet, {
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        defaultSrc: ["'self'"],
        imgSrc: ["'self'", 'data:'],
        objectSrc: ["'none'"],
        baseUri: ["'none'"],
        formAction: ["'self'"],
        frameAncestors: ["'none'"],
      },
    },
    // Browsers ignore, and complain about, these two on an origin that they do not trust.
    crossOriginOpenerPolicy: options.https ? { policy: 'same-origin' } : false,
    originAgentCluster: options.https,
    // A certificate made here is no promise for years.
    hsts: false,
    referrerPolicy: { policy: 'no-referrer' },
    xFrameOptions: { action: 'deny' },
  });
}
