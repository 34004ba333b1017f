/**
 * What each check is expected to show under each hypothesis of an inquiry, worked out once: it depends on neither log nor odds.
 * It must not hold evidence; the same question gives the same answer at every step of a hunt.
 */
import { expectCheck } from './expect-check.js';
import type { Expected } from './expected.js';
import { nothingWrong } from './hypotheses.js';
import type { Inquiry } from './inquiry.js';
import { classesOf, classShares, type OutcomeClass } from './outcome-classes.js';
import { type Check, checkKey } from './shapes/check.js';

/** One check against all hypotheses. */
export class CheckColumn {
  readonly classes: readonly OutcomeClass[];
  private readonly known: (Expected | undefined)[] = [];
  private readonly rows: (Float64Array | undefined)[] = [];

  constructor(
    private readonly inquiry: Inquiry,
    private readonly check: Check,
    /** The column of the inquiry that this one only adds hypotheses to. */
    private readonly base: CheckColumn | null,
  ) {
    const supplyVolts = inquiry.model.graph.record.systemVolts ?? 12;
    this.classes = base?.classes ?? classesOf(expectCheck(inquiry, nothingWrong, check), supplyVolts);
  }

  expected(hypothesis: number): Expected {
    if (this.base !== null && hypothesis < this.base.inquiry.hypotheses.length) return this.base.expected(hypothesis);
    this.known[hypothesis] ??= expectCheck(this.inquiry, this.inquiry.hypotheses[hypothesis], this.check);
    return this.known[hypothesis];
  }

  /** Share of each class of outcome; not to be changed. */
  shares(hypothesis: number): Float64Array {
    if (this.base !== null && hypothesis < this.base.inquiry.hypotheses.length) return this.base.shares(hypothesis);
    this.rows[hypothesis] ??= classShares(this.classes, this.expected(hypothesis));
    return this.rows[hypothesis];
  }
}

const memories = new WeakMap<Inquiry, Map<string, CheckColumn>>();

/** `key` is the check's own, when the caller has it at hand. */
export function columnOf(inquiry: Inquiry, check: Check, key: string = checkKey(check)): CheckColumn {
  const memory = memories.get(inquiry) ?? new Map<string, CheckColumn>();
  memories.set(inquiry, memory);
  const known = memory.get(key);
  if (known !== undefined) return known;
  const base = inquiry.base === null ? null : columnOf(inquiry.base, check, key);
  const column = new CheckColumn(inquiry, check, base);
  memory.set(key, column);
  return column;
}
