// A check or a proof as one card for the hands: what to set, where the leads go, what is asked.
// It must not hold rules.

import type { Caution } from '../core/answers/shapes/common.js';

export interface CheckCard {
  readonly id: string;
  readonly title: string;
  readonly why: string;
  readonly setUp: readonly string[];
  readonly leads: { readonly red: string; readonly black: string } | null;
  readonly unit: 'V' | 'Ω' | 'A' | null;
  readonly words: readonly { readonly id: string; readonly words: string }[];
  readonly healthy: string;
  readonly outcomes: readonly { readonly shows: string; readonly means: string }[];
  readonly cautions: readonly Caution[];
  readonly canSkip: boolean;
}
