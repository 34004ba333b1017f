// Conductor tables of the standards: sizes, areas, resistances at 20 °C, each with its source and how far it was seen.
// Data and the AWG formula only; it must not read text (wire-size.ts) nor rate currents (ampacity.ts).

/** Resistivity of annealed copper at 20 °C, 100 % IACS, in Ω·m. Source: NBS Handbook 100; IEC 60028. */
export const COPPER_RESISTIVITY_OHM_METRES = 1.7241e-8;

/** Temperature coefficient of copper's resistance at 20 °C, per kelvin. Source: NBS Handbook 100; IEC 60028. */
export const COPPER_ALPHA_PER_KELVIN = 0.00393;

/** Temperature of every resistance in these tables. */
export const TABLE_CELSIUS = 20;

const METRES_PER_1000_FEET = 304.8;

/** How a figure came here. `seen`: read on a page; `memory`: recalled, to be checked against the standard's own text. */
export type Provenance = 'seen' | 'memory';

export interface TableSource {
  readonly standard: string;
  readonly provenance: Provenance;
  readonly note: string;
}

/** Smallest and largest AWG number covered; 4/0 is -3, 3/0 is -2, 2/0 is -1, 1/0 is 0. */
export const AWG_LARGEST_CONDUCTOR = -3;
export const AWG_SMALLEST_CONDUCTOR = 30;

/** Diameter of a solid AWG conductor in millimetres. Source: ASTM B258, d = 0.127 mm x 92^((36 - n) / 39). */
export function awgDiameterMillimetres(gauge: number): number {
  return 0.127 * 92 ** ((36 - gauge) / 39);
}

/** Area of a solid AWG conductor in mm², from its diameter. */
export function awgAreaMm2(gauge: number): number {
  return (Math.PI / 4) * awgDiameterMillimetres(gauge) ** 2;
}

/** Resistance per metre at 20 °C of solid annealed copper (IACS) of an area in mm². The least a conductor can have. */
export function solidCopperOhmsPerMetre(areaMm2: number): number {
  return COPPER_RESISTIVITY_OHM_METRES / (areaMm2 * 1e-6);
}

/** Factor on a 20 °C resistance at another copper temperature: R(T) = R20 (1 + α (T - 20)). Source: NBS Handbook 100. */
export function copperTemperatureFactor(celsius: number): number {
  return 1 + COPPER_ALPHA_PER_KELVIN * (celsius - TABLE_CELSIUS);
}

export const FAA_STRANDED_SOURCE: TableSource = {
  standard: 'FAA AC 43.13-1B, table 11-9',
  provenance: 'seen',
  note: 'maximum of stranded tin-plated aircraft wire; up to 27 % above solid copper (12 AWG), below it for 18 and 20 AWG, whose strands add up to more copper',
};

/** Stranded tin-plated copper by AWG number, maximum Ω per 1000 ft at 20 °C. Source: `FAA_STRANDED_SOURCE`. */
const FAA_STRANDED_OHMS_PER_1000_FEET: ReadonlyMap<number, number> = new Map([
  [24, 28.4],
  [22, 16.2],
  [20, 9.88],
  [18, 6.23],
  [16, 4.81],
  [14, 3.06],
  [12, 2.02],
  [10, 1.26],
  [8, 0.7],
  [6, 0.44],
  [4, 0.28],
  [2, 0.18],
  [1, 0.15],
  [0, 0.12],
  [-1, 0.09],
  [-2, 0.07],
  [-3, 0.06],
]);

/** Maximum Ω/m at 20 °C of stranded tin-plated wire of an AWG number, or null where the FAA table has none. */
export function faaStrandedMaximumOhmsPerMetre(gauge: number): number | null {
  const per1000Feet = FAA_STRANDED_OHMS_PER_1000_FEET.get(gauge);
  return per1000Feet === undefined ? null : per1000Feet / METRES_PER_1000_FEET;
}

export const SAE_AREA_SOURCE: TableSource = {
  standard: 'SAE J1127/J1128 conductor areas',
  provenance: 'seen',
  note: 'minimum copper of wire sold by SAE gauge, read in a marine cable catalogue; up to 12 % less than AWG',
};

