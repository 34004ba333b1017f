// The refusal of a pattern whose factor would not fit in memory.
// It must not decide how much is too much: analyse.ts does.

export class FillTooLargeError extends Error {
  /** `values`: as many as had been counted when it was given up. */
  constructor(readonly values: number) {
    super(`the factor of this pattern would keep more than ${values - 1} values`);
  }
}
