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

/**
 * The same on the frozen table without noise, for some of its items: entropy of the groups before, less what is left after.
 * `items` are indices; their weights need not add up to 1.
 */
export function hardGain(table: PlanTable, items: Int32Array, check: PlanCheck): number {
  const total = new Map<number, number>();
  const cells = new Map<number, number>();
  const classes = new Float64Array(check.classCount);
  let whole = 0;
  for (const item of items) {
    const weight = table.weights[item];
    const group = table.groups[item];
    const outcome = check.outcomes[item];
    whole += weight;
    classes[outcome] += weight;
    total.set(group, (total.get(group) ?? 0) + weight);
    const cell = group * 64 + outcome;
    cells.set(cell, (cells.get(cell) ?? 0) + weight);
  }
  // H(group) + H(class) - H(group, class)
  return entropyBits(total.values(), whole) + entropyBits(classes, whole) - entropyBits(cells.values(), whole);
}

/** Entropy in bits of weights that add up to `whole`. */
export function entropyBits(weights: Iterable<number>, whole: number): number {
  let bits = 0;
  for (const weight of weights) if (weight > 0) bits -= (weight / whole) * Math.log2(weight / whole);
  return bits;
}
