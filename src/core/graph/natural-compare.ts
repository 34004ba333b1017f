// The one order in which addresses are listed and ties are broken: X2 before X10, whatever the case.
// It must not depend on the locale of the machine.

const ZERO = 48;
const NINE = 57;

/** Total order on addresses: runs of digits by value, letters without case, then by code unit so that no two differ and tie. */
export function naturalCompare(a: string, b: string): number {
  let i = 0;
  let j = 0;
  while (i < a.length && j < b.length) {
    if (isDigit(a, i) && isDigit(b, j)) {
      const endA = endOfDigits(a, i);
      const endB = endOfDigits(b, j);
      const order = compareDigits(a, skipZeros(a, i, endA), endA, b, skipZeros(b, j, endB), endB);
      if (order !== 0) return order;
      i = endA;
      j = endB;
      continue;
    }
    const order = foldedCode(a, i) - foldedCode(b, j);
    if (order !== 0) return order;
    i++;
    j++;
  }
  const rest = a.length - i - (b.length - j);
  if (rest !== 0) return rest;
  return a < b ? -1 : a > b ? 1 : 0;
}

/** A copy in natural order. */
export function naturalSort(ids: Iterable<string>): string[] {
  return [...ids].sort(naturalCompare);
}

function isDigit(text: string, at: number): boolean {
  const code = text.charCodeAt(at);
  return code >= ZERO && code <= NINE;
}

function endOfDigits(text: string, from: number): number {
  let end = from;
  while (end < text.length && isDigit(text, end)) end++;
  return end;
}

function skipZeros(text: string, from: number, end: number): number {
  let at = from;
  while (at < end - 1 && text.charCodeAt(at) === ZERO) at++;
  return at;
}

/** Runs of digits without leading zeros: the longer is the larger, else digit by digit. Exact at any length. */
function compareDigits(a: string, fromA: number, endA: number, b: string, fromB: number, endB: number): number {
  if (endA - fromA !== endB - fromB) return endA - fromA - (endB - fromB);
  for (let k = 0; k < endA - fromA; k++) {
    const order = a.charCodeAt(fromA + k) - b.charCodeAt(fromB + k);
    if (order !== 0) return order;
  }
  return 0;
}

/** Code unit with ASCII capitals folded to small letters. */
function foldedCode(text: string, at: number): number {
  const code = text.charCodeAt(at);
  return code >= 65 && code <= 90 ? code + 32 : code;
}
