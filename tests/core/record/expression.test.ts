// Conditions of module outputs: reading, writing, evaluating, refusing.
// It must not use a module; terminals here are only names.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Expression,
  evaluate,
  expressionText,
  parseExpression,
  terminalsIn,
} from '../../../src/core/record/expression.js';

function read(text: string): Expression {
  const parsed = parseExpression(text);
  if (!parsed.ok) throw new Error(parsed.reason);
  return parsed.expression;
}

const value = (text: string, high: readonly string[]): boolean =>
  evaluate(read(text), (terminal) => high.includes(terminal));

describe('a condition', () => {
  it('binds not before and, and before or', () => {
    expect(value('A | B & !C', ['B'])).toBe(true);
    expect(value('A | B & !C', ['B', 'C'])).toBe(false);
    expect(value('(A | B) & !C', ['A', 'C'])).toBe(false);
    expect(value('A && B || !C', [])).toBe(true);
  });

  it('names terminals as printed', () => {
    expect(terminalsIn(read('IN1 & !(B+ | 58L) & IN1 | L-2'))).toEqual(['IN1', 'B+', '58L', 'L-2']);
  });

  it.each(['', '&', 'A &', 'A B', '(A', 'A)', '!', 'A ? B', 'A & | B', '()', '('.repeat(100), '!'.repeat(100)])(
    'refuses "%s" with a reason',
    (text) => {
      const parsed = parseExpression(text);
      expect(parsed.ok).toBe(false);
      expect((parsed as { reason: string }).reason.length).toBeGreaterThan(3);
    },
  );
});

describe('any condition', () => {
  const names = ['A', 'B', 'IN3'];
  const { expression } = fc.letrec<{ expression: Expression }>((tie) => ({
    expression: fc.oneof(
      { maxDepth: 5 },
      fc.constantFrom(...names).map((name): Expression => ({ kind: 'terminal', name })),
      fc.record({ kind: fc.constant('not' as const), of: tie('expression') }),
      fc.record({
        kind: fc.constantFrom('and' as const, 'or' as const),
        left: tie('expression'),
        right: tie('expression'),
      }),
    ),
  }));

  it('means the same after writing and reading it', () => {
    fc.assert(
      fc.property(expression, fc.subarray(names), (condition, high) => {
        const isTrue = (terminal: string): boolean => high.includes(terminal);
        expect(evaluate(read(expressionText(condition)), isTrue)).toBe(evaluate(condition, isTrue));
      }),
    );
  });
});
