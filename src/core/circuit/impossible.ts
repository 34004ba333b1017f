/**
 * What no real circuit would bear: laws without a meaning, and sources forced far from their own volts.
 * It must not solve; it names the elements and says what is wrong with them.
 */
import { badLawValue } from './laws.js';
import type { Network } from './network.js';
import type { Picture } from './picture.js';
import type { Outcome } from './solution.js';

type Impossible = Extract<Outcome, { kind: 'impossible' }>;

/**
 * A battery pulled below a quarter of its EMF is shorted (cranking takes it to half, common practice); pushed above one and
 * a half times its EMF it boils. Both are burnt wires, not readings.
 */
const SHORTED_BELOW = 0.25;
const BOILS_ABOVE = 1.5;

/** The first law with a number that is zero, negative or not a number where it must be positive. */
export function meaninglessLaw(network: Network): Impossible | null {
  const { badLawEdge } = network;
  if (badLawEdge === -1) return null;
  const { id } = network.elements[badLawEdge];
  const bad = badLawValue(network.laws[badLawEdge]);
  return { kind: 'impossible', elements: [id], detail: `${id}: ${bad?.name} of ${bad?.value} has no meaning` };
}

/** Batteries that the rest of the circuit holds where no battery survives. */
export function impossibleSources(picture: Picture): Impossible | null {
  const { network } = picture;
  const elements: string[] = [];
  const reasons: string[] = [];
  for (const edge of network.curvedEdges) {
    const law = network.laws[edge];
    if (law.kind !== 'battery' || law.volts === 0 || picture.closed[edge] === 0) continue;
    const share = picture.voltsAcross(edge) / law.volts;
    if (share >= SHORTED_BELOW && share <= BOILS_ABOVE) continue;
    const { id } = network.elements[edge];
    const amps = Math.abs(picture.edgeAmps[edge]).toPrecision(3);
    elements.push(id);
    reasons.push(`${id} of ${law.volts} V is held at ${picture.voltsAcross(edge).toPrecision(3)} V with ${amps} A`);
  }
  return elements.length === 0 ? null : { kind: 'impossible', elements, detail: reasons.join('; ') };
}
