// Random small networks for property tests: batteries, resistors, lamps, LEDs, motors and switches between a few points.
// It must not settle anything.

import fc from 'fast-check';
import type { Law } from '../../src/core/graph/element.js';
import type { ElementDraft } from './bare-graph.js';

export interface NetworkShape {
  readonly points: number;
  readonly elements: readonly ElementDraft[];
}

const REFERENCE = 'P0';
export const networkReference = REFERENCE;

/** Ohms over twelve decades, as a lug and a meter's input may stand in one net. */
const anyOhms = fc.double({ min: -4, max: 7, noNaN: true }).map((exponent) => 10 ** exponent);

const anyBattery: fc.Arbitrary<Law> = fc.record({
  kind: fc.constant('battery' as const),
  volts: fc.double({ min: 1, max: 28, noNaN: true }),
  dischargeOhms: fc.double({ min: 0.05, max: 1, noNaN: true }),
  chargeOhms: fc.double({ min: 0.05, max: 5, noNaN: true }),
});

const anyResistor: fc.Arbitrary<Law> = anyOhms.map((ohms) => ({ kind: 'ohmic', ohms }));

/** Laws whose current never falls with the volts, so that the working point is unique. */
const anyRisingLaw: fc.Arbitrary<Law> = fc.oneof(
  anyResistor,
  anyBattery,
  fc.constantFrom<Law>(
    { kind: 'filament', ratedVolts: 12, ratedAmps: 1.75, coldOhms: 0.46 },
    { kind: 'filament', ratedVolts: 24, ratedAmps: 0.2, coldOhms: 8 },
    { kind: 'diode', forwardVolts: 0.7, seriesOhms: 0.05, leakOhms: 1e6 },
    { kind: 'diode', forwardVolts: 7.8, seriesOhms: 200, leakOhms: 1e6 },
    { kind: 'regulated', volts: 14.2, ohms: 0.01, limitAmps: 20, sense: null },
    { kind: 'regulated', volts: 5, ohms: 0.5, limitAmps: 0.1, sense: null },
  ),
);

const anyFallingLaw: fc.Arbitrary<Law> = fc.constantFrom<Law>(
  { kind: 'constant-power', watts: 10, cutoffVolts: 8 },
  { kind: 'constant-power', watts: 120, cutoffVolts: 6 },
  { kind: 'ptc', ratedVolts: 12, coldOhms: 0.5, hotOhms: 4 },
  { kind: 'draw', amps: 0.2, minimumVolts: 6 },
  { kind: 'motor', ratedVolts: 12, ratedAmps: 5, stallOhms: 0.4, startVolts: 3, reversible: true },
);

/** Batteries and resistors alone, at least one of each. */
export const linearNetwork = networkOf(
  fc.oneof(
    anyResistor,
    anyResistor,
    fc
      .record({
        kind: fc.constant('battery' as const),
        volts: fc.double({ min: 1, max: 28, noNaN: true }),
        // One resistance both ways: the branch is linear.
        ohms: fc.double({ min: 0.05, max: 1, noNaN: true }),
      })
      .map(({ kind, volts, ohms }) => ({ kind, volts, dischargeOhms: ohms, chargeOhms: ohms })),
  ),
);

/** Anything with one working point. */
export const risingNetwork = networkOf(anyRisingLaw);

/** Anything at all. */
export const anyNetwork = networkOf(fc.oneof(anyRisingLaw, anyRisingLaw, anyFallingLaw));

function networkOf(law: fc.Arbitrary<Law>): fc.Arbitrary<NetworkShape> {
  return fc.integer({ min: 3, max: 9 }).chain((points) => {
    const end = fc.integer({ min: 0, max: points - 1 });
    const edge = fc.record({ a: end, b: end, law }).filter(({ a, b }) => a !== b);
    return fc.array(edge, { minLength: points, maxLength: 3 * points }).map((edges) => ({
      points,
      elements: edges.map(({ a, b, law: own }, i) => ({ id: `W${i}`, a: `P${a}`, b: `P${b}`, law: own })),
    }));
  });
}
