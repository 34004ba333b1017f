// One state of a record by our circuit and by SPICE, point by point. SPICE's netlist is written from the record alone.
// It must not judge the differences; tests and the command do.

import type { Circuit } from '../../src/core/circuit/compile.js';
import { resolveState } from '../../src/core/circuit/resolve-state.js';
import { settle } from '../../src/core/circuit/settle.js';
import { type Solution, solutionsOf } from '../../src/core/circuit/solution.js';
import type { Element } from '../../src/core/graph/element.js';
import type { HarnessRecord } from '../../src/core/record/record.js';
import type { OperatingState } from '../../src/core/record/state.js';
import { sketchRecord } from './sketch-record.js';
import { type SpiceAnswer, solveBySpice } from './solve-by-spice.js';
import type { SpiceEngine } from './spice-engine.js';

/** Records below this many elements are solved by SPICE from nothing if it can; others start from our volts, which it must confirm. */
const SMALL = 250;

export type Comparison =
  /** SPICE solves one steady state: what has none, or two of a pulse period, is not put to it. */
  | { readonly kind: 'not-compared'; readonly reason: string }
  /** SPICE found no operating point that confirms its flags. */
  | { readonly kind: 'failed'; readonly reason: string }
  | Compared;

interface Compared {
  readonly kind: 'compared';
  /** Points with definite volts. */
  readonly points: number;
  readonly worst: { readonly point: string; readonly volts: number };
  /** Points that float by one of the two alone. */
  readonly floatByOne: readonly string[];
  /** Coils that are pulled here and not there, or there and not here. */
  readonly otherCoils: readonly string[];
}

/** With parts that are not linear: a millivolt. */
const MOST_VOLTS = 1e-3;

export const isAlike = ({ worst, floatByOne, otherCoils }: Compared): boolean =>
  worst.volts <= MOST_VOLTS && floatByOne.length === 0 && otherCoils.length === 0;

/** Throws when the state names what is not there, or when SPICE finds no operating point. */
export async function compareState(
  record: HarnessRecord,
  circuit: Circuit,
  state: OperatingState,
  engine: SpiceEngine,
): Promise<Comparison> {
  const resolution = resolveState(circuit.graph, state);
  if (!resolution.ok) throw new Error(`${state.name}: ${resolution.issues.map(({ reason }) => reason).join('; ')}`);
  if (resolution.state.after !== null) return { kind: 'not-compared', reason: 'starts from another state' };
  const outcome = settle(circuit, resolution.state);
  const solution = solutionsOf(outcome)[0];
  if (solution === undefined || outcome.kind === 'chatter') return { kind: 'not-compared', reason: outcome.kind };
  if (solution.isMean) return { kind: 'not-compared', reason: 'pulsed' };
  if (solution.tripped.length > 0) return { kind: 'not-compared', reason: `tripped: ${solution.tripped.join(', ')}` };
  const [atCutOff] = circuit.network.elements.filter((element) => isAtCutOff(solution, element));
  if (atCutOff !== undefined) return { kind: 'not-compared', reason: `${atCutOff.id} stands at its cut-off` };
  const needsLamp = record.parts.some((part) => part.kind === 'alternator' && part.excitedBy === 'lamp');
  if (needsLamp && solution.blown.length > 0) {
    return { kind: 'not-compared', reason: 'an alternator may have been excited through what then blew' };
  }
  // SPICE blows no fuses: those that went here are open there.
  const gone = [...solution.blown, ...solution.cycling].map(
    ({ element }) => ({ kind: 'open', branch: element }) as const,
  );
  const { sketch, reference } = sketchRecord(record, state, gone);
  const fromOurs = async (): Promise<Compared> =>
    against(await solveBySpice(sketch, reference, engine, (point) => solution.volts(point), 'chord'));
  const against = ({ volts, flags }: SpiceAnswer): Compared => {
    const floatByOne: string[] = [];
    const worst = { point: '', volts: 0 };
    let points = 0;
    for (const point of circuit.graph.points.keys()) {
      const ours = solution.volts(point);
      const theirs = volts.get(point) ?? null;
      if ((ours === null) !== (theirs === null)) floatByOne.push(point);
      if (ours === null || theirs === null) continue;
      points += 1;
      // Not a number is never near.
      const apart = Number.isFinite(theirs) ? Math.abs(ours - theirs) : Number.POSITIVE_INFINITY;
      if (apart > worst.volts) Object.assign(worst, { point, volts: apart });
    }
    const relays = record.parts.filter(({ kind }) => kind === 'relay').map(({ address }) => address);
    const pulled = new Set([...solution.pulledCoils].map((coil) => coil.split(':')[0]));
    const otherCoils = relays.filter((relay) => pulled.has(relay) !== flags.has(relay));
    return { kind: 'compared', points, worst, floatByOne, otherCoils };
  };
  if (circuit.graph.elements.size >= SMALL) return fromOurs();
  // With many kinks at once SPICE may walk in a circle from nothing, or end in another of several stable states; what counts
  // is whether it confirms ours.
  const cold = await solveBySpice(sketch, reference, engine, null, 'behavioural').then(against, () => null);
  return cold !== null && isAlike(cold) ? cold : fromOurs();
}

/** Electronics come on over the last 2 % below their cut-off, so that every load line meets them; the sketch's are on or off. */
const RAMP = 0.02;

function isAtCutOff(solution: Solution, { id, a, b, law }: Element): boolean {
  if (!solution.conducts(id)) return false;
  const cutoffVolts = 'cutoffVolts' in law ? law.cutoffVolts : law.kind === 'draw' ? law.minimumVolts : null;
  const volts = solution.voltsBetween(a, b);
  return cutoffVolts !== null && volts !== null && volts > cutoffVolts * (1 - RAMP) && volts < cutoffVolts;
}
