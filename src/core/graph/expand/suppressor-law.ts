// How diodes and coil suppressors conduct, built into a relay or fitted as parts of their own.
// It must not know where they are fitted.

import { type Figure, figure } from '../../record/figure.js';
import { suppressorOhms } from '../../record/resolve-switching.js';
import type { Law } from '../element.js';
import { ohmic } from './part-site.js';

export interface LawWithFigures {
  readonly law: Law;
  readonly from: readonly Figure[];
}

/** A diode from `a` (anode) to `b` (cathode), or a resistor made for so many volts. */
export function suppressorLaw(
  suppressor: { readonly style: 'diode' | 'resistor'; readonly resistanceOhms?: number | undefined },
  volts: number,
): LawWithFigures {
  switch (suppressor.style) {
    case 'resistor': {
      const ohms = suppressorOhms(suppressor, volts);
      return { law: ohmic(ohms), from: [ohms] };
    }
    case 'diode':
      return diodeLaw(undefined);
  }
}

/** A silicon diode: threshold, series resistance above it, leakage in reverse. */
export function diodeLaw(
  forwardVolts: number | undefined,
  series: Figure = figure(undefined, 'diode.seriesOhms'),
): LawWithFigures {
  const forward = figure(forwardVolts, 'diode.forwardVolts');
  const leak = figure(undefined, 'diode.leakOhms');
  return {
    law: { kind: 'diode', forwardVolts: forward.value, seriesOhms: series.value, leakOhms: leak.value },
    from: [forward, series, leak],
  };
}
