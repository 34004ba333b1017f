// One cell that says what a part is rated for, `55 W`, `12 V 30 A`, `60/55 W`: which field each figure belongs to, by kind.
// It must not read the numbers; the quantities do.

import type { PartKind } from '../part.js';

export interface RatingFigure {
  readonly field: string;
  /** Number and unit as written. Several where a lamp has several filaments. */
  readonly texts: readonly string[];
}

export type Rating =
  | { readonly ok: true; readonly figures: readonly RatingFigure[] }
  | { readonly ok: false; readonly reason: string; readonly accepted: string };

type UnitWord = 'V' | 'A' | 'W' | 'Ah' | 'Ω';

const UNITS: readonly (readonly [unit: UnitWord, pattern: RegExp])[] = [
  ['Ah', /^m?ah$/i],
  ['W', /^[km]?w$|^watts?$/i],
  ['A', /^m?a$|^amps?$|^amperes?$/i],
  ['V', /^m?v$|^volts?$|^v ?dc$/i],
  ['Ω', /^[kKmM]?(Ω|\u2126|ohms?)$|^r$/i],
];

type FieldsOfKind = Readonly<Partial<Record<UnitWord | 'bare', string>>>;

const CONTACT: FieldsOfKind = { A: 'contactRatingAmps', bare: 'contactRatingAmps' };
const PROTECTION: FieldsOfKind = { A: 'ratingAmps', bare: 'ratingAmps' };

/** Field by kind and unit; `bare` for a number without a unit. Fields of a load belong to its function. */
const FIELDS: Readonly<Partial<Record<PartKind, FieldsOfKind>>> = {
  fuse: PROTECTION,
  breaker: PROTECTION,
  'fusible-link': PROTECTION,
  diode: PROTECTION,
  'diode-isolator': PROTECTION,
  shunt: { A: 'ratingAmps', Ω: 'resistanceOhms' },
  battery: { V: 'nominalVolts', Ah: 'capacityAmpHours', Ω: 'internalOhms', bare: 'capacityAmpHours' },
  alternator: { A: 'limitAmps', V: 'regulatedVolts', bare: 'limitAmps' },
  'external-supply': { A: 'limitAmps', V: 'outputVolts' },
  converter: { A: 'limitAmps', V: 'outputVolts' },
  relay: { V: 'nominalVolts', A: 'contactRatingAmps', Ω: 'coilOhms', bare: 'contactRatingAmps' },
  switch: CONTACT,
  'sensor-switch': CONTACT,
  'master-switch': CONTACT,
  'split-charge-relay': CONTACT,
  connector: CONTACT,
  flasher: { A: 'contactRatingAmps', W: 'ratedWatts', bare: 'ratedWatts' },
  load: { W: 'ratedWatts', A: 'ratedAmps', V: 'ratedVolts', Ω: 'resistanceOhms', bare: 'ratedWatts' },
  starter: { A: 'crankAmps', V: 'ratedVolts' },
  resistor: { Ω: 'resistanceOhms', W: 'ratedWatts', bare: 'resistanceOhms' },
  potentiometer: { Ω: 'resistanceOhms', bare: 'resistanceOhms' },
  'bus-terminator': { Ω: 'resistanceOhms', bare: 'resistanceOhms' },
  suppressor: { Ω: 'resistanceOhms' },
};

/** `4k7`, `10k`, `R47` (IEC 60062): the letter is the decimal sign. */
const RESISTOR_CODE = /^\d*[.,]?\d*\s*[rRkKM]\d*$/;
const FIGURE = /(\d[\d.,]*(?:\s*\/\s*\d[\d.,]*)*)\s*([A-Za-zΩ\u2126]+)?/y;

/** Reads a rating cell for a part of this kind. */
export function readRating(text: string, kind: PartKind): Rating {
  const fields = FIELDS[kind] ?? {};
  const accepted =
    Object.keys(fields).length === 0 ? `nothing here: a ${kind} has no rating` : `figures in ${unitWords(fields)}`;
  if (fields.Ω !== undefined && RESISTOR_CODE.test(text))
    return { ok: true, figures: [{ field: fields.Ω, texts: [text] }] };
  const figures: RatingFigure[] = [];
  let at = 0;
  while (at < text.length) {
    FIGURE.lastIndex = at;
    const match = FIGURE.exec(text);
    if (match === null) return { ok: false, reason: `"${text.slice(at, at + 40)}" is no figure with a unit`, accepted };
    const unitText = match[2] ?? '';
    const unit = unitText === '' ? 'bare' : UNITS.find(([, pattern]) => pattern.test(unitText))?.[0];
    const field = unit === undefined ? undefined : fields[unit];
    if (field === undefined) {
      const reason = unitText === '' ? `"${match[0].trim()}" has no unit` : `a ${kind} has no rating in ${unitText}`;
      return { ok: false, reason, accepted };
    }
    const texts = match[1]!.split('/').map((number) => `${number.trim()} ${unitText}`.trim());
    figures.push({ field, texts });
    at = FIGURE.lastIndex;
    while (at < text.length && /[\s,;/]/.test(text[at]!)) at += 1;
  }
  return { ok: true, figures };
}

/** Fields of a kind that a rating may fill. */
export function ratingFields(kind: PartKind): readonly string[] {
  return Object.values(FIELDS[kind] ?? {});
}

function unitWords(fields: FieldsOfKind): string {
  return Object.keys(fields)
    .filter((unit) => unit !== 'bare')
    .join(', ');
}
