// How far real parts scatter around their nominal values, by what they are. A data table; used by bands, never by nominal answers.
// It must not be read as a tolerance limit: `relative` is one standard deviation.

import type { DefaultBasis } from './defaults.js';

export interface SpreadRow {
  readonly id: string;
  /** normal: standard deviation over the nominal value. lognormal: standard deviation of the natural logarithm. */
  readonly distribution: 'normal' | 'lognormal';
  readonly relative: number;
  readonly basis: DefaultBasis;
  readonly note: string;
}

type Row = readonly [
  id: string,
  distribution: 'normal' | 'lognormal',
  relative: number,
  basis: DefaultBasis,
  note: string,
];

const ROWS: readonly Row[] = [
  ['conductor', 'normal', 0.03, 'engineering judgement', 'Strand count, lay and length as measured'],
  ['termination', 'lognormal', 0.5, 'engineering judgement', 'Hand-made crimps'],
  ['double-crimp', 'lognormal', 0.5, 'engineering judgement', 'Hand-made crimps'],
  ['mating', 'lognormal', 0.5, 'engineering judgement', 'Plug contacts'],
  ['contact', 'lognormal', 0.5, 'engineering judgement', 'Relay and switch contacts'],
  ['fuse', 'normal', 0.08, 'engineering judgement', 'Cold resistance; makers state ±15 %'],
  ['coil', 'normal', 0.05, 'data sheet', '±10 % taken as two standard deviations'],
  ['load.resistive', 'normal', 0.05, 'engineering judgement', 'Current at rated volts'],
  ['load.filament', 'normal', 0.04, 'from memory', 'UN Regulation 37 allows 6 to 10 % of the watts'],
  ['load.led', 'normal', 0.1, 'engineering judgement', 'Current at rated volts'],
  ['load.motor', 'normal', 0.12, 'engineering judgement', 'Current follows the mechanical load'],
  ['load.heater', 'normal', 0.08, 'engineering judgement', 'Current at rated volts'],
  ['load.constant-power', 'normal', 0.08, 'engineering judgement', 'Watts drawn'],
  ['source.battery.volts', 'normal', 0.008, 'engineering judgement', 'State of charge around full'],
  ['source.battery.ohms', 'lognormal', 0.35, 'engineering judgement', 'Age and temperature'],
  ['source.regulated.volts', 'normal', 0.01, 'engineering judgement', 'Regulator'],
  ['joint', 'lognormal', 0.7, 'engineering judgement', 'Bolted joints on painted metal'],
  ['metal', 'lognormal', 0.4, 'engineering judgement', 'Way through a body, strap or bar'],
  ['tie', 'lognormal', 1, 'engineering judgement', 'Accidental contact'],
  ['component', 'normal', 0.03, 'common practice', 'Resistors of 5 %, potentiometers, thermistors'],
  ['component.diode', 'normal', 0.05, 'engineering judgement', 'Threshold'],
  ['output', 'lognormal', 0.2, 'engineering judgement', 'Driver on-resistance'],
  ['bias', 'normal', 0.1, 'engineering judgement', 'Pull resistors, idle draw'],
  ['bridge', 'lognormal', 0.3, 'engineering judgement', 'Bridge in a connector half'],
  ['link', 'lognormal', 0.2, 'engineering judgement', 'Jumper lead'],
];

export const spreadTable: readonly SpreadRow[] = ROWS.map(([id, distribution, relative, basis, note]) => ({
  id,
  distribution,
  relative,
  basis,
  note,
}));

const byId: ReadonlyMap<string, SpreadRow> = new Map(spreadTable.map((row) => [row.id, row]));

/** Spread of a role, `load.motor` before `load`; null when nothing is declared for it. */
export function spreadOf(role: string): SpreadRow | null {
  return byId.get(role) ?? byId.get(role.split('.')[0] ?? role) ?? null;
}
