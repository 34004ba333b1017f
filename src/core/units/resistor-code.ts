// Reads resistances written with the multiplier in place of the decimal point, as IEC 60062 has it: 4k7, R47, 1M5.
// It must not read resistances with a separate unit; those go through measure.ts.

const CODE = /^(\d{0,6})([RrkKMmΩ])(\d{1,6}) ?(?:Ω|ohms?)?$/;

const POWER_OF_TEN: ReadonlyMap<string, number> = new Map([
  ['R', 0],
  ['r', 0],
  ['Ω', 0],
  ['k', 3],
  ['K', 3],
  ['M', 6],
  ['m', -3],
]);

/** Ohms, or null where the text is not such a code. `m` is milli, `M` is mega. */
export function resistorCode(text: string): number | null {
  const match = CODE.exec(text);
  if (match === null) return null;
  const [, whole = '', letter = '', fraction = ''] = match;
  const power = POWER_OF_TEN.get(letter);
  if (power === undefined) return null;
  return Number(`${whole === '' ? '0' : whole}.${fraction}e${power}`);
}
