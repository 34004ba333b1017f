// Field names of the record as words with their unit: `lengthMetres` as `Length (m)`.
// It must not change a value.

const units: readonly (readonly [ending: string, unit: string])[] = [
  ['AmpHours', 'Ah'],
  ['Metres', 'm'],
  ['Volts', 'V'],
  ['Amps', 'A'],
  ['Watts', 'W'],
  ['Ohms', 'Ω'],
  ['Celsius', '°C'],
  ['Years', 'years'],
];

const ownWords: ReadonlyMap<string, string> = new Map([
  ['fromEnd', 'How it ends at “from”'],
  ['toEnd', 'How it ends at “to”'],
  ['on', 'Fixed to (body)'],
  ['caseOn', 'Case fixed to (body)'],
  ['view', 'Side from which cavities were counted'],
  ['panel', 'Panel to take off'],
  ['marks', 'Marked as'],
]);

export function fieldWords(key: string): string {
  const own = ownWords.get(key);
  if (own !== undefined) return own;
  const found = units.find(([ending]) => key.endsWith(ending) && key.length > ending.length);
  const bare = found === undefined ? key : key.slice(0, -found[0].length);
  const words = bare.replace(/([a-z0-9])([A-Z])/g, '$1 $2').toLowerCase();
  const text = words.charAt(0).toUpperCase() + words.slice(1);
  return found === undefined ? text : `${text} (${found[1]})`;
}

/** A value of the record in one line. */
export function valueWords(value: unknown): string {
  if (Array.isArray(value)) return value.map(valueWords).join(', ');
  if (typeof value === 'object' && value !== null) {
    return Object.entries(value)
      .map(([key, inner]) => `${fieldWords(key).toLowerCase()} ${valueWords(inner)}`)
      .join(', ');
  }
  return String(value);
}
