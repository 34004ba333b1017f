// Colour codes of IEC 60757 and the words and short forms people write for them in English, German, French and Spanish.
// Data only. A short form that means two colours somewhere is listed as ambiguous, never as one of them.

export type ColourCode =
  | 'BK'
  | 'BN'
  | 'RD'
  | 'OG'
  | 'YE'
  | 'GN'
  | 'BU'
  | 'VT'
  | 'GY'
  | 'WH'
  | 'PK'
  | 'GD'
  | 'TQ'
  | 'SR';

export interface ColourEntry {
  readonly code: ColourCode;
  /** English word, for reading aloud and printing. */
  readonly word: string;
  /** For drawing only; paper and people who see colours differently go by the words and the stripes. */
  readonly hex: string;
  /** Lower case, without accents (ä as a, ß as ss). */
  readonly spellings: string;
}

/** Codes and order: IEC 60757, table 1. Spellings: common practice. */
export const COLOURS: readonly ColourEntry[] = [
  { code: 'BK', word: 'black', hex: '#1a1a1a', spellings: 'bk black blk schwarz sw noir noire negro negra' },
  { code: 'BN', word: 'brown', hex: '#7a4a21', spellings: 'bn brown brn br braun brun brune marron cafe' },
  { code: 'RD', word: 'red', hex: '#d11f1f', spellings: 'rd red rot rt rouge rojo roja' },
  { code: 'OG', word: 'orange', hex: '#f07d00', spellings: 'og orange org orn ora or naranja anaranjado anaranjada' },
  { code: 'YE', word: 'yellow', hex: '#f2d600', spellings: 'ye yellow yel gelb ge jaune amarillo amarilla' },
  { code: 'GN', word: 'green', hex: '#1f8a3b', spellings: 'gn green grn grun gruen vert verte verde' },
  { code: 'BU', word: 'blue', hex: '#1f5fc4', spellings: 'bu blue blu blau bleu bleue azul' },
  {
    code: 'VT',
    word: 'violet',
    hex: '#7d3fa0',
    spellings: 'vt violet vio vi purple pur ppl prp violett lila violette violeta morado morada purpura mauve',
  },
  { code: 'GY', word: 'grey', hex: '#8c8c8c', spellings: 'gy grey gray gry grau gris grise slate' },
  { code: 'WH', word: 'white', hex: '#ffffff', spellings: 'wh white wht weiss ws blanc blanche blanco blanca' },
  { code: 'PK', word: 'pink', hex: '#f49ac1', spellings: 'pk pink pnk rosa rs rose rosado rosada' },
  { code: 'GD', word: 'gold', hex: '#c9a227', spellings: 'gd gold gld dore doree oro dorado dorada' },
  { code: 'TQ', word: 'turquoise', hex: '#2bb5b0', spellings: 'tq turquoise turkis tuerkis turquesa' },
  {
    code: 'SR',
    word: 'silver',
    hex: '#c0c0c0',
    spellings: 'sr silver slv silber argent argente plata plateado plateada',
  },
];

/** Names of a shade of a coded colour, as wire sellers use them. */
export const SHADED_WORDS: ReadonlyMap<string, { readonly code: ColourCode; readonly shade: Shade }> = new Map([
  ['tan', { code: 'BN', shade: 'light' }],
  ['beige', { code: 'BN', shade: 'light' }],
  ['navy', { code: 'BU', shade: 'dark' }],
]);

export type Shade = 'light' | 'dark';

export const SHADE_SPELLINGS: ReadonlyMap<string, Shade> = new Map([
  ...words('light lt hell clair claire claro clara', 'light'),
  ...words('dark dk dunkel fonce foncee oscuro oscura', 'dark'),
]);

/** Short forms that stand for different colours in different countries or shops, with what they can mean. */
export const AMBIGUOUS_COLOURS: ReadonlyMap<string, string> = new Map([
  ['b', 'black, blue or brown'],
  ['g', 'green, grey, yellow (gelb) or gold'],
  ['p', 'pink or purple'],
  ['r', 'red or pink (rosa, rose)'],
  ['s', 'black (schwarz), grey (slate) or silver'],
  ['v', 'violet or green (vert, verde)'],
  ['n', 'black (noir, negro), brown or orange (naranja)'],
  ['w', 'white, which is WH'],
  ['y', 'yellow, which is YE'],
  ['o', 'orange or gold (oro)'],
  ['l', 'blue or light'],
  ['u', 'blue, which is BU'],
  ['k', 'black or pink'],
  ['bl', 'black or blue'],
  ['gr', 'green or grey'],
  ['ro', 'red or pink'],
  ['pu', 'purple, which is VT'],
  ['vr', 'green or violet'],
  ['ma', 'brown or violet'],
  ['lg', 'light green or light grey'],
  ['lb', 'light blue or light brown'],
  ['db', 'dark blue or dark brown'],
  ['dg', 'dark green or dark grey'],
]);

/** Words that join base and stripe and carry no colour. Single letters are not among them: y may be yellow. */
export const JOINING_WORDS: ReadonlySet<string> = new Set(
  'with mit avec con and und et stripe stripes striped tracer tracers streifen raye rayure bande raya rayas rayado'.split(
    ' ',
  ),
);

function words(spellings: string, shade: Shade): [string, Shade][] {
  return spellings.split(' ').map((spelling) => [spelling, shade]);
}
