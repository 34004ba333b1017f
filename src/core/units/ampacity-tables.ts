// Continuous current of single insulated copper conductors at 30 °C ambient, by size and insulation temperature.
// Data with sources only; derating and the choice of a column are in ampacity.ts.

import type { TableSource } from './wire-tables.js';

/** Ambient of both tables in °C. */
export const AMPACITY_TABLE_CELSIUS = 30;

export interface AmpacityTable {
  readonly source: TableSource;
  /** Temperature rating of the insulation in °C, one per column, rising. */
  readonly insulationCelsius: readonly number[];
  /** Conductor (AWG number, 1/0 as 0 to 4/0 as -3; or mm²) to amperes by column. */
  readonly rows: ReadonlyMap<number, readonly number[]>;
}

/** AWG sizes. Boats' DC wiring, the nearest public rule for stranded wire in a moving, open vehicle. */
export const AMPACITY_AWG: AmpacityTable = {
  source: {
    standard: '33 CFR 183.425, table 5 (US federal regulation, public domain)',
    provenance: 'seen',
    note: 'at most two current-carrying conductors together, 30 °C ambient, stranded copper',
  },
  insulationCelsius: [60, 75, 80, 90, 105, 125, 200],
  rows: new Map([
    [18, [10, 10, 15, 20, 20, 25, 25]],
    [16, [15, 15, 20, 25, 25, 30, 35]],
    [14, [20, 20, 25, 30, 35, 40, 45]],
    [12, [25, 25, 35, 40, 45, 50, 55]],
    [10, [40, 40, 50, 55, 60, 70, 70]],
    [8, [55, 65, 70, 70, 80, 90, 100]],
    [6, [80, 95, 100, 100, 120, 125, 135]],
    [4, [105, 125, 130, 135, 160, 170, 180]],
    [3, [120, 145, 150, 155, 180, 195, 210]],
    [2, [140, 170, 175, 180, 210, 225, 240]],
    [1, [165, 195, 210, 210, 245, 265, 280]],
    [0, [195, 230, 245, 245, 285, 305, 325]],
    [-1, [225, 265, 285, 285, 330, 355, 370]],
    [-2, [260, 310, 330, 330, 385, 410, 430]],
    [-3, [300, 360, 385, 385, 445, 475, 510]],
  ]),
};

/** mm² sizes, for small craft below 50 V DC. */
export const AMPACITY_MM2: AmpacityTable = {
  source: {
    standard: 'ISO 10133, annex A',
    provenance: 'memory',
    note: 'the 105 °C column lies between the neighbouring AWG rows of 33 CFR 183.425; buy the standard before quoting',
  },
  insulationCelsius: [60, 70, 85, 105, 125, 200],
  rows: new Map([
    [0.75, [6, 10, 12, 16, 20, 25]],
    [1, [8, 14, 18, 20, 25, 35]],
    [1.5, [12, 18, 21, 25, 30, 40]],
    [2.5, [17, 25, 30, 35, 40, 45]],
    [4, [22, 35, 40, 45, 50, 55]],
    [6, [29, 45, 50, 60, 70, 75]],
    [10, [40, 65, 70, 90, 100, 120]],
    [16, [54, 90, 100, 130, 150, 170]],
    [25, [71, 120, 140, 170, 185, 200]],
    [35, [87, 160, 185, 210, 225, 240]],
    [50, [105, 210, 230, 270, 300, 325]],
    [70, [135, 265, 285, 330, 360, 375]],
    [95, [165, 310, 330, 390, 410, 430]],
    [120, [190, 360, 400, 450, 480, 520]],
    [150, [220, 380, 430, 475, 520, 560]],
  ]),
};

export interface BundleRow {
  /** The row holds from this many current-carrying conductors together. */
  readonly fromCount: number;
  readonly factor: number;
}

/** Factors for conductors bundled together. Source: marine ampacity tables for 105 °C boat cable (seen); 25 and more from memory. */
export const BUNDLE_FACTORS: readonly BundleRow[] = [
  { fromCount: 25, factor: 0.4 },
  { fromCount: 7, factor: 0.5 },
  { fromCount: 4, factor: 0.6 },
  { fromCount: 3, factor: 0.7 },
  { fromCount: 0, factor: 1 },
];
