/**
 * Switch states in the order in which a person comes to them: nothing away from rest, each setting alone, every two together, and so on.
 * Pure counting; it must not know what the settings do.
 */

/**
 * Value indices per setting. All combinations when `most` suffices; else every state with few settings away from rest, and of the first
 * number of settings that does not fit whole an even sample.
 */
export function* statesByDepartures(
  counts: readonly number[],
  rest: readonly number[],
  most: number,
): Generator<readonly number[]> {
  let left = most;
  for (let away = 0; away <= counts.length && left > 0; away++) {
    const total = countWith(counts, away);
    const taken = Math.min(total, left);
    let index = 0;
    let given = 0;
    for (const values of withAway(counts, rest, away, 0)) {
      // the next of an even spread over the total
      if (index === Math.floor((given * total) / taken)) {
        yield values;
        given += 1;
        if (given === taken) break;
      }
      index += 1;
    }
    left -= taken;
  }
}

/** The largest number of settings away from rest of which all states fit into `most`; -1 when not even the state at rest does. */
export function departuresWithin(counts: readonly number[], most: number): number {
  let left = most;
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
