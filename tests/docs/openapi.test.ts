// The committed description of the API is what the routes say, and is sound as an OpenAPI document.
// When it fails: npm run openapi. What a linter finds is `npm run openapi:lint`.

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openApiDocument } from '../../src/api/openapi-document.js';
import { problemKinds } from '../../src/service/errors.js';
import { repositoryRoot } from '../architecture/read-modules.js';

const text = readFileSync(join(repositoryRoot, 'openapi/openapi.json'), 'utf8');
const committed = JSON.parse(text) as Awaited<ReturnType<typeof openApiDocument>>;

interface Operation {
  readonly operationId: string;
  readonly summary: string;
  readonly description: string;
  readonly tags: readonly string[];
  readonly security: unknown;
  readonly responses: Readonly<Record<string, { description: string; content?: object }>>;
}

const operations = Object.entries(committed.paths ?? {}).flatMap(([path, methods]) =>
  Object.entries(methods ?? {}).map(([method, operation]) => ({
    at: `${method} ${path}`,
    operation: operation as unknown as Operation,
  })),
);

describe('openapi/openapi.json', () => {
  it('is what the routes say today', async () => {
    expect(text).toBe(`${JSON.stringify(await openApiDocument(), null, 2)}\n`);
  });

  it('is OpenAPI 3.1', () => {
    expect(committed.openapi).toBe('3.1.0');
  });

  it('tells of every operation what it is called, what it does, and who may call it', () => {
    expect(operations.length).toBeGreaterThan(20);
    for (const { at, operation } of operations) {
      expect(operation.operationId, at).toMatch(/^[a-z][A-Za-z]+$/);
      expect(operation.summary, at).toMatch(/^[A-Z]/);
      expect(operation.description.length, at).toBeGreaterThan(10);
      expect(operation.tags.length, at).toBe(1);
      expect(operation.security, at).toBeDefined();
    }
    expect(new Set(operations.map(({ operation }) => operation.operationId)).size).toBe(operations.length);
  });

  it('describes every answer', () => {
    for (const { at, operation } of operations) {
      for (const [status, { description }] of Object.entries(operation.responses)) {
        expect(description, `${at} ${status}`).not.toBe('Default Response');
        expect(description, `${at} ${status}`).not.toBe('');
      }
    }
  });

  it('tells errors as problem documents, with every code of the catalogue', () => {
    for (const { at, operation } of operations) {
      for (const [status, { content = {} }] of Object.entries(operation.responses)) {
        if (Number(status) < 400 || at.endsWith('/ready')) continue;
        expect(Object.keys(content), `${at} ${status}`).toEqual(['application/problem+json']);
      }
    }
    const problem = committed.components?.schemas?.Problem as unknown as { properties: { code: { enum: string[] } } };
    expect(problem.properties.code.enum).toEqual(Object.keys(problemKinds));
  });

  it('refers to no schema that it lacks, and holds none that nothing refers to', () => {
    const named = new Set(Object.keys(committed.components?.schemas ?? {}));
    const used = new Set([...text.matchAll(/"#\/components\/schemas\/([^"]+)"/g)].map((match) => match[1]));
    expect([...used].filter((name) => !named.has(name))).toEqual([]);
    expect([...named].filter((name) => !used.has(name))).toEqual([]);
  });
});
