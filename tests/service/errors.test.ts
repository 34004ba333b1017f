// Holds the error catalogue: how many codes, each unlike the others, each with a status, a sentence and a way out.
// It must not test where errors are thrown.

import { describe, expect, it } from 'vitest';
import { type ProblemCode, problemKinds, refusal, retiredCodes, ServiceError } from '../../src/service/errors.js';
import { issuesShown, problemDocument } from '../../src/service/problem.js';

const entries = Object.entries(problemKinds);
const params = { reason: 'r', limit: 1, limitBytes: 1, key: 'k', path: '/p', count: 2, line: 1 };

describe('the error catalogue', () => {
  it('has this many codes; a change here belongs into the changelog', () => {
    expect(entries.length).toBe(39);
  });

  it('names codes in kebab case and never brings a retired one back', () => {
    for (const [code] of entries) expect(code).toMatch(/^[a-z]+(-[a-z0-9]+)*$/);
    expect(entries.filter(([code]) => retiredCodes.includes(code))).toEqual([]);
  });

  it('has titles and hints that tell the codes apart', () => {
    expect(new Set(entries.map(([, { title }]) => title)).size).toBe(entries.length);
    for (const [, { title, hint }] of entries) {
      expect(title).toMatch(/^[A-Z].*[^.]$/);
      expect(hint).toMatch(/\.$/);
    }
  });

  it('uses registered statuses of the error ranges (RFC 9110, RFC 6585)', () => {
    const registered = [400, 401, 403, 404, 405, 409, 412, 413, 414, 415, 422, 428, 431, 500, 503];
    for (const [, { status }] of entries) expect(registered).toContain(status);
  });

  it('makes a whole sentence of every code', () => {
    for (const [code, { detail }] of entries) {
      const sentence = (detail as (given: object) => string)(params);
      expect(sentence, code).toMatch(/^[A-Z0-9/].*\.$/s);
    }
  });
});

describe('a problem document', () => {
  it('has the members of RFC 9457 and the code', () => {
    const document = problemDocument(refusal('harness-not-found', { harness: 'h9' }), '/api/v1/harnesses/h9');
    expect(document).toEqual({
      type: 'urn:lastgood:problem:harness-not-found',
      title: 'No such harness',
      status: 404,
      detail: 'There is no harness h9.',
      instance: '/api/v1/harnesses/h9',
      code: 'harness-not-found',
      hint: 'GET /api/v1/harnesses lists those that there are.',
    });
  });

  it('lists so many issues and says how many there are', () => {
    const issues = Array.from({ length: issuesShown + 7 }, (_, i) => ({
      code: 'x',
      path: `/wires/${i}`,
      value: i,
      reason: 'r',
      accepted: 'a',
    }));
    const document = problemDocument(refusal('record-invalid', { count: issues.length }, { issues }), '/');
    expect(document.issueCount).toBe(issuesShown + 7);
    expect(document.issues?.length).toBe(issuesShown);
  });

  it('does not echo what is long or nested', () => {
    const values = ['x'.repeat(10_000), { deep: { er: 1 } }, [1, 2, 3], Number.POSITIVE_INFINITY, undefined];
    const issues = values.map((value) => ({ code: 'x', path: '/p', value, reason: 'r', accepted: 'a' }));
    const document = problemDocument(refusal('record-invalid', { count: 5 }, { issues }), '/');
    expect(document.issues?.map(({ value }) => value)).toEqual([
      `${'x'.repeat(200)}...`,
      'an object',
      'a list of 3',
      'Infinity',
      null,
    ]);
  });

  it('carries the status of its code', () => {
    const code: ProblemCode = 'revision-stale';
    expect(new ServiceError(code, 'text').status).toBe(412);
  });
});
