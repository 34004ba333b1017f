// The result of reading what a person wrote: a value, or the reason why not and what would be accepted.
// It must not throw and must not decide where a refusal is shown.

export interface Accepted<T> {
  readonly ok: true;
  readonly value: T;
}

export interface Refused {
  readonly ok: false;
  /** What is wrong with the text, as a sentence part that quotes it. */
  readonly reason: string;
  /** What may be written instead, with examples. */
  readonly accepted: string;
}

export type Parsed<T> = Accepted<T> | Refused;

export function accept<T>(value: T): Accepted<T> {
  return { ok: true, value };
}

export function refuse(reason: string, accepted: string): Refused {
  return { ok: false, reason, accepted };
}

/** The person's own text, safe to repeat in a message: one line, printable, at most 40 characters. */
export function quoteText(text: string): string {
  const printable = text.replace(/[\p{C}\p{Zl}\p{Zp}]/gu, '\uFFFD').trim();
  const characters = Array.from(printable);
  return characters.length > 40 ? `"${characters.slice(0, 40).join('')}…"` : `"${printable}"`;
}
