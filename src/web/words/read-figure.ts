// Reads one figure as a person types or dictates it: `12.31`, `minus 0,4`, `40 mV`.
// It must not guess a unit that was not said.

export interface Figure {
  readonly value: number;
  /** Factor of the unit that stood behind the figure; null: none did. */
  readonly factor: number | null;
}

const factors: readonly (readonly [RegExp, number])[] = [
  [/(mv|millivolts?|ma|milliamps?|milliamperes?)$/, 1e-3],
  [/(kω|kohms?|kiloohms?)$/, 1e3],
  [/(megohms?|megaohms?)$/, 1e6],
  [/(volts?|v|amps?|amperes?|a|ohms?|ω)$/, 1],
];

/** Takes a point or a comma. Null: not a figure. */
export function readFigure(text: string): Figure | null {
  let rest = text
    .trim()
    .toLowerCase()
    .replace('−', '-')
    .replace(/^(minus|negative)\s*/, '-')
    .replace(/\s+point\s+/, '.');
  let factor: number | null = null;
  for (const [unit, size] of factors) {
    if (!unit.test(rest)) continue;
    factor = size;
    rest = rest.replace(unit, '');
    break;
  }
  rest = rest.trim().replace(',', '.');
  return /^-?(\d+\.?\d*|\.\d+)$/.test(rest) ? { value: Number(rest), factor } : null;
}
