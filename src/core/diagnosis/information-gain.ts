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

/** Gain on the frozen table without noise, for some of its items: of `Unsettled`, for one check. */
export function hardGain(table: PlanTable, items: Int32Array, check: PlanCheck): number {
  return new Unsettled(table, items).gain(check);
}

/**
 * Some items of a frozen table, and what a check without noise would tell of their groups. `items` are indices; their weights need not
 * add up to 1.
 */
export class Unsettled {
  /** Sum of the weights. */
  readonly whole: number;
  /** Entropy of the groups: no check can tell more. */
  readonly bits: number;
  private readonly weights: Float64Array;
  /** Groups by item, numbered from 0 without gaps. */
  private readonly groups: Int32Array;
  private readonly groupCount: number;

  constructor(
    { weights, groups }: PlanTable,
    private readonly items: Int32Array,
  ) {
    this.weights = Float64Array.from(items, (item) => weights[item]);
    const numbers = new Map<number, number>();
    this.groups = Int32Array.from(items, (item) => {
      const known = numbers.get(groups[item]) ?? numbers.size;
      numbers.set(groups[item], known);
      return known;
    });
    this.groupCount = numbers.size;
    const sums = new Float64Array(this.groupCount);
    let whole = 0;
    for (let i = 0; i < items.length; i++) {
      whole += this.weights[i];
      sums[this.groups[i]] += this.weights[i];
    }
    this.whole = whole;
    this.bits = entropyBits(sums, whole);
  }

  get isOneGroup(): boolean {
    return this.groupCount < 2;
  }

  /** Entropy of the outcomes: the check tells no more than that of the groups. 0: all items show the same. */
  outcomeBits({ classCount, outcomes }: PlanCheck): number {
    const { items, weights } = this;
    const sums = sheet(classCount);
    for (let i = 0; i < items.length; i++) sums[outcomes[items[i]]] += weights[i];
    return this.entropyOf(sums, classCount);
  }

  /** Entropy of the groups before, less what is left after. */
  gain(check: PlanCheck, outcomeBits = this.outcomeBits(check)): number {
    const { items, weights, groups } = this;
    const { classCount, outcomes } = check;
    const cells = this.groupCount * classCount;
    const sums = sheet(cells);
    for (let i = 0; i < items.length; i++) sums[groups[i] * classCount + outcomes[items[i]]] += weights[i];
    return this.bits + outcomeBits - this.entropyOf(sums, cells);
  }

  private entropyOf(sums: Float64Array, count: number): number {
    let sum = 0;
    for (let k = 0; k < count; k++) if (sums[k] > 0) sum += sums[k] * Math.log2(sums[k] / this.whole);
    return -sum / this.whole;
  }
}

let spare = new Float64Array(1024);

/** A cleared work sheet of at least so many cells: hundreds of thousands of gains are worked out per step. */
function sheet(size: number): Float64Array {
  if (spare.length < size) spare = new Float64Array(2 * size);
  else spare.fill(0, 0, size);
  return spare;
}

/** Entropy in bits of weights that add up to `whole`. */
export function entropyBits(weights: Iterable<number>, whole: number): number {
  let bits = 0;
  for (const weight of weights) if (weight > 0) bits -= (weight / whole) * Math.log2(weight / whole);
  return bits;
}
