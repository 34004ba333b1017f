// Chooses conductor sizes and fuses for generated harnesses as a careful builder would: by current, fuse and voltage drop.
// It must not import the product's own tables: a generated harness has to be sensible without them.

interface SizeRow {
  readonly areaMm2: number;
  readonly ohmsPerMetre: number;
  readonly largestFuseAmps: number;
}

/** Ω/m at 20 °C as in ISO 6722-1 (from memory); largest fuse for a wire in a loom: common practice, on the cautious side. */
const SIZES: readonly SizeRow[] = [
  { areaMm2: 0.5, ohmsPerMetre: 0.0371, largestFuseAmps: 5 },
  { areaMm2: 0.75, ohmsPerMetre: 0.0247, largestFuseAmps: 10 },
  { areaMm2: 1, ohmsPerMetre: 0.0185, largestFuseAmps: 10 },
  { areaMm2: 1.5, ohmsPerMetre: 0.0127, largestFuseAmps: 15 },
  { areaMm2: 2.5, ohmsPerMetre: 0.0076, largestFuseAmps: 20 },
  { areaMm2: 4, ohmsPerMetre: 0.00471, largestFuseAmps: 30 },
  { areaMm2: 6, ohmsPerMetre: 0.00314, largestFuseAmps: 40 },
  { areaMm2: 10, ohmsPerMetre: 0.00182, largestFuseAmps: 60 },
  { areaMm2: 16, ohmsPerMetre: 0.00116, largestFuseAmps: 80 },
  { areaMm2: 25, ohmsPerMetre: 0.000743, largestFuseAmps: 125 },
  { areaMm2: 35, ohmsPerMetre: 0.000527, largestFuseAmps: 150 },
  { areaMm2: 50, ohmsPerMetre: 0.000368, largestFuseAmps: 200 },
];

/** Blade ratings of ISO 8820-3 in A (from memory). */
const BLADE_AMPS: readonly number[] = [3, 5, 7.5, 10, 15, 20, 25, 30, 40];

/** Smallest size, as written, that its fuse protects and that drops at most `dropVolts` at `amps` over `metres`. */
export function chooseSize(amps: number, fuseAmps: number, metres: number, dropVolts: number): string {
  const fits = SIZES.find((row) => row.largestFuseAmps >= fuseAmps && amps * row.ohmsPerMetre * metres <= dropVolts);
  return `${(fits ?? SIZES[SIZES.length - 1]!).areaMm2} mm²`;
}

/** Next blade rating in A with a third in hand over the running current. */
export function chooseFuse(amps: number): number {
  return BLADE_AMPS.find((rating) => rating >= amps * 1.34) ?? 40;
}
