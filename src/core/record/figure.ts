// A figure as the record gives it, or from the table of defaults with the ids of the rows it leaned on.
// It must not know any part kind.

import { defaultById, defaultSteps } from './defaults.js';

export interface Figure {
  readonly value: number;
  /** Ids of the defaults behind it, sorted; empty when the record says it all. */
  readonly defaults: readonly string[];
}

/** What the record says. */
export function recorded(value: number): Figure {
  return { value, defaults: [] };
}

/** The recorded value, else a row of the table times `scale`. */
export function figure(value: number | undefined, id: string, scale = 1): Figure {
  return value === undefined ? { value: defaultById(id).value * scale, defaults: [id] } : recorded(value);
}

/**
 * The recorded value, else the row of `prefix` for these nominal volts (`relay.coilOhms.24`); without such a row the 12 V
 * one times (volts / 12)^power: 1 for volts, 2 for ohms at equal watts, -1 for amperes at equal watts.
 */
export function figureByVolts(value: number | undefined, prefix: string, volts: number, power: number): Figure {
  if (value !== undefined) return recorded(value);
  const exact = defaultSteps(prefix).find(({ step }) => step === volts);
  if (exact !== undefined) return { value: exact.row.value, defaults: [exact.row.id] };
  return figure(undefined, `${prefix}.12`, (volts / 12) ** power);
}

/** A figure made of others; its defaults are theirs. */
export function combine(figures: readonly Figure[], formula: (...values: number[]) => number): Figure {
  return {
    value: formula(...figures.map(({ value }) => value)),
    defaults: [...new Set(figures.flatMap(({ defaults }) => defaults))].sort(),
  };
}
