// Reads a wire size as written (18 AWG, 2/0, 0.75 mm², 1.5) into one canonical size with its area and resistance.
// It must not hold the tables' figures (wire-tables.ts) and must not round an unknown size to a known one.

import { headValue, NUMBER_ACCEPTED, type NumberOptions, readNumberHead } from './number-text.js';
import { accept, type Parsed, quoteText, refuse } from './parsed.js';
import { LONGEST_TEXT, plainText } from './plain-text.js';
import {
  AWG_LARGEST_CONDUCTOR,
  AWG_SMALLEST_CONDUCTOR,
  awgAreaMm2,
  faaStrandedMaximumOhmsPerMetre,
  IEC_60228_CLASS_5_MILLIOHMS_PER_METRE,
  ISO_6722_MILLIOHMS_PER_METRE,
  saeMinimumAreaOhmsPerMetre,
  solidCopperOhmsPerMetre,
  TRADE_SIZES_MILLIOHMS_PER_METRE,
} from './wire-tables.js';

/**
 * One conductor size. The working resistance is the figure of the tables people compute with: solid copper of the gauge
 * (NBS Handbook 100) and the limit of ISO 6722-1. Makers draw cable down close to that limit (trade catalogues lie within
 * 2.5 % of it), published voltage drops use it, and where it errs it errs to the high side. `leastOhmsPerMetre` and
 * `maximumOhmsPerMetre` bound what a sound wire of the size can have.
 */
export interface WireSize {
  readonly system: 'awg' | 'mm2';
  /** Canonical spelling: `18 AWG`, `2/0 AWG`, `0.75 mm²`. */
  readonly text: string;
  /** AWG: area of the solid conductor (ASTM B258). mm²: the nominal area. */
  readonly areaMm2: number;
  /** Working value in Ω/m at 20 °C. */
  readonly resistanceOhmsPerMetre: number;
  /** Solid copper of the full nominal area in Ω/m at 20 °C: a sound wire hardly has less. */
  readonly leastOhmsPerMetre: number;
  /**
   * Highest for a sound wire in Ω/m at 20 °C, null without a row. mm²: ISO 6722-1, else IEC 60228 class 5. AWG: the larger
   * of FAA table 11-9 (stranded) and the least copper sold under the same SAE gauge; null where neither lies above solid.
   */
  readonly maximumOhmsPerMetre: number | null;
}

export interface WireSizeOptions extends NumberOptions {
  /** What a bare number means. Default mm²: `1.5` is 1.5 mm². `00` and `2/0` are AWG in either case. */
  readonly bareNumber?: 'mm2' | 'awg';
}

const AWG_GAUGES: readonly number[] = Array.from(
  { length: AWG_SMALLEST_CONDUCTOR - AWG_LARGEST_CONDUCTOR + 1 },
  (_, i) => AWG_LARGEST_CONDUCTOR + i,
);

/** Every accepted size, thickest AWG first, then mm² from thin to thick. */
export const WIRE_SIZES: readonly WireSize[] = [...AWG_GAUGES.map(awgSize), ...metricSizes()];

const SIZE_BY_TEXT: ReadonlyMap<string, WireSize> = new Map(WIRE_SIZES.map((size) => [size.text, size]));

const ACCEPTED_AWG = '4/0 to 1/0 and 1 to 30 AWG';
const ACCEPTED_MM2 = `${WIRE_SIZES.filter((size) => size.system === 'mm2')
  .map((size) => size.areaMm2)
  .join(', ')} mm²`;
const ACCEPTED = `${ACCEPTED_AWG}, or ${ACCEPTED_MM2}`;

const GAUGE = String.raw`(0{1,4}|[1-4] ?\/ ?0|\d{1,2})`;
const AWG_FIRST = new RegExp(
  String.raw`^(?:awg|gauge|ga\.?|no\.?|#) ?[:#-]? ?${GAUGE}(?: ?(?:awg|gauge|ga\.?))?$`,
  'i',
);
const AWG_LAST = new RegExp(String.raw`^#? ?${GAUGE} ?-?(?:awg|gauge|ga\.?|g)$`, 'i');
const AWG_BARE = /^(?:0{2,4}|[1-4] ?\/ ?0)$/;
const MM2 = /^(?:mm2|mm\^2|mm 2|sq\.? ?mm|mm sq|sq\.?|qmm|q)$/i;

