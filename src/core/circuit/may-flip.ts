/**
 * Whether a threshold lies inside the band of what works it: then a reading may jump, and no slope at the working point tells how far.
 * It must not settle; it names the first element that may flip.
 */
import type { Bands } from './bands.js';
import type { Circuit } from './compile.js';
import type { Solution } from './solution.js';

/** Loads near a fuse's opening current: below this share no band of a healthy harness reaches it (ISO 8820-3, 1.35). */
const OPENS = 1.35;

/** Coil, motor or fuse whose threshold lies in its 95 % band; null when every switch stands firm. */
export function mayFlip(circuit: Circuit, solution: Solution, bands: Bands): string | null {
  for (const { id, a, b, coil, law, protection } of circuit.network.elements) {
    if (!solution.conducts(id)) continue;
    const threshold =
      coil !== null
        ? solution.pulledCoils.has(id)
          ? coil.dropOutVolts
          : coil.pullInVolts
        : law.kind === 'motor'
          ? law.startVolts
          : null;
    if (threshold !== null && isNear(solution.voltsBetween(a, b), threshold)) {
      if (holds(bands.voltsBetween(a, b), threshold)) return id;
    }
    if (protection === null || Math.abs(solution.amps(id)) < protection.ratingAmps) continue;
    if (holds(bands.amps(id), protection.ratingAmps * OPENS)) return id;
  }
  return null;
}

/** No band of a healthy harness reaches from its nominal to half of it or to twice: what is further off needs no band. */
function isNear(volts: number | null, threshold: number): boolean {
  if (volts === null) return false;
  const ratio = Math.abs(volts) / threshold;
  return ratio > 0.5 && ratio < 2;
}

/** Whether a magnitude lies between the ends of a band. */
function holds(band: { readonly low: number; readonly high: number } | null, magnitude: number): boolean {
  if (band === null) return false;
  const isIn = (value: number): boolean => value >= band.low && value <= band.high;
  return isIn(magnitude) || isIn(-magnitude);
}