/** Minimum conductor of SAE gauge wire by number, in circular mils. Source: `SAE_AREA_SOURCE`. */
const SAE_MINIMUM_CIRCULAR_MILS: ReadonlyMap<number, number> = new Map([
  [18, 1537],
  [16, 2336],
  [14, 3702],
  [12, 5833],
  [10, 9343],
  [8, 14_810],
  [6, 24_538],
  [4, 37_360],
  [2, 62_450],
  [1, 77_790],
  [0, 98_980],
  [-1, 125_100],
  [-2, 158_600],
  [-3, 205_500],
]);

/** A circular mil is the area of a circle of 0.0254 mm diameter. */
export const MM2_PER_CIRCULAR_MIL = (Math.PI / 4) * 0.0254 ** 2;

/** Ω/m at 20 °C of solid copper of the least SAE area of a gauge number, or null where there is none. */
export function saeMinimumAreaOhmsPerMetre(gauge: number): number | null {
  const circularMils = SAE_MINIMUM_CIRCULAR_MILS.get(gauge);
  return circularMils === undefined ? null : solidCopperOhmsPerMetre(circularMils * MM2_PER_CIRCULAR_MIL);
}

export const ISO_6722_SOURCE: TableSource = {
  standard: 'ISO 6722-1 (ISO 19642-3), conductor table',
  provenance: 'memory',
  note: 'maximum of bare copper; only 1.5 mm² was seen in print; trade catalogue figures agree within 2.5 %',
};

/** Road-vehicle cable of bare copper: mm² to maximum mΩ/m at 20 °C. Source: `ISO_6722_SOURCE`. */
export const ISO_6722_MILLIOHMS_PER_METRE: ReadonlyMap<number, number> = new Map([
  [0.13, 136],
  [0.22, 84.8],
  [0.35, 54.4],
  [0.5, 37.1],
  [0.75, 24.7],
  [1, 18.5],
  [1.25, 14.9],
  [1.5, 12.7],
  [2, 9.42],
  [2.5, 7.6],
  [3, 6.15],
  [4, 4.71],
  [5, 3.94],
  [6, 3.14],
  [8, 2.38],
  [10, 1.82],
  [12, 1.52],
  [16, 1.16],
  [20, 0.955],
  [25, 0.743],
  [30, 0.647],
  [35, 0.527],
  [40, 0.473],
  [50, 0.368],
  [60, 0.315],
  [70, 0.259],
  [95, 0.196],
  [120, 0.153],
]);

export const IEC_60228_SOURCE: TableSource = {
  standard: 'IEC 60228, class 5 plain copper',
  provenance: 'seen',
  note: 'maximum; used where ISO 6722-1 has no row (150 mm² and above)',
};

/** Flexible conductors, plain copper: mm² to maximum mΩ/m at 20 °C. Source: `IEC_60228_SOURCE`. */
export const IEC_60228_CLASS_5_MILLIOHMS_PER_METRE: ReadonlyMap<number, number> = new Map([
  [0.5, 39],
  [0.75, 26],
  [1, 19.5],
  [1.5, 13.3],
  [2.5, 7.98],
  [4, 4.95],
  [6, 3.3],
  [10, 1.91],
  [16, 1.21],
  [25, 0.78],
  [35, 0.554],
  [50, 0.386],
  [70, 0.272],
  [95, 0.206],
  [120, 0.161],
  [150, 0.129],
  [185, 0.106],
  [240, 0.0801],
]);

export const TRADE_SIZES_SOURCE: TableSource = {
  standard: 'trade cable catalogues',
  provenance: 'memory',
  note: 'sizes outside ISO 6722-1 that are sold for vehicles; 0.65 mm² was seen in a catalogue, 0.85 mm² is recalled',
};

/** Further vehicle cable sizes: mm² to catalogue mΩ/m at 20 °C. Source: `TRADE_SIZES_SOURCE`. */
export const TRADE_SIZES_MILLIOHMS_PER_METRE: ReadonlyMap<number, number> = new Map([
  [0.65, 29.4],
  [0.85, 20.8],
]);
