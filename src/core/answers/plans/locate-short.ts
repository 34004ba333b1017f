/**
 * From two groups of nets that conduct to the pair that does: halve one side after the other.
 * A pure search: the same answers give the same next question.
 */

export type ShortSearch =
  | { readonly kind: 'ask'; readonly red: readonly string[]; readonly black: readonly string[] }
  | { readonly kind: 'found'; readonly red: string; readonly black: string };

/**
 * `answers[i]` says whether question i conducted. Takes ceil(log2 |red|) + ceil(log2 |black|) questions for one pair; with several
 * shorts it ends at one of them, and the plan is repeated after the repair.
 * Throws a RangeError on an empty side.
 */
export function locateShort(
  red: readonly string[],
  black: readonly string[],
  answers: readonly boolean[],
): ShortSearch {
  if (red.length === 0 || black.length === 0) throw new RangeError('both sides need at least one net');
  let sides = { red, black };
  let asked = 0;
  for (;;) {
    const isRed = sides.red.length >= sides.black.length;
    const splitting = isRed ? sides.red : sides.black;
    if (splitting.length === 1) return { kind: 'found', red: sides.red[0], black: sides.black[0] };
    const half = splitting.slice(0, Math.ceil(splitting.length / 2));
    const rest = splitting.slice(half.length);
    const question = isRed ? { red: half, black: sides.black } : { red: sides.red, black: half };
    if (asked >= answers.length) return { kind: 'ask', ...question };
    const kept = answers[asked] ? half : rest;
    asked += 1;
    sides = isRed ? { red: kept, black: sides.black } : { red: sides.red, black: kept };
  }
}
