// Ohms of a potentiometer at a travel and of a thermistor at a temperature.
// It must not read a state; travel and temperature are handed in.

import { combine, type Figure, figure } from '../../record/figure.js';
import type { PartOf } from '../../record/part.js';

/** Both parts of the track; travel 0 puts the wiper at terminal 3. Neither falls below the track's end resistance. */
export function potentiometerOhms(
  part: PartOf<'potentiometer'>,
  travel?: number,
): { readonly upper: Figure; readonly lower: Figure } {
  const share = figure(travel ?? part.restTravel, 'potentiometer.restTravel');
  const end = figure(undefined, 'potentiometer.endOhms');
  const track = part.resistanceOhms;
  // A track of a few ohms has no more than a hundredth of itself at its stop.
  const least = (endOhms: number): number => Math.min(endOhms, track / 100);
  return {
    upper: combine([share, end], (at, endOhms) => Math.max(track * (1 - at), least(endOhms))),
    lower: combine([share, end], (at, endOhms) => Math.max(track * at, least(endOhms))),
  };
}

/** Interpolated in log ohms over degrees; beyond the recorded points the nearest one holds. */
export function thermistorOhms(part: PartOf<'thermistor'>, celsius?: number): Figure {
  const at = figure(celsius ?? part.restCelsius, 'thermistor.restCelsius');
  const points = [...part.points].sort((a, b) => a.celsius - b.celsius);
  return combine([at], (degrees) => interpolate(points, degrees));
}

function interpolate(points: readonly { celsius: number; ohms: number }[], degrees: number): number {
  const above = points.findIndex((point) => point.celsius >= degrees);
  if (above === -1) return points[points.length - 1].ohms;
  if (above === 0) return points[0].ohms;
  const low = points[above - 1];
  const high = points[above];
  const share = (degrees - low.celsius) / (high.celsius - low.celsius);
  return Math.exp(Math.log(low.ohms) * (1 - share) + Math.log(high.ohms) * share);
}
