// The few words for how a load does, each with a sign that is not a colour.
// It must not decide the condition; the answer does.

import type { Condition } from '../api/types.js';

export interface ConditionWords {
  readonly word: string;
  readonly sign: string;
  readonly tone: 'good' | 'warn' | 'bad' | 'plain';
}

export function conditionWords(condition: Condition): ConditionWords {
  switch (condition) {
    case 'works':
      return { word: 'works', sign: '●', tone: 'good' };
    case 'weak':
      return { word: 'weak', sign: '◐', tone: 'warn' };
    case 'dead':
      return { word: 'off', sign: '○', tone: 'plain' };
    case 'reversed':
      return { word: 'runs the wrong way', sign: '⇄', tone: 'bad' };
    case 'undefined':
      return { word: 'cannot be said', sign: '?', tone: 'warn' };
    default: {
      const never: never = condition;
      return never;
    }
  }
}

export function accessWords(access: 'open' | 'behind-panel' | 'buried'): string {
  if (access === 'open') return 'in the open';
  return access === 'behind-panel' ? 'behind a panel' : 'buried in the loom';
}
