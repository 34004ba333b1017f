// The units of each quantity and their spellings, as people write them in sheets and on phones. Data only.
// It must not hold defaults of parts, and must not list a spelling that can mean two things.

import type { Measure, Unit } from './measure.js';

const one: Unit = { power: 0 };
const milli: Unit = { power: -3 };
const micro: Unit = { power: -6 };
const kilo: Unit = { power: 3 };
const mega: Unit = { power: 6 };
/** The international foot and inch are exact by definition: 0.3048 m and 0.0254 m. */
const foot: Unit = { power: -4, factor: 3048 };
const inch: Unit = { power: -4, factor: 254 };

type Row = readonly [spellings: string, unit: Unit];

function table(...rows: readonly Row[]): ReadonlyMap<string, Unit> {
  return new Map(rows.flatMap(([spellings, unit]) => spellings.split('|').map((s): [string, Unit] => [s, unit])));
}

export const LENGTH: Measure = {
  name: 'a length',
  accepted: 'metres as 1.3, or with a unit: 1.3 m, 130 cm, 1300 mm, 4 ft 3 in, 51 in',
  symbols: table(['m', one], ['mm', milli], ['"', inch], ["'", foot]),
  words: table(
    ['m|metre|metres|meter|meters|mtr|mtrs|mètre|mètres|metro|metros', one],
    ['dm', { power: -1 }],
    ['cm|cms|centimetre|centimetres|centimeter|centimeters', { power: -2 }],
    ['mm|millimetre|millimetres|millimeter|millimeters', milli],
    ['km|kilometre|kilometres|kilometer|kilometers', kilo],
    ['in|inch|inches|zoll', inch],
    ['ft|foot|feet', foot],
    ['yd|yds|yard|yards', { power: -4, factor: 9144 }],
  ),
  bareUnit: one,
};

export const VOLTS: Measure = {
  name: 'a voltage',
  accepted: 'volts as 12, 12 V, 12.6 V or 250 mV',
  symbols: table(['μV|uV', micro]),
  words: table(
    ['v|volt|volts|vdc|v dc|volts dc', one],
    ['mv|millivolt|millivolts|mv dc|mvdc', milli],
    ['kv|kilovolt|kilovolts', kilo],
  ),
  refused: new Map([['MV', 'MV would be a million volts: write mV']]),
  bareUnit: one,
};

export const AMPS: Measure = {
  name: 'a current',
  accepted: 'amperes as 15, 15 A or 250 mA',
  symbols: table(['μA|uA', micro]),
  words: table(
    ['a|amp|amps|ampere|amperes|ampère|ampères|adc|a dc', one],
    ['ma|milliamp|milliamps|milliampere|milliamperes|madc|ma dc', milli],
    ['microamp|microamps|microampere|microamperes', micro],
    ['ka|kiloamp|kiloamps', kilo],
  ),
  refused: new Map([['MA', 'MA would be a million amperes: write mA']]),
  bareUnit: one,
};

export const OHMS: Measure = {
  name: 'a resistance',
  accepted: 'ohms as 0.5, 0.5 Ω, 10 mΩ, 4.7 kΩ, 4k7 or 1 MΩ',
  symbols: table(
    ['R|r', one],
    ['m|mR|mΩ|mohm|mohms|mOhm|mOhms', milli],
    ['μΩ|uΩ|μohm|uohm|uOhm', micro],
    ['M|MR|MΩ|Mohm|Mohms|MOhm|MOhms|Mω', mega],
  ),
  words: table(
    // "Ω" in lower case is "ω", which is how a case-blind look-up meets it.
    ['ω|ohm|ohms', one],
    ['milliohm|milliohms', milli],
    ['microohm|microohms|microhm|microhms', micro],
    ['k|kω|kr|kohm|kohms|kiloohm|kiloohms|kilohm|kilohms', kilo],
    ['gω|gohm|gohms|gigaohm|gigaohms', { power: 9 }],
    ['meg|megs|megohm|megohms|megaohm|megaohms', mega],
  ),
  refused: new Map([
    ['MOHM', 'MOHM can mean mΩ or MΩ: write mΩ or MΩ'],
    ['MOHMS', 'MOHMS can mean mΩ or MΩ: write mΩ or MΩ'],
  ]),
  bareUnit: one,
};

export const WATTS: Measure = {
  name: 'a power',
  accepted: 'watts as 55, 55 W, 500 mW or 1.2 kW; a lamp with two filaments needs each power in its own field',
  symbols: new Map(),
  words: table(['w|watt|watts', one], ['mw|milliwatt|milliwatts', milli], ['kw|kilowatt|kilowatts', kilo]),
  refused: new Map([['MW', 'MW would be a million watts: write mW']]),
  bareUnit: one,
};

export const CELSIUS: Measure = {
  name: 'a temperature',
  accepted: 'degrees Celsius as 25 or 25 °C, also 77 °F or 298 K',
  symbols: new Map(),
  words: table(
    ['c|°c|° c|deg c|degc|degrees c|celsius|°|deg|degrees|degrees celsius', one],
    ['f|°f|° f|deg f|degf|degrees f|fahrenheit|degrees fahrenheit', { power: 0, offset: -32, factor: 5 / 9 }],
    ['k|kelvin', { power: 0, offset: -273.15 }],
  ),
  bareUnit: one,
};

export const PERCENT: Measure = {
  name: 'a percentage',
  accepted: 'percent as 3 or 3 %',
  symbols: new Map(),
  words: table(['%|percent|per cent|pct|prozent|pour cent|por ciento', one]),
  bareUnit: one,
};

export const SECONDS: Measure = {
  name: 'a duration',
  accepted: 'seconds as 5, 5 s, 250 ms, 2 min or 1 h',
  symbols: new Map(),
  words: table(
    ['s|sec|secs|second|seconds', one],
    ['ms|msec|millisecond|milliseconds', milli],
    ['min|mins|minute|minutes', { power: 0, factor: 60 }],
    ['h|hr|hrs|hour|hours', { power: 0, factor: 3600 }],
  ),
  refused: new Map([['m', 'm can mean minutes or milliseconds: write min or ms']]),
  bareUnit: one,
};

export const AMP_HOURS: Measure = {
  name: 'a battery capacity',
  accepted: 'ampere hours as 60 or 60 Ah',
  symbols: new Map(),
  words: table(
    ['ah|a h|a·h|amp hour|amp hours|amp-hour|amp-hours|ampere hours', one],
    ['mah|ma h|ma·h|milliamp hours', milli],
  ),
  bareUnit: one,
};

export const SQUARE_MILLIMETRES: Measure = {
  name: 'a cross-section',
  accepted: 'square millimetres as 0.75, 0.75 mm² or 0.75 mm2',
  symbols: new Map(),
  words: table(['mm2|mm^2|mm 2|sq mm|sqmm|mm sq|sq|qmm|square mm|square millimetres|square millimeters', one]),
  bareUnit: one,
};
