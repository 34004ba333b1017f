// Reads the number at the head of a text, with decimal point or decimal comma and grouped thousands.
// It must not know units, and must not guess where two readings differ a thousandfold.

import { accept, type Parsed, quoteText, refuse } from './parsed.js';
import { plainText } from './plain-text.js';

export interface NumberOptions {
  /**
   * true: the sheet writes 1,5 for one and a half. false: its commas only group thousands.
   * Left out: a comma is a decimal comma, and `1,500` is refused as ambiguous.
   */
  readonly decimalComma?: boolean;
}

/** A number kept as its digits, so that a power of ten can be applied without a rounding step. */
export interface NumberHead {
  readonly mantissa: string;
  readonly exponent: number;
  /** What follows the number, trimmed. */
  readonly rest: string;
}

const HEAD = /^([+-]?) ?(\d{1,3}(?: \d{3})+(?:[.,]\d+)?(?![\d.,])|[\d.,]*\d\.?)(?:e([+-]?\d{1,4})(?!\d))?/i;
/** What is accepted where no advice on the very number is better. */
export const NUMBER_ACCEPTED = 'a number such as 12, 0.5 or 0,5';

/** Splits plain text (see `plainText`) into its leading number and the rest. */
export function readNumberHead(text: string, options: NumberOptions = {}): Parsed<NumberHead> {
  const match = HEAD.exec(text);
  if (match === null) return refuse(`${quoteText(text)} does not begin with a number`, NUMBER_ACCEPTED);
  const digits = decimalDigits((match[2] ?? '').replaceAll(' ', ''), options);
  if (!digits.ok) return digits;
  return accept({
    mantissa: (match[1] === '-' ? '-' : '') + digits.value,
    exponent: match[3] === undefined ? 0 : Number(match[3]),
    rest: text.slice(match[0].length).trim(),
  });
}

/** The value of a number head times a power of ten, rounded once; infinite where the text is too large for a number. */
export function headValue(head: NumberHead, powerOfTen = 0): number {
  const value = Number(`${head.mantissa}e${head.exponent + powerOfTen}`);
  return value === 0 ? 0 : value;
}

/** A text that must be a number and nothing else. */
export function parsePlainNumber(text: string, options: NumberOptions = {}): Parsed<number> {
  const head = readNumberHead(plainText(text), options);
  if (!head.ok) return head;
  if (head.value.rest !== '') return refuse(`${quoteText(text)} is not only a number`, NUMBER_ACCEPTED);
  const value = headValue(head.value);
  if (!Number.isFinite(value)) return refuse(`${quoteText(text)} is not a finite number`, NUMBER_ACCEPTED);
  return accept(value);
}

function decimalDigits(token: string, options: NumberOptions): Parsed<string> {
  const dots = count(token, '.');
  const commas = count(token, ',');
  if (dots > 0 && commas > 0) return mixedSeparators(token);
  if (dots > 1) return grouped(token, '.');
  if (commas > 1) return grouped(token, ',');
  const thousandsShape = /^[1-9]\d{0,2}[.,]\d{3}$/.test(token);
  if (commas === 1) {
    if (options.decimalComma === false) return grouped(token, ',');
    if (thousandsShape && options.decimalComma === undefined) return ambiguous(token);
    return accept(token.replace(',', '.'));
  }
  if (dots === 1 && thousandsShape && options.decimalComma === true) return ambiguous(token);
  return accept(token);
}

function mixedSeparators(token: string): Parsed<string> {
  const decimal = token.lastIndexOf('.') > token.lastIndexOf(',') ? '.' : ',';
  const grouping = decimal === '.' ? ',' : '.';
  const [whole = '', fraction = '', ...more] = token.split(decimal);
  const groups = grouped(whole, grouping);
  if (more.length > 0 || !groups.ok || fraction.includes(grouping)) {
    return refuse(`${quoteText(token)} is not a number: points and commas do not fit together`, NUMBER_ACCEPTED);
  }
  return accept(`${groups.value}.${fraction}`);
}

function grouped(token: string, separator: '.' | ','): Parsed<string> {
  const groups = token.split(separator);
  const regular = groups.every((group, i) => (i === 0 ? /^\d{1,3}$/ : /^\d{3}$/).test(group));
  if (!regular) return refuse(`${quoteText(token)} is not a number: its groups are not thousands`, NUMBER_ACCEPTED);
  return accept(groups.join(''));
}

function ambiguous(token: string): Parsed<string> {
  const decimal = token.replace(',', '.').replace(/0+$/, '').replace(/\.$/, '');
  const thousands = token.replace(/[.,]/, '');
  return refuse(`${quoteText(token)} can mean ${decimal} or ${thousands}`, `${decimal} or ${thousands}`);
}

function count(text: string, character: string): number {
  return text.split(character).length - 1;
}
