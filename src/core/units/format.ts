// Shows SI numbers to people: a sensible count of digits, the unit that fits, one blank between; never the locale's.
// It must not round what is stored or computed with; these are texts for the end of the line.

interface Scale {
  readonly atLeast: number;
  readonly perUnit: number;
  readonly symbol: string;
}

const NOT_KNOWN = 'n/a';

/** Volts with the digits a 6,000-count meter shows: 12.35 V, 5.362 V, 94.2 mV. */
export function formatVolts(volts: number): string {
  if (!Number.isFinite(volts)) return NOT_KNOWN;
  const size = Math.abs(volts);
  if (size < 0.1) return `${decimals(volts * 1000, 1)} mV`;
  return `${decimals(volts, size < 6 ? 3 : size < 60 ? 2 : 1)} V`;
}

/** Amperes to three digits: 15 A, 250 mA, 1.2 kA. */
export function formatAmps(amps: number): string {
  return engineering(amps, 3, [
    { atLeast: 1000, perUnit: 1000, symbol: 'kA' },
    { atLeast: 1, perUnit: 1, symbol: 'A' },
    { atLeast: 1e-3, perUnit: 1e-3, symbol: 'mA' },
    { atLeast: 0, perUnit: 1e-6, symbol: 'µA' },
  ]);
}

/** Ohms to three digits: 4.7 kΩ, 0.5 Ω as 500 mΩ, 12 mΩ. */
export function formatOhms(ohms: number): string {
  return engineering(ohms, 3, [
    { atLeast: 1e9, perUnit: 1e9, symbol: 'GΩ' },
    { atLeast: 1e6, perUnit: 1e6, symbol: 'MΩ' },
    { atLeast: 1000, perUnit: 1000, symbol: 'kΩ' },
    { atLeast: 1, perUnit: 1, symbol: 'Ω' },
    { atLeast: 1e-3, perUnit: 1e-3, symbol: 'mΩ' },
    { atLeast: 0, perUnit: 1e-6, symbol: 'µΩ' },
  ]);
}

/** Watts to three digits: 55 W, 1.2 kW, 500 mW. */
export function formatWatts(watts: number): string {
  return engineering(watts, 3, [
    { atLeast: 1000, perUnit: 1000, symbol: 'kW' },
    { atLeast: 1, perUnit: 1, symbol: 'W' },
    { atLeast: 0, perUnit: 1e-3, symbol: 'mW' },
  ]);
}

/** Metres to the centimetre, below 0.1 m in millimetres: 1.3 m, 0.35 m, 25 mm. */
export function formatMetres(metres: number): string {
  if (!Number.isFinite(metres)) return NOT_KNOWN;
  return Math.abs(metres) < 0.1 ? `${decimals(metres * 1000, 0)} mm` : `${decimals(metres, 2)} m`;
}

/** Degrees Celsius to the tenth: 25 °C. */
export function formatCelsius(celsius: number): string {
  return Number.isFinite(celsius) ? `${decimals(celsius, 1)} °C` : NOT_KNOWN;
}

/** Percent to the tenth: 3.5 %. */
export function formatPercent(percent: number): string {
  return Number.isFinite(percent) ? `${decimals(percent, 1)} %` : NOT_KNOWN;
}

/** Seconds in the unit that fits: 20 ms, 5 s, 10 min, 100 h. */
export function formatSeconds(seconds: number): string {
  return engineering(seconds, 3, [
    { atLeast: 3600, perUnit: 3600, symbol: 'h' },
    { atLeast: 60, perUnit: 60, symbol: 'min' },
    { atLeast: 1, perUnit: 1, symbol: 's' },
    { atLeast: 0, perUnit: 1e-3, symbol: 'ms' },
  ]);
}

function engineering(value: number, digits: number, scales: readonly Scale[]): string {
  if (!Number.isFinite(value)) return NOT_KNOWN;
  // Rounded first, so that 999.6 mA becomes 1 A and not 1000 mA.
  const rounded = Number(Math.abs(value).toPrecision(digits));
  const scale = scales.find((candidate) => rounded >= candidate.atLeast);
  if (scale === undefined) return NOT_KNOWN;
  if (rounded === 0) return `0 ${scales.find((candidate) => candidate.perUnit === 1)?.symbol ?? scale.symbol}`;
  const shown = decimals(Number((rounded / scale.perUnit).toPrecision(digits)), 3);
  return `${value < 0 && shown !== '0' ? '-' : ''}${shown} ${scale.symbol}`;
}

/** At most so many decimals, no trailing zeros, no exponent, no negative zero. */
function decimals(value: number, most: number): string {
  const text = value.toFixed(most);
  const short = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return short === '-0' ? '0' : short;
}
