// Puts the server together: guards, headers, bodies, errors, routes, page. Everything it needs is handed in.
// It must not choose a store, read the environment or listen.

import { randomUUID } from 'node:crypto';
import fastifySwagger from '@fastify/swagger';
import Fastify, { type FastifyInstance, type FastifyServerOptions } from 'fastify';
import { jsonSchemaTransform, jsonSchemaTransformObject } from 'fastify-type-provider-zod';
import { type $ZodType, safeParse } from 'zod/v4/core';
import { refusal } from '../service/errors.js';
import type { Services } from '../service/services.js';
import { answerClientError, pathParameterLimit, registerErrorHandler, sendProblem } from './error-handler.js';
import { registerGuards } from './guards.js';
import { registerJsonBody } from './json-body.js';
import { apiInfo } from './openapi-info.js';
import { registerPage } from './page.js';
import { backupRoutes } from './routes/backups.js';
import type { RouteContext, ZodApp } from './routes/context.js';
import { demoRoutes } from './routes/demo.js';
import { harnessRoutes } from './routes/harnesses.js';
import { healthRoutes } from './routes/health.js';
import { huntRoutes } from './routes/hunts.js';
import { importRoutes } from './routes/imports.js';
import { lookUpRoutes } from './routes/look-ups.js';
import { priorRoutes } from './routes/priors.js';
import { provingRoutes } from './routes/proving.js';
import { questionRoutes } from './routes/questions.js';
import { revisionRoutes } from './routes/revisions.js';
import { runRoutes } from './routes/runs.js';
import { schemaIssues } from './schema-issues.js';
import { registerSecurityHeaders } from './security-headers.js';
import { strictSerializer } from './strict-serializer.js';
import { registerUnknownRoutes } from './unknown-routes.js';

export interface ApiOptions {
  readonly services: Services;
  readonly allowedHosts: readonly string[];
  readonly token: string | null;
  readonly bodyLimitBytes: number;
  readonly restoreLimitBytes: number;
  /** Folder of the built page; null: API only. */
  readonly pageFolder: string | null;
  /** Key and certificate in PEM; null: plain http. */
  readonly https: { readonly key: string; readonly cert: string } | null;
  readonly logger: FastifyServerOptions['logger'];
}

export async function buildApp(options: ApiOptions): Promise<FastifyInstance> {
  const app = Fastify({
    ...(options.https === null ? {} : { https: options.https }),
    bodyLimit: options.bodyLimitBytes,
    routerOptions: { maxParamLength: pathParameterLimit },
    requestTimeout: 60_000,
    genReqId: () => randomUUID(),
    logger: options.logger,
    frameworkErrors: sendProblem,
    clientErrorHandler: answerClientError,
    // A refusal must not wait for the rest of a body that nobody reads.
    forceCloseConnections: 'idle',
  }) as unknown as FastifyInstance;

  app.setValidatorCompiler<$ZodType>(({ schema, httpPart }) => (value) => {
    const result = safeParse(schema, value);
    if (result.success) return { value: result.data };
    const issues = schemaIssues(result.error.issues, value, httpPart ?? 'body');
    return { error: refusal('request-invalid', { count: issues.length }, { issues }) };
  });
  app.setSerializerCompiler(strictSerializer());

  // Names the request in the answer as the log does.
  app.addHook('onRequest', async (request, reply) => {
    reply.header('x-request-id', request.id);
  });
  registerErrorHandler(app);
  registerGuards(app, options);
  await registerSecurityHeaders(app, { https: options.https !== null });
  registerJsonBody(app);
  registerUnknownRoutes(app);
  await app.register(fastifySwagger, {
    openapi: apiInfo,
    transform: jsonSchemaTransform,
    transformObject: jsonSchemaTransformObject,
  });
  await app.register(
    async (scope) => {
      const context: RouteContext = {
        app: scope.withTypeProvider() as ZodApp,
        services: options.services,
        security: [{ token: [] }, {}],
        restoreLimitBytes: options.restoreLimitBytes,
      };
      harnessRoutes(context);
      revisionRoutes(context);
      importRoutes(context);
      demoRoutes(context);
      questionRoutes(context);
      lookUpRoutes(context);
      huntRoutes(context);
      priorRoutes(context);
      provingRoutes(context);
      runRoutes(context);
      backupRoutes(context);
      healthRoutes(context);
    },
    { prefix: '/api/v1' },
  );
  if (options.pageFolder !== null) await registerPage(app, options.pageFolder);
  return app;
}
