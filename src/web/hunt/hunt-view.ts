// What the pages of a hunt show, in the words of the page. The one place that knows how the API spells it is `hunt-api.ts`.
// It must not work out anything of a diagnosis: all of it is told.

import type { Caution } from '../api/types.js';

export type FunctionReport =
  | 'dead'
  | 'weak'
  | 'works'
  | 'stays-on'
  | 'comes-and-goes'
  | 'runs-backwards'
  | 'too-bright'
  | 'flashes-fast'
  | 'flashes-slow'
  | 'does-not-flash'
  | 'reads-high'
  | 'reads-low'
  | 'reads-stuck';

/** The one thing to do next, as the card shows it. */
export interface CheckView {
  readonly id: string;
  /** `Measure at K5/87`, `Look at fuse F3`. */
  readonly title: string;
  readonly why: string;
  /** What to set, plug in or pull before, in order. */
  readonly setUp: readonly string[];
  readonly leads: { readonly red: string; readonly black: string } | null;
  /** The unit the meter shows; null: the answer is one of `words`. */
  readonly unit: 'V' | 'Ω' | 'A' | null;
  readonly words: readonly { readonly id: string; readonly words: string }[];
  /** What a healthy harness shows. */
  readonly healthy: string;
  readonly outcomes: readonly { readonly shows: string; readonly means: string }[];
  readonly cautions: readonly Caution[];
  /** May the person say that the point cannot be reached. */
  readonly canSkip: boolean;
}

export interface SuspectView {
  readonly id: string;
  /** `high resistance in plug X4, cavity 3`. */
  readonly words: string;
  readonly parts: readonly string[];
  readonly probability: number;
  /** Before the last entry; null: it was not listed. */
  readonly before: number | null;
  readonly repair: string;
}

export interface EntryView {
  readonly id: string;
  readonly at: string;
  readonly words: string;
  readonly result: string;
  /** What the entry cleared and what it left. */
  readonly effect: string | null;
  readonly isUndone: boolean;
  /** Contradicts others, and is worth asking again. */
  readonly isDoubtful: boolean;
}

export interface HuntView {
  readonly id: string;
  readonly revision: number;
  readonly recordHasChanged: boolean;
  readonly startedAt: string;
  readonly complaint: string;
  readonly phase: 'checking' | 'repairing' | 'proving' | 'closed';
  readonly next: CheckView | null;
  readonly suspects: readonly SuspectView[];
  readonly entries: readonly EntryView[];
  /** In the phases after checking: what was found, what to do, which reading proves it. */
  readonly verdict: string | null;
}

export type CheckAnswer =
  | { readonly kind: 'number'; readonly value: number | null }
  | { readonly kind: 'word'; readonly word: string }
  | { readonly kind: 'skipped' };
