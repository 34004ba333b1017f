// How much current a wire may carry for long without cooking its insulation, by size, ambient and bundle.
// It must not judge fuses or voltage drop; and it is a guide: the cable maker's figure and local codes come first.

import {
  AMPACITY_AWG,
  AMPACITY_MM2,
  AMPACITY_TABLE_CELSIUS,
  type AmpacityTable,
  BUNDLE_FACTORS,
} from './ampacity-tables.js';
import type { WireSize } from './wire-size.js';
import { awgAreaMm2, type TableSource } from './wire-tables.js';

export interface AmpacityConditions {
  /** Temperature rating of the insulation in °C. Default 85, the lowest class of road-vehicle cable (ISO 6722-1 class A). */
  readonly insulationCelsius?: number;
  /** Air around the wire in °C. Default 30; engine spaces are commonly reckoned at 50 or more. */
  readonly ambientCelsius?: number;
  /** Current-carrying conductors lying together, this one included. Default 1. */
  readonly bundleCount?: number;
}

export interface Ampacity {
  readonly amps: number;
  /** `table`: a row of the source. `interpolated`: between two rows. `extrapolated`: beyond the smallest or largest row. */
  readonly basis: 'table' | 'interpolated' | 'extrapolated';
  readonly source: TableSource;
}

const DEFAULT_INSULATION_CELSIUS = 85;

/**
 * Beyond a table current goes with area to this power: heat made per metre is I²/A, heat shed goes with the surface,
 * about d^0.5 in still air. From memory, common practice; used for thin signal wires only.
 */
const AREA_EXPONENT = 0.625;

interface Row {
  readonly areaMm2: number;
  readonly amps: number;
}

/** Continuous amperes of one wire with where the figure comes from. */
export function ampacity(size: WireSize, conditions: AmpacityConditions = {}): Ampacity {
  const table = size.system === 'awg' ? AMPACITY_AWG : AMPACITY_MM2;
  const wanted = conditions.insulationCelsius ?? DEFAULT_INSULATION_CELSIUS;
  const column = columnFor(table, wanted);
  const insulation = table.insulationCelsius[column] ?? wanted;
  const base = baseAmps(rowsOf(size, table, column), size.areaMm2);
  // Insulation below the coolest column is rated by the same law as a hotter ambient.
  const usable = Math.min(insulation, wanted);
  const ambient = conditions.ambientCelsius ?? AMPACITY_TABLE_CELSIUS;
  const factor = ambientFactor(insulation, ambient + (insulation - usable)) * bundleFactor(conditions.bundleCount ?? 1);
  return { amps: base.amps * factor, basis: base.basis, source: table.source };
}

/** Continuous amperes of one wire; see `ampacity` for the source of the figure. */
export function ampacityAmps(size: WireSize, conditions: AmpacityConditions = {}): number {
  return ampacity(size, conditions).amps;
}

/**
 * Factor for an ambient other than 30 °C: heat shed goes with the temperature difference, heat made with I², so
 * factor = sqrt((T_insulation - T_ambient) / (T_insulation - 30)), never above 1, 0 where the air is as hot as the rating.
 * It gives the factors printed in 33 CFR 183.425 (table 5, note 1, 50 °C) up to 125 °C insulation; at 200 °C it is stricter.
 */
export function ambientFactor(insulationCelsius: number, ambientCelsius: number): number {
  const available = insulationCelsius - ambientCelsius;
  if (available <= 0) return 0;
  const reference = insulationCelsius - AMPACITY_TABLE_CELSIUS;
  return reference <= 0 ? 0 : Math.min(1, Math.sqrt(available / reference));
}

/** Factor for so many current-carrying conductors lying together. */
export function bundleFactor(count: number): number {
  return BUNDLE_FACTORS.find((row) => count >= row.fromCount)?.factor ?? 1;
}

/** The hottest column that the insulation reaches; the coolest where it reaches none. */
function columnFor(table: AmpacityTable, insulationCelsius: number): number {
  return Math.max(
    0,
    table.insulationCelsius.findLastIndex((celsius) => celsius <= insulationCelsius),
  );
}

function rowsOf(size: WireSize, table: AmpacityTable, column: number): Row[] {
  return [...table.rows]
    .map(([key, amps]) => ({ areaMm2: size.system === 'awg' ? awgAreaMm2(key) : key, amps: amps[column] ?? 0 }))
    .sort((a, b) => a.areaMm2 - b.areaMm2);
}

function baseAmps(rows: readonly Row[], areaMm2: number): Pick<Ampacity, 'amps' | 'basis'> {
  const exact = rows.find((row) => Math.abs(row.areaMm2 / areaMm2 - 1) < 1e-9);
  if (exact !== undefined) return { amps: exact.amps, basis: 'table' };
  const below = rows.findLast((row) => row.areaMm2 < areaMm2);
  const above = rows.find((row) => row.areaMm2 > areaMm2);
  if (below !== undefined && above !== undefined) {
    const share = Math.log(areaMm2 / below.areaMm2) / Math.log(above.areaMm2 / below.areaMm2);
    return { amps: below.amps * (above.amps / below.amps) ** share, basis: 'interpolated' };
  }
  const edge = below ?? above;
  if (edge === undefined) return { amps: 0, basis: 'extrapolated' };
  return { amps: edge.amps * (areaMm2 / edge.areaMm2) ** AREA_EXPONENT, basis: 'extrapolated' };
}
