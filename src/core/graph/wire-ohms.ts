// Resistance of a recorded conductor at a temperature: size table x length x copper's temperature factor.
// It must not know what the wire joins.

import { combine, type Figure } from '../record/figure.js';
import type { Wire } from '../record/record.js';
import { wireLengthMetres } from '../record/resolve-joints.js';
import { parseWireSize, type WireSize } from '../units/wire-size.js';
import { copperTemperatureFactor } from '../units/wire-tables.js';

/** A size as a checked record holds it. Throws a RangeError on any other text: the record was not checked. */
export function wireSizeOf(text: string): WireSize {
  const parsed = parseWireSize(text);
  if (!parsed.ok) throw new RangeError(`wire size ${text}: ${parsed.reason}`);
  return parsed.value;
}

/** Ohms of a wire's conductor between its two bare ends, at the copper's temperature in °C. */
export function conductorOhms(wire: Pick<Wire, 'size' | 'lengthMetres'>, celsius: Figure): Figure {
  const perMetre = wireSizeOf(wire.size).resistanceOhmsPerMetre;
  return combine(
    [wireLengthMetres(wire), celsius],
    (metres, degrees) => perMetre * metres * copperTemperatureFactor(degrees),
  );
}
