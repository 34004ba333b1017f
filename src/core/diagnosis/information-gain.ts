/**
 * How much a check is expected to tell of which group it is, in bits.
 * It must not know costs.
 */
import type { PlanCheck, PlanTable, SoftCheck } from './plan-table.js';

/** Mutual information of outcome class and group, with overlapping bands counted by their shares. */
export function softGain(groupWeights: Float64Array, { classes, byGroup }: SoftCheck): number {
  let gain = 0;
  for (let k = 0; k < classes.length; k++) {
    let whole = 0;
    for (let g = 0; g < groupWeights.length; g++) whole += groupWeights[g] * byGroup[g][k];
    if (whole <= 0) continue;
    for (let g = 0; g < groupWeights.length; g++) {
      const share = byGroup[g][k];
      if (share > 0) gain += groupWeights[g] * share * Math.log2(share / whole);
    }
  }
  return Math.max(0, gain);
}

/** Expected probability of the likeliest group once the outcome is known: never less than that of the likeliest now. */
export function likeliestAfter(groupWeights: Float64Array, { classes, byGroup }: SoftCheck): number {
  let expected = 0;
  for (let k = 0; k < classes.length; k++) {
    let most = 0;
    for (let g = 0; g < groupWeights.length; g++) most = Math.max(most, groupWeights[g] * byGroup[g][k]);
    expected += most;
  }
  return expected;
}

/**
 * The same on the frozen table without noise, for some of its items: entropy of the groups before, less what is left after.
 * `items` are indices; their weights need not add up to 1.
 */
export function hardGain(table: PlanTable, items: Int32Array, check: PlanCheck): number {
  const { classCount, outcomes } = check;
  const { weights, groups } = table;
  const classes = new Float64Array(classCount);
  let whole = 0;
  // Only cells that an item falls into are cleared: the sheet may be far larger than the list.
  let most = 0;
  for (const item of items) most = Math.max(most, groups[item]);
  const cells = sheet((most + 1) * (classCount + 1));
  for (const item of items) cells.fill(0, groups[item] * (classCount + 1), (groups[item] + 1) * (classCount + 1));
  for (const item of items) {
    const weight = weights[item];
    const row = groups[item] * (classCount + 1);
    whole += weight;
    classes[outcomes[item]] += weight;
    cells[row + outcomes[item]] += weight;
    cells[row + classCount] += weight;
  }
  // H(group) + H(class) - H(group, class)
  let bits = entropyBits(classes, whole);
  for (const item of items) {
    const row = groups[item] * (classCount + 1);
    const total = cells[row + classCount];
    if (total <= 0) continue;
    bits -= (total / whole) * Math.log2(total / whole);
    for (let k = 0; k < classCount; k++) {
      const cell = cells[row + k];
      if (cell > 0) bits += (cell / whole) * Math.log2(cell / whole);
    }
    // Each group once.
    cells[row + classCount] = 0;
  }
  return bits;
}

let spare = new Float64Array(1024);

/** A work sheet of at least so many cells, contents left over: hundreds of thousands of gains are worked out per step. */
function sheet(size: number): Float64Array {
  if (spare.length < size) spare = new Float64Array(2 * size);
  return spare;
}

/** Entropy in bits of weights that add up to `whole`. */
export function entropyBits(weights: Iterable<number>, whole: number): number {
  let bits = 0;
  for (const weight of weights) if (weight > 0) bits -= (weight / whole) * Math.log2(weight / whole);
  return bits;
}
