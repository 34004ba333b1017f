// Reads lengths of two parts (4 ft 3 1/2 in, 4'3", 1 m 30 cm) and feet or inches with fractions.
// It must not read plain one-unit lengths; those go through measure.ts like every other quantity.

import { accept, type Parsed, quoteText, refuse } from './parsed.js';

const MIXED_ACCEPTED = '4 ft 3 in, 4\'3", 4 ft 3 1/2 in, 51 1/2 in, 1 m 30 cm or metres as 1.3';

const FOOT_INCH = /^(\d{1,6}) ?(?:ft\.?|foot|feet|') ?[-,]? ?(\d.*?) ?(?:in\.?|inch|inches|")?$/i;
const WITH_FRACTION = /^(\d{1,6} |)(\d{1,3}) ?\/ ?(\d{1,3}) ?(in\.?|inch|inches|"|ft\.?|foot|feet|')$/i;
const METRE_CENTIMETRE = /^(\d{1,6}) ?m ?(\d{1,2}) ?cm$|^(\d{1,6}) ?m ?(\d{2})$/i;

/** Feet and inches, or either with a fraction, in metres; null where the text is not of that shape. */
export function footInchMetres(text: string): Parsed<number> | null {
  const single = WITH_FRACTION.exec(text);
  if (single !== null) {
    const value = mixedNumber(single[1] ?? '', single[2] ?? '', single[3] ?? '');
    return metresOf(value, /^[f']/i.test(single[4] ?? '') ? 12 : 1, text);
  }
  const match = FOOT_INCH.exec(text);
  if (match === null) return null;
  const inches = inchesAfterFeet(match[2] ?? '');
  if (inches === null || inches >= 12) {
    return refuse(`${quoteText(text)}: the inches after feet must be a number below 12`, MIXED_ACCEPTED);
  }
  return metresOf(Number(match[1]) * 12 + inches, 1, text);
}

/** Metres and centimetres (1 m 30 cm, 1m30) in metres; null where the text is not of that shape. */
export function metreCentimetres(text: string): Parsed<number> | null {
  const match = METRE_CENTIMETRE.exec(text);
  if (match === null) return null;
  return accept(Number(`${Number(match[1] ?? match[3]) * 100 + Number(match[2] ?? match[4])}e-2`));
}

function inchesAfterFeet(text: string): number | null {
  const fraction = /^(\d{1,2} |)(\d{1,3}) ?\/ ?(\d{1,3})$/.exec(text);
  if (fraction !== null) return mixedNumber(fraction[1] ?? '', fraction[2] ?? '', fraction[3] ?? '');
  return /^\d{1,3}(?:[.,]\d{1,6})?$/.test(text) ? Number(text.replace(',', '.')) : null;
}

function mixedNumber(whole: string, numerator: string, denominator: string): number | null {
  const value = Number(whole.trim() === '' ? 0 : whole) + Number(numerator) / Number(denominator);
  return Number.isFinite(value) && Number(numerator) < Number(denominator) ? value : null;
}

function metresOf(value: number | null, inchesEach: number, text: string): Parsed<number> {
  if (value === null) return refuse(`${quoteText(text)}: the fraction is not below one`, MIXED_ACCEPTED);
  return accept((value * inchesEach * 254) / 10_000);
}
