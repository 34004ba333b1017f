// Reads addresses: which part a point belongs to, which terminal, and what to call its side.
// It must not check that the address exists.

/** `X4.plug/3` and `X4/3` belong to X4; a wire's bare end `L12:from` to L12. */
export const partOfPoint = (point: string): string => point.split(/[/.:]/, 1)[0];

/** The terminal or cavity of `K2/87` is 87; of a splice or stud, null. */
export const terminalOf = (point: string): string | null => point.split('/')[1] ?? null;

/** `plug`, `receptacle`, `body`, or null. */
export const halfOf = (point: string): string | null => /\.([a-z]+)(\/|$)/.exec(point)?.[1] ?? null;

/** A function id `E1:dip` belongs to part E1. */
export const partOfFunction = (id: string): string => id.split(':', 1)[0];

const byNumber = new Intl.Collator('en', { numeric: true, sensitivity: 'base' });

/** X2 before X10. */
export const compareAddresses = (a: string, b: string): number => byNumber.compare(a, b);
