// Ohms and ratings of fuses, fusible links and breakers, and of the contacts they sit in.
// It must not decide when anything blows; that is settled in the circuit.

import { fuseColdOhms } from '../units/fuse-limits.js';
import { defaultSteps } from './defaults.js';
import { combine, type Figure, figure, recorded } from './figure.js';
import type { PartOf } from './part.js';

type FuseStyle = NonNullable<PartOf<'fuse'>['style']>;

/** Cold ohms of a fuse, by style and rating; between two tabulated ratings interpolated in log ohms over log amperes. */
export function fuseOhms(part: Pick<PartOf<'fuse'>, 'ratingAmps' | 'style' | 'resistanceOhms'>): Figure {
  return part.resistanceOhms === undefined
    ? fuseOhmsByRating(part.ratingAmps, part.style ?? 'blade')
    : recorded(part.resistanceOhms);
}

export function fuseOhmsByRating(ratingAmps: number, style: FuseStyle): Figure {
  switch (style) {
    case 'mini':
    case 'blade':
      return bladeOhms(ratingAmps);
    case 'maxi':
      return figure(undefined, 'fuse.maxi.dropVolts', 1 / ratingAmps);
    case 'midi':
    case 'mega':
      return figure(undefined, 'fuse.bolted.dropVolts', 1 / ratingAmps);
    case 'strip':
      return figure(undefined, 'fuse.strip.dropVolts', 1 / ratingAmps);
    case 'glass':
      return figure(undefined, 'fuse.glass.dropVolts', 1 / ratingAmps);
  }
}

/** Rating of a fusible link: recorded, else its fusing current (Preece, I = k d^1.5, d in mm) over the blowing ratio. */
export function fusibleLinkRatingAmps(part: PartOf<'fusible-link'>, areaMm2: number): Figure {
  if (part.ratingAmps !== undefined) return recorded(part.ratingAmps);
  const diameterMm = Math.sqrt((4 * areaMm2) / Math.PI);
  return combine(
    [figure(undefined, 'fusible-link.fusingAmpsPerMm1.5'), figure(undefined, 'protection.blowsAtRatio')],
    (perDiameter, ratio) => (perDiameter * diameterMm ** 1.5) / ratio,
  );
}

export function fusibleLinkLengthMetres(part: PartOf<'fusible-link'>): Figure {
  return figure(part.lengthMetres, 'fusible-link.lengthMetres');
}

export function breakerOhms(part: PartOf<'breaker'>): Figure {
  return figure(part.resistanceOhms, 'breaker.dropVolts', 1 / part.ratingAmps);
}

/** The rows that the figure stands on: the rating's own, else its neighbours. */
function bladeOhms(ratingAmps: number): Figure {
  const steps = defaultSteps('fuse.blade.ohms');
  const below = steps.findLast(({ step }) => step <= ratingAmps);
  const above = steps.find(({ step }) => step >= ratingAmps);
  const rows = [below, above].filter((row) => row !== undefined).map(({ row }) => row.id);
  return { value: fuseColdOhms(ratingAmps), defaults: [...new Set(rows)].sort() };
}
