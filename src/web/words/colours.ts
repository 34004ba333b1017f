// Insulation colours of IEC 60757: the word to read and the shade to draw, for a swatch that is never the only sign.
// It must not judge a colour: what it cannot read comes back as written.

interface Colour {
  readonly word: string;
  readonly hex: string;
}

/** Codes: IEC 60757, table 1. Shades: for drawing only. */
const colours: ReadonlyMap<string, Colour> = new Map([
  ['BK', { word: 'black', hex: '#1a1a1a' }],
  ['BN', { word: 'brown', hex: '#7a4a21' }],
  ['RD', { word: 'red', hex: '#d11f1f' }],
  ['OG', { word: 'orange', hex: '#f07d00' }],
  ['YE', { word: 'yellow', hex: '#f2d600' }],
  ['GN', { word: 'green', hex: '#1f8a3b' }],
  ['BU', { word: 'blue', hex: '#1f5fc4' }],
  ['VT', { word: 'violet', hex: '#7d3fa0' }],
  ['GY', { word: 'grey', hex: '#8c8c8c' }],
  ['WH', { word: 'white', hex: '#ffffff' }],
  ['PK', { word: 'pink', hex: '#f49ac1' }],
  ['GD', { word: 'gold', hex: '#c9a227' }],
  ['TQ', { word: 'turquoise', hex: '#2bb5b0' }],
  ['SR', { word: 'silver', hex: '#c0c0c0' }],
]);

const bandsOf = (text: string): readonly { readonly shade: string; readonly code: string }[] =>
  text.split('/').map((band) => {
    const [, shade = '', code = band] = /^(light |dark )?([A-Z]{2})$/.exec(band.trim()) ?? [];
    return { shade: shade.trim(), code };
  });

/** `RD/BK` as `red with black stripe`. */
export function colourWords(text: string | undefined): string {
  if (text === undefined || text === '') return 'colour not recorded';
  const bands = bandsOf(text).map(({ shade, code }) => `${shade} ${colours.get(code)?.word ?? code}`.trim());
  const [base, ...stripes] = bands;
  if (stripes.length === 0) return base;
  return `${base} with ${stripes.join(' and ')} ${stripes.length === 1 ? 'stripe' : 'stripes'}`;
}

/** Shades to draw, base first; empty when the text names no colour. */
export function colourShades(text: string | undefined): readonly string[] {
  if (text === undefined) return [];
  const found = bandsOf(text).map(({ code }) => colours.get(code)?.hex);
  return found.every((hex): hex is string => hex !== undefined) ? found : [];
}
