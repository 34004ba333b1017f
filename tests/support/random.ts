// A small seeded generator of random numbers for tests and benchmarks.
// It must not be used where randomness matters to anyone.

export interface Random {
  /** In [0, 1). */
  next(): number;
  /** In [low, high). */
  between(low: number, high: number): number;
  /** Whole number in [low, high]. */
  whole(low: number, high: number): number;
  /** In [low, high), evenly on a logarithmic scale. */
  logarithmic(low: number, high: number): number;
  /** True with this probability. */
  chance(probability: number): boolean;
  /** One element of a list that is not empty. */
  pick<T>(list: readonly T[]): T;
}

/** A 32-bit counter, its bits mixed by shifts and products (constants from memory): enough for test data. */
export function seededRandom(seed: number): Random {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  return {
    next,
    between: (low, high) => low + next() * (high - low),
    whole: (low, high) => low + Math.floor(next() * (high - low + 1)),
    logarithmic: (low, high) => low * (high / low) ** next(),
    chance: (probability) => next() < probability,
    pick: (list) => list[Math.floor(next() * list.length)]!,
  };
}
