// How a load does, in one big line with a sign that needs no colour.
// It must not judge; the answer has.

import type { ComponentChildren, JSX } from 'preact';
import type { Condition } from '../api/types.js';
import { conditionWords } from '../words/conditions.js';

interface ConditionLineProps {
  readonly condition: Condition;
  readonly children?: ComponentChildren;
}

export function ConditionLine({ condition, children }: ConditionLineProps): JSX.Element {
  const { word, sign, tone } = conditionWords(condition);
  return (
    <p class={`verdict tone-${tone}`}>
      <span class="verdict-sign" aria-hidden="true">
        {sign}
      </span>
      <span>
        <strong>{word}</strong>
        {children}
      </span>
    </p>
  );
}
