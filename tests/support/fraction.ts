// Exact rational numbers, to solve small systems without any rounding.
// It must not be used on large ones: the numbers grow with every step.

export interface Fraction {
  readonly top: bigint;
  /** Positive. */
  readonly bottom: bigint;
}

export const ZERO: Fraction = { top: 0n, bottom: 1n };

/** The exact value of a finite double: a 53-bit integer times a power of two. */
export function exactly(value: number): Fraction {
  if (!Number.isFinite(value)) throw new RangeError(`no fraction is ${value}`);
  let exponent = 0;
  let mantissa = value;
  while (!Number.isInteger(mantissa)) {
    mantissa *= 2;
    exponent++;
  }
  return reduced(BigInt(mantissa), 2n ** BigInt(exponent));
}

export function plus(a: Fraction, b: Fraction): Fraction {
  return reduced(a.top * b.bottom + b.top * a.bottom, a.bottom * b.bottom);
}

export function minus(a: Fraction, b: Fraction): Fraction {
  return reduced(a.top * b.bottom - b.top * a.bottom, a.bottom * b.bottom);
}

export function times(a: Fraction, b: Fraction): Fraction {
  return reduced(a.top * b.top, a.bottom * b.bottom);
}

export function over(a: Fraction, b: Fraction): Fraction {
  if (b.top === 0n) throw new RangeError('division by zero');
  return b.top > 0n ? reduced(a.top * b.bottom, a.bottom * b.top) : reduced(-a.top * b.bottom, -a.bottom * b.top);
}

export function isZero(a: Fraction): boolean {
  return a.top === 0n;
}

/** |value - exact| / |exact|, and |value| where the exact value is 0. */
export function relativeError(value: number, exact: Fraction): number {
  const difference = minus(exactly(value), exact);
  const quotient = isZero(exact) ? difference : over(difference, exact);
  return Math.abs(toNumber(quotient));
}

/** Nearest double to about 16 digits, also where top and bottom are too long for a double. */
function toNumber({ top, bottom }: Fraction): number {
  if (top === 0n) return 0;
  const shift = BigInt(bits(bottom) - bits(top) + 64);
  const scaled = shift >= 0n ? (top << shift) / bottom : top / (bottom << -shift);
  // In two steps, because 2 ** -shift alone may underflow.
  return Number(scaled) * 2 ** Math.trunc(-Number(shift) / 2) * 2 ** (-Number(shift) - Math.trunc(-Number(shift) / 2));
}

function bits(value: bigint): number {
  return (value < 0n ? -value : value).toString(2).length;
}

function reduced(top: bigint, bottom: bigint): Fraction {
  let a = top < 0n ? -top : top;
  let b = bottom;
  while (b !== 0n) [a, b] = [b, a % b];
  return a <= 1n ? { top, bottom } : { top: top / a, bottom: bottom / a };
}
