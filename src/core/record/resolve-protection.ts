// Ohms and ratings of fuses, fusible links and breakers, and of the contacts they sit in.
// It must not decide when anything blows; that is settled in the circuit.

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

function bladeOhms(ratingAmps: number): Figure {
  const steps = defaultSteps('fuse.blade.ohms');
  const exact = steps.find(({ step }) => step === ratingAmps);
  if (exact !== undefined) return { value: exact.row.value, defaults: [exact.row.id] };
  const upper = Math.min(
    Math.max(
      steps.findIndex(({ step }) => step > ratingAmps),
      1,
    ),
    steps.length - 1,
  );
  const above = ratingAmps > (steps.at(-1)?.step ?? 0) ? steps.length - 1 : upper;
  const low = steps[above - 1]!;
  const high = steps[above]!;
  const share = Math.log(ratingAmps / low.step) / Math.log(high.step / low.step);
  return {
    value: Math.exp(Math.log(low.row.value) * (1 - share) + Math.log(high.row.value) * share),
    defaults: [low.row.id, high.row.id].sort(),
  };
}
