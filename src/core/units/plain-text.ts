// Brings typed, pasted and spreadsheet text to one plain spelling before anything is read from it.
// It must not interpret: no numbers, no units, only characters.

/** Longer text than this is never a quantity, a size or a colour; refusing it early keeps every pattern cheap. */
export const LONGEST_TEXT = 200;

/**
 * One plain spelling of the same characters: full-width forms, ligatures (㎜), superscripts and the two micro and two
 * ohm signs are unified by Unicode compatibility form NFKC; dashes become "-", quotes and primes become ' and ", white
 * space (also no-break and thin) becomes one blank, invisible joiners and byte-order marks go.
 */
export function plainText(text: string): string {
  return text
    .slice(0, LONGEST_TEXT + 1)
    .replace(/[\u00BC-\u00BE\u2150-\u215E]/g, ' $&')
    .replace(/[\u2033\u201C\u201D\u201F]/g, '"')
    .normalize('NFKC')
    .replace(/[\u200B-\u200F\u2060\uFEFF\u00AD]/g, '')
    .replace(/[\u2010-\u2015\u2212\uFE58\uFE63]/g, '-')
    .replace(/[\u2018\u2019\u201B\u2032\u02B9\u00B4\u0060]/g, "'")
    .replace(/''/g, '"')
    .replace(/\u2044/g, '/')
    .replace(/\u00B7|\u22C5/g, '·')
    .replace(/\s+/g, ' ')
    .trim();
}
