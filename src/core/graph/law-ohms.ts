// One resistance per element, for ordering paths and for rough sums: never for a reading.
// It must not be used where the circuit has an answer.

import type { Law } from './element.js';

/** Ohms that stand for a law at its rated working point, always finite and above 0. */
export function typicalOhms(law: Law): number {
  switch (law.kind) {
    case 'ohmic':
    case 'regulated':
      return law.ohms;
    case 'battery':
      return law.dischargeOhms;
    case 'filament':
    case 'motor':
      return law.ratedVolts / law.ratedAmps;
    case 'diode':
      return law.seriesOhms;
    case 'ptc':
      return law.hotOhms;
    case 'constant-power':
      // At the cut-off it draws the most that it ever does.
      return law.cutoffVolts ** 2 / law.watts;
    case 'converter-input':
    case 'draw':
      return BLOCKING_OHMS;
    default:
      return law satisfies never;
  }
}

/** Laws without a resistance of their own: a path through them is the last that anyone would name. */
const BLOCKING_OHMS = 1e9;
