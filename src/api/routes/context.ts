// What every group of routes is given.
// It must not hold anything that changes between requests.

import type {
  FastifyBaseLogger,
  FastifyInstance,
  RawReplyDefaultExpression,
  RawRequestDefaultExpression,
  RawServerDefault,
} from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import type { Services } from '../../service/services.js';

export type ZodApp = FastifyInstance<
  RawServerDefault,
  RawRequestDefaultExpression,
  RawReplyDefaultExpression,
  FastifyBaseLogger,
  ZodTypeProvider
>;

export interface RouteContext {
  readonly app: ZodApp;
  readonly services: Services;
  /** Security requirement of an operation, as OpenAPI puts it. */
  readonly security: readonly Record<string, string[]>[];
  readonly restoreLimitBytes: number;
}