/** A wire size from text; a number is an area in mm² (or a gauge, with `bareNumber: 'awg'`). */
export function parseWireSize(input: string | number, options: WireSizeOptions = {}): Parsed<WireSize> {
  const text = plainText(String(input));
  if (text === '') return refuse('empty: a wire size is missing', ACCEPTED);
  if (text.length > LONGEST_TEXT) return refuse(`longer than ${LONGEST_TEXT} characters`, ACCEPTED);
  const marked = AWG_FIRST.exec(text) ?? AWG_LAST.exec(text);
  if (marked !== null) return awgFrom(marked[1] ?? '', text);
  if (AWG_BARE.test(text)) return awgFrom(text, text);
  return fromNumber(text, options);
}

function fromNumber(text: string, options: WireSizeOptions): Parsed<WireSize> {
  const head = readNumberHead(text, options);
  if (!head.ok) return refuse(head.reason, head.accepted === NUMBER_ACCEPTED ? ACCEPTED : head.accepted);
  const value = headValue(head.value);
  if (head.value.rest === '' && options.bareNumber === 'awg' && value >= 0) return awgFrom(String(value), text);
  if (head.value.rest === '' && value === 0) {
    return refuse(`${quoteText(text)} is no cross-section; gauge 0 is written 0 AWG or 1/0`, ACCEPTED);
  }
  if (/^mm\.?$/i.test(head.value.rest)) {
    return refuse(`${quoteText(text)}: mm is a length, a cross-section is written mm²`, ACCEPTED);
  }
  if (head.value.rest !== '' && !MM2.test(head.value.rest)) {
    return refuse(`${quoteText(text)} is no wire size: ${quoteText(head.value.rest)} is neither AWG nor mm²`, ACCEPTED);
  }
  const size = SIZE_BY_TEXT.get(metricText(value));
  return size === undefined ? refuse(`${quoteText(text)} is no size of the tables`, ACCEPTED_MM2) : accept(size);
}

function awgFrom(gaugeText: string, text: string): Parsed<WireSize> {
  const spelled = gaugeText.replaceAll(' ', '');
  const gauge = /^0+$/.test(spelled)
    ? 1 - spelled.length
    : spelled.endsWith('/0')
      ? 1 - Number(spelled[0])
      : Number(spelled);
  const size = SIZE_BY_TEXT.get(awgText(gauge));
  return size === undefined ? refuse(`${quoteText(text)} is no size of the tables`, ACCEPTED_AWG) : accept(size);
}

function awgText(gauge: number): string {
  return gauge <= 0 ? `${1 - gauge}/0 AWG` : `${gauge} AWG`;
}

function metricText(areaMm2: number): string {
  return `${areaMm2} mm²`;
}

function awgSize(gauge: number): WireSize {
  const areaMm2 = awgAreaMm2(gauge);
  const solid = solidCopperOhmsPerMetre(areaMm2);
  const aircraft = faaStrandedMaximumOhmsPerMetre(gauge) ?? solid;
  const highest = Math.max(aircraft, saeMinimumAreaOhmsPerMetre(gauge) ?? solid);
  return {
    system: 'awg',
    text: awgText(gauge),
    areaMm2,
    resistanceOhmsPerMetre: solid,
    leastOhmsPerMetre: Math.min(solid, aircraft),
    maximumOhmsPerMetre: highest > solid ? highest : null,
  };
}

function metricSizes(): WireSize[] {
  const areas = new Set([
    ...ISO_6722_MILLIOHMS_PER_METRE.keys(),
    ...IEC_60228_CLASS_5_MILLIOHMS_PER_METRE.keys(),
    ...TRADE_SIZES_MILLIOHMS_PER_METRE.keys(),
  ]);
  return [...areas].sort((a, b) => a - b).map(metricSize);
}

function metricSize(areaMm2: number): WireSize {
  const limit = ISO_6722_MILLIOHMS_PER_METRE.get(areaMm2) ?? IEC_60228_CLASS_5_MILLIOHMS_PER_METRE.get(areaMm2);
  const milliohms = limit ?? TRADE_SIZES_MILLIOHMS_PER_METRE.get(areaMm2);
  const solid = solidCopperOhmsPerMetre(areaMm2);
  const working = milliohms === undefined ? solid : milliohms / 1000;
  return {
    system: 'mm2',
    text: metricText(areaMm2),
    areaMm2,
    resistanceOhmsPerMetre: working,
    leastOhmsPerMetre: Math.min(solid, working),
    maximumOhmsPerMetre: limit === undefined ? null : limit / 1000,
  };
}
