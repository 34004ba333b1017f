// Reads a wire's insulation colour into IEC 60757 codes, base first, then stripes, and says it in words.
// It must not reorder base and stripe (the standard's table order would lose which is which) and must not guess.

import {
  AMBIGUOUS_COLOURS,
  COLOURS,
  type ColourCode,
  JOINING_WORDS,
  SHADE_SPELLINGS,
  SHADED_WORDS,
  type Shade,
} from './colour-words.js';
import { accept, type Parsed, quoteText, refuse } from './parsed.js';
import { LONGEST_TEXT, plainText } from './plain-text.js';

export interface ColourBand {
  readonly code: ColourCode;
  readonly shade: Shade | null;
}

export interface WireColour {
  /** Canonical spelling: `RD`, `RD/BK` (red with black stripe), `light GN/WH`. */
  readonly text: string;
  /** Base first, then one or two stripes. */
  readonly bands: readonly ColourBand[];
}

const ACCEPTED = `codes of IEC 60757 (${COLOURS.map((colour) => colour.code).join(' ')}), base/stripe as RD/BK, or words as red/black`;

const MOST_BANDS = 3;

const CODE_BY_SPELLING: ReadonlyMap<string, ColourCode> = new Map(
  COLOURS.flatMap(({ code, spellings }) => spellings.split(' ').map((s): [string, ColourCode] => [s, code])),
);

/** The colour of a wire from a code or from words in English, German, French or Spanish. */
export function parseColour(input: string): Parsed<WireColour> {
  if (typeof input !== 'string') return refuse('not a text', ACCEPTED);
  const text = plainText(input);
  if (text === '') return refuse('empty: a colour is missing', ACCEPTED);
  if (text.length > LONGEST_TEXT) return refuse(`longer than ${LONGEST_TEXT} characters`, ACCEPTED);
  if (text.includes('+'))
    return refuse(`${quoteText(input)}: in IEC 60757 a + joins two wires, not two bands`, ACCEPTED);
  const bands = readBands(text);
  return bands.ok ? wireColour(bands.value, input) : bands;
}

/** `RD/BK` as `red with black stripe`; a text that is no colour comes back as it is. */
export function toWords(text: string): string {
  const colour = parseColour(text);
  return colour.ok ? colourWords(colour.value) : text;
}

/** A parsed colour in English words. */
export function colourWords(colour: WireColour): string {
  const [base = '', ...stripes] = colour.bands.map(bandWords);
  if (stripes.length === 0) return base;
  return `${base} with ${stripes.join(' and ')} ${stripes.length === 1 ? 'stripe' : 'stripes'}`;
}

/** A colour for drawing on a screen. Never the only sign: words and stripes stand beside it. */
export function colourHex(code: ColourCode): string {
  return COLOURS.find((colour) => colour.code === code)?.hex ?? '#000000';
}

function wireColour(bands: readonly ColourBand[], input: string): Parsed<WireColour> {
  if (bands.length === 0) return refuse(`${quoteText(input)} names no colour`, ACCEPTED);
  if (bands.length > MOST_BANDS) return refuse(`${quoteText(input)} has more than ${MOST_BANDS} colours`, ACCEPTED);
  const codes = bands.map(bandText);
  if (new Set(codes).size !== codes.length) return refuse(`${quoteText(input)} names one colour twice`, ACCEPTED);
  return accept({ text: codes.join('/'), bands });
}

function readBands(text: string): Parsed<ColourBand[]> {
  const tokens = text
    .toLowerCase()
    .replaceAll('ß', 'ss')
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .replace(/(\S) w\/ ?/g, '$1 with ')
    .replace(/ with a /g, ' with ')
    .replace(/([a-z]{3}) y (?=[a-z]{3})/g, '$1 con ')
    .split(/[\s/\\|,;&_.:()-]+/)
    .filter((token) => token !== '' && !JOINING_WORDS.has(token));
  const bands: ColourBand[] = [];
  let shade: Shade | null = null;
  for (const token of tokens) {
    const ownShade = SHADE_SPELLINGS.get(token);
    if (ownShade !== undefined) {
      const previous = bands.at(-1);
      // French and Spanish put the shade behind the colour: vert clair, azul oscuro.
      const behind = /^(clair|fonce|claro|clara|oscur)/.test(token) && previous !== undefined;
      if (behind) bands[bands.length - 1] = { code: previous.code, shade: ownShade };
      else shade = ownShade;
      continue;
    }
    const read = readToken(token);
    if (!read.ok) return read;
    const [first, ...more] = read.value;
    if (first !== undefined) bands.push(shade === null ? first : { code: first.code, shade }, ...more);
    shade = null;
  }
  return shade === null ? accept(bands) : refuse(`${quoteText(text)} ends in a shade without a colour`, ACCEPTED);
}

function readToken(token: string): Parsed<ColourBand[]> {
  const code = CODE_BY_SPELLING.get(token);
  if (code !== undefined) return accept([{ code, shade: null }]);
  const shaded = SHADED_WORDS.get(token);
  if (shaded !== undefined) return accept([shaded]);
  const ambiguous = AMBIGUOUS_COLOURS.get(token);
  if (ambiguous !== undefined) return refuse(`${quoteText(token)} can mean ${ambiguous}`, ACCEPTED);
  const prefix = /^(light|lt|hell|dark|dk|dunkel)(.+)$/.exec(token);
  if (prefix !== null) {
    const rest = CODE_BY_SPELLING.get(prefix[2] ?? '');
    const shade = SHADE_SPELLINGS.get(prefix[1] ?? '');
    if (rest !== undefined && shade !== undefined) return accept([{ code: rest, shade }]);
  }
  return joinedCodes(token);
}

/** RDBK, GNYE, swrt: two-letter codes written without a separator; also grüngelb, BLKRED. */
function joinedCodes(token: string): Parsed<ColourBand[]> {
  const pairs = token.length % 2 === 0 ? (token.match(/../g) ?? []) : [];
  if (pairs.length > 1 && pairs.length <= MOST_BANDS && pairs.every((pair) => isKnown(pair))) {
    const unclear = pairs.find((pair) => AMBIGUOUS_COLOURS.has(pair));
    if (unclear !== undefined) {
      return refuse(`${quoteText(unclear)} can mean ${AMBIGUOUS_COLOURS.get(unclear)}`, ACCEPTED);
    }
    return accept(pairs.flatMap(plainBand));
  }
  for (let cut = 3; cut <= token.length - 3; cut++) {
    const bands = [token.slice(0, cut), token.slice(cut)].flatMap(plainBand);
    if (bands.length === 2) return accept(bands);
  }
  return refuse(`${quoteText(token)} is no colour code and no colour word`, ACCEPTED);
}

function isKnown(spelling: string): boolean {
  return AMBIGUOUS_COLOURS.has(spelling) || CODE_BY_SPELLING.has(spelling);
}

function plainBand(spelling: string): ColourBand[] {
  const code = CODE_BY_SPELLING.get(spelling);
  return code === undefined ? [] : [{ code, shade: null }];
}

function bandText(band: ColourBand): string {
  return band.shade === null ? band.code : `${band.shade} ${band.code}`;
}

function bandWords(band: ColourBand): string {
  const word = COLOURS.find((colour) => colour.code === band.code)?.word ?? band.code;
  return band.shade === null ? word : `${band.shade} ${word}`;
}
