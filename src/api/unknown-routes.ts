// Tells an unknown address (404) from a known one asked with the wrong method (405, with Allow).
// It must not answer for the page; what the page serves is registered before.

import type { FastifyInstance } from 'fastify';
import { refusal } from '../service/errors.js';

/** Must be called before the routes are registered: it learns of each as it is added. */
export function registerUnknownRoutes(app: FastifyInstance): void {
  const methodsByPattern = new Map<string, Set<string>>();

  app.addHook('onRoute', ({ url, method }) => {
    if (url.includes('*')) return;
    const methods = methodsByPattern.get(url) ?? new Set();
    for (const each of [method].flat()) methods.add(each);
    methodsByPattern.set(url, methods);
  });

  app.setNotFoundHandler((request) => {
    const path = request.url.split('?', 1)[0];
    const shown = { method: request.method, path: path.slice(0, 200) };
    const allowed = new Set(
      [...methodsByPattern].filter(([pattern]) => patternMatches(pattern, path)).flatMap(([, methods]) => [...methods]),
    );
    if (allowed.size === 0 || allowed.has(request.method)) throw refusal('route-not-found', shown);
    const allow = [...allowed].sort().join(', ');
    throw refusal('method-not-allowed', { ...shown, allowed: allow }, { allow });
  });
}

function patternMatches(pattern: string, path: string): boolean {
  const wanted = pattern.split('/');
  const steps = path.split('/');
  return wanted.length === steps.length && wanted.every((step, index) => step.includes(':') || step === steps[index]);
}
