// Where volts fall on the width of the picture: close up, so that millivolts show, or the whole of the supply.
// It must not give feed and return different lengths for one volt.

import type { TakenReadings } from './fault-step.js';
import type { ProfileRow } from './rows.js';

export interface Scale {
  readonly low: number;
  readonly high: number;
  readonly ticks: readonly number[];
  /** Percent of the width, kept inside the picture. */
  readonly at: (volts: number) => number;
  readonly isWhole: boolean;
}

export interface Scales {
  readonly feed: Scale;
  readonly return: Scale;
}

/** Close up at least so much is shown, so that a healthy harness looks healthy. */
const leastSpanVolts = 0.5;
const edgePercent = 4;

export function profileScales(rows: readonly ProfileRow[], taken: TakenReadings, zoom: 'close' | 'whole'): Scales {
  const feedVolts = voltsOf(
    rows.filter(({ point }) => point.along === 'feed'),
    taken,
  );
  const returnVolts = voltsOf(
    rows.filter(({ point }) => point.along !== 'feed'),
    taken,
  );
  const all = [...feedVolts, ...returnVolts];
  const top = Math.max(...all, 0);
  const bottom = Math.min(...all, 0);
  const span = Math.max(spread(feedVolts), spread(returnVolts), leastSpanVolts);
  if (zoom === 'whole' || span > (top - bottom) * 0.7) {
    const whole = scale(bottom, top, true);
    return { feed: whole, return: whole };
  }
  const feedTop = Math.max(...feedVolts);
  const returnBottom = Math.min(...returnVolts, 0);
  return { feed: scale(feedTop - span, feedTop, false), return: scale(returnBottom, returnBottom + span, false) };
}

function voltsOf(rows: readonly ProfileRow[], taken: TakenReadings): readonly number[] {
  return rows.flatMap(({ point }) =>
    [point.volts.nominal, point.volts.low, point.volts.high, taken.get(point.point) ?? null].filter(
      (volts): volts is number => volts !== null,
    ),
  );
}

const spread = (volts: readonly number[]): number => (volts.length === 0 ? 0 : Math.max(...volts) - Math.min(...volts));

function scale(from: number, to: number, isWhole: boolean): Scale {
  const step = tickStep(to - from);
  const low = Math.floor(from / step + 1e-9) * step;
  const high = Math.ceil(to / step - 1e-9) * step;
  const ticks: number[] = [];
  for (let n = 0; low + n * step <= high + step * 1e-6; n++) ticks.push(low + n * step);
  const width = 100 - 2 * edgePercent;
  const at = (volts: number): number =>
    edgePercent + width * Math.min(1, Math.max(0, (volts - low) / (high - low || 1)));
  return { low, high, ticks, at, isWhole };
}

/** Steps of 1, 2 or 5 times a power of ten that give two to five ticks. */
function tickStep(span: number): number {
  const power = 10 ** Math.floor(Math.log10(Math.max(span, 1e-3)));
  const ratio = span / power;
  const factor = ratio > 5 ? 2 : ratio > 2 ? 1 : 0.5;
  return factor * power;
}

/** The ends, and the middle where one tick stands in it: more does not fit beside the names on a phone. */
export function labelledTicks({ ticks }: Scale): readonly number[] {
  const last = ticks.length - 1;
  return ticks.filter((_, at) => at === 0 || at === last || at === last / 2);
}
