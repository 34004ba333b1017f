// What stands in one cell: guarding against formulas, lists, sets, pairs of temperature and ohms, yes and no.
// It must not know which column it is in.

const FORMULA = /^'*[=+\-@\t\r]/;
const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;

/** A cell that a spreadsheet would take for a formula gets a leading apostrophe; plain numbers stay. */
export function guardCell(text: string): string {
  return FORMULA.test(text) && !NUMBER.test(text) ? `'${text}` : text;
}

/** Takes the apostrophe away again. */
export function unguardCell(text: string): string {
  return text.startsWith("'") && FORMULA.test(text.slice(1)) ? text.slice(1) : text;
}

/** Free texts in one cell: `;` between them, `\;` for a semicolon inside one. */
export function joinTexts(items: readonly string[]): string {
  return items.map((item) => item.replace(/[\\;]/g, '\\$&')).join('; ');
}

export function splitTexts(cell: string): readonly string[] {
  const items: string[] = [];
  let item = '';
  for (let at = 0; at < cell.length; at += 1) {
    if (cell[at] === '\\' && at + 1 < cell.length) {
      at += 1;
      item += cell[at];
    } else if (cell[at] === ';') {
      items.push(item);
      item = '';
    } else item += cell[at];
  }
  return [...items, item].map((entry) => entry.trim()).filter((entry) => entry !== '');
}

/** Names without blanks in one cell. */
export function joinNames(names: readonly string[]): string {
  return names.join('; ');
}

/** Names that a count may stand for: a single one ends in `;`, so that `3;` is a name and `3` a count. */
export function joinNamesOrCount(value: number | readonly string[]): string {
  if (typeof value === 'number') return String(value);
  return value.length === 1 ? `${value[0]};` : joinNames(value);
}

export function splitNames(cell: string): string[] {
  return cell.split(/[;,\s|]+/).filter((name) => name !== '');
}

/** `12`, `1-12` or `1 to 12` as a count, anything else as names. */
export function readCountOrNames(cell: string): number | string[] {
  if (/^\d{1,6}$/.test(cell)) return Number(cell);
  const range = /^1 ?(?:-|–|\.\.|to|bis|à|a) ?(\d{1,4})$/i.exec(cell);
  return range === null ? splitNames(cell) : Number(range[1]);
}

/** Sets of terminals that a position joins: `30 15; 50 75`. By hand also `30-15`. */
export function joinSets(sets: readonly (readonly string[])[]): string {
  return sets.map((set) => set.join(' ')).join('; ');
}

export function splitSets(cell: string): string[][] {
  return cell
    .split(/[;|]/)
    .map((set) => {
      const names = set.split(/[\s,]+/).filter((name) => name !== '');
      return names.length === 1 ? names[0]!.split(/[-+&/]/).filter((name) => name !== '') : names;
    })
    .filter((set) => set.length > 0);
}

/** Thermistor: `-20: 15000; 25: 2500`. */
export function joinTemperatures(points: readonly { readonly celsius: number; readonly ohms: number }[]): string {
  return points.map(({ celsius, ohms }) => `${celsius}: ${ohms}`).join('; ');
}

export function splitTemperatures(cell: string): { celsius: string; ohms: string }[] {
  return cell
    .split(';')
    .map((pair) => pair.split(/[:=]/))
    .map(([celsius = '', ohms = '']) => ({ celsius: celsius.trim(), ohms: ohms.trim() }))
    .filter(({ celsius, ohms }) => celsius !== '' || ohms !== '');
}

const YES: ReadonlySet<string> = new Set(['yes', 'y', 'true', '1', 'x', 'ja', 'j', 'oui', 'o', 'si', 'sí', 's', 'on']);
const NO: ReadonlySet<string> = new Set(['no', 'n', 'false', '0', 'nein', 'non', 'off', '-']);

/** A flag, or the text itself when it is neither yes nor no. */
export function readFlag(cell: string): boolean | string {
  const word = cell.toLowerCase();
  if (YES.has(word)) return true;
  return NO.has(word) ? false : cell;
}
