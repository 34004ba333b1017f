// What a step is called: the wire or part that a person would name, out of the elements it is made of.
// It must not name a wire's end where the wire itself is part of the step.

import type { ProfilePoint } from '../api/types.js';
import { index } from '../state/harness.js';

export interface StepSubject {
  readonly owner: string;
  /** For the narrow column: `wire L12`, `fuse F6`, `plug X4`. */
  readonly short: string;
}

/** `L12@X4.plug/3` and `L12` belong to L12; `K2:30-87` to K2; a shared crimp `@X4.plug/3` to X4. */
export const ownerOfElement = (element: string): string => element.replace(/^@/, '').split(/[@:/.]/, 1)[0];

export function stepSubject(into: readonly ProfilePoint[]): StepSubject {
  const elements = into.flatMap(({ reachedBy }) => (reachedBy === null ? [] : [reachedBy]));
  const named = elements.find((element) => !element.includes('@')) ?? elements[0];
  if (named === undefined) return { owner: '', short: '' };
  const owner = ownerOfElement(named);
  const record = index.value;
  if (record?.wires.has(owner)) return { owner, short: `wire ${owner}` };
  const kind = record?.parts.get(owner)?.kind ?? '';
  return { owner, short: `${kindWord(kind)} ${owner}`.trim() };
}

const kindWord = (kind: string): string => (kind === 'connector' ? 'plug' : kind.replaceAll('-', ' '));
