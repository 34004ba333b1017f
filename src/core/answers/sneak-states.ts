/**
 * Switch states in the order in which a person comes to them: nothing away from rest, each setting alone, every two together, and so on.
 * Pure counting; it must not know what the settings do.
 */

/** Share of the states beyond the limit that go to few settings away from rest; the others are spread over all (engineering judgement). */
const NEAR_SHARE = 0.7;

/**
 * Value indices per setting. All combinations when `most` suffices; else every state with few settings away from rest, of the first
 * number of settings that does not fit whole an even sample, and then states spread over all combinations.
 */
export function* statesByDepartures(
  counts: readonly number[],
  rest: readonly number[],
  most: number,
): Generator<readonly number[]> {
  const all = counts.reduce((product, count) => product * count, 1);
  const near = all <= most ? all : nearOf(most);
  const seen = new Set<string>();
  let left = near;
  for (let away = 0; away <= counts.length && left > 0; away++) {
    const total = countWith(counts, away);
    const taken = Math.min(total, left);
    let index = 0;
    let given = 0;
    for (const values of withAway(counts, rest, away, 0)) {
      // the next of an even sample of the total
      if (index === Math.floor((given * total) / taken)) {
        if (all > most) seen.add(values.join());
        yield values;
        given += 1;
        if (given === taken) break;
      }
      index += 1;
    }
    left -= taken;
  }
  if (all <= most) return;
  for (let i = 1; seen.size < most; i++) {
    // beyond so many turns the few states left are taken one after the other
    const values = i < SPREAD_TURNS * most ? spread(counts, i) : byNumber(counts, i - SPREAD_TURNS * most);
    if (seen.has(values.join())) continue;
    seen.add(values.join());
    yield values;
  }
}

const SPREAD_TURNS = 4;

function nearOf(most: number): number {
  return Math.max(1, Math.floor(NEAR_SHARE * most));
}

/** Point `i` of an additive sequence with irrational steps (R. L. Kronecker; H. Weyl, 1916): even over the cube without chance. */
function spread(counts: readonly number[], i: number): number[] {
  return counts.map((count, axis) => {
    const step = Math.sqrt(PRIMES[axis % PRIMES.length]) * (1 + Math.floor(axis / PRIMES.length));
    return Math.floor(((i * step) % 1) * count);
  });
}

const PRIMES = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53, 59, 61, 67, 71, 73, 79, 83, 89, 97];

function byNumber(counts: readonly number[], number: number): number[] {
  let rest = number;
  return counts.map((count) => {
    const digit = rest % count;
    rest = Math.floor(rest / count);
    return digit;
  });
}

/** The largest number of settings away from rest of which all states fit into `most`; -1 when not even the state at rest does. */
export function departuresWithin(counts: readonly number[], most: number): number {
  const all = counts.reduce((product, count) => product * count, 1);
  let left = all <= most ? all : nearOf(most);
  let away = -1;
  while (away < counts.length && left >= countWith(counts, away + 1)) {
    away += 1;
    left -= countWith(counts, away);
  }
  return Math.min(away, counts.length);
}

/** States with exactly so many settings away from rest: the elementary symmetric sum of their other values. */
function countWith(counts: readonly number[], away: number): number {
  const sums = [1, ...counts.map(() => 0)];
  for (const count of counts) for (let k = counts.length; k > 0; k--) sums[k] += sums[k - 1] * (count - 1);
  return sums[away] ?? 0;
}

function* withAway(
  counts: readonly number[],
  values: readonly number[],
  away: number,
  from: number,
): Generator<readonly number[]> {
  if (away === 0) {
    yield values;
    return;
  }
  for (let i = from; i <= counts.length - away; i++) {
    for (let value = 0; value < counts[i]; value++) {
      if (value === values[i]) continue;
      yield* withAway(counts, values.with(i, value), away - 1, i + 1);
    }
  }
}
