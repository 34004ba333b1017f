/**
 * Truth of every combination of many-valued variables, in counting order: the last variable counts fastest. Knows nothing of switches.
 */

/** A product: for each variable the set of allowed values as a bit mask; all bits set = the variable does not matter. */
export type Cube = readonly number[];

export class TruthTable {
  /** Steps in counting order from one value of a variable to its next. */
  private readonly strides: readonly number[];

  private constructor(
    readonly sizes: readonly number[],
    private readonly truth: Uint8Array,
  ) {
    const strides = sizes.map(() => 1);
    for (let i = sizes.length - 2; i >= 0; i--) strides[i] = strides[i + 1] * sizes[i + 1];
    this.strides = strides;
  }

  /** Asks for every combination once. `sizes`: number of values per variable, 1 to 30. */
  static of(sizes: readonly number[], isOn: (values: readonly number[]) => boolean): TruthTable {
    const truth = new Uint8Array(sizes.reduce((product, size) => product * size, 1));
    const values = sizes.map(() => 0);
    for (let at = 0; at < truth.length; at++) {
      truth[at] = isOn(values) ? 1 : 0;
      for (let i = values.length - 1; i >= 0; i--) {
        values[i] += 1;
        if (values[i] < sizes[i]) break;
        values[i] = 0;
      }
    }
    return new TruthTable(sizes, truth);
  }

  get length(): number {
    return this.truth.length;
  }

  isOn(at: number): boolean {
    return this.truth[at] === 1;
  }

  value(at: number, variable: number): number {
    return Math.floor(at / this.strides[variable]) % this.sizes[variable];
  }

  /** The same combination with another value of one variable. */
  withValue(at: number, variable: number, value: number): number {
    return at + (value - this.value(at, variable)) * this.strides[variable];
  }

  /** Whether the truth ever changes with this variable alone. */
  dependsOn(variable: number): boolean {
    for (let at = 0; at < this.truth.length; at++) {
      if (this.truth[at] !== this.truth[this.withValue(at, variable, 0)]) return true;
    }
    return false;
  }

  /** The table over some of the variables, the others at their first value. */
  only(variables: readonly number[]): TruthTable {
    return TruthTable.of(
      variables.map((variable) => this.sizes[variable]),
      (values) => this.isOn(values.reduce((at, value, i) => at + value * this.strides[variables[i]], 0)),
    );
  }
}
