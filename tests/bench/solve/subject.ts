// What is measured: a generated harness, settled with everything on, and the linear network that it is there.
// It must not measure.

import { buildModel, type Model } from '../../../src/core/answers/model.js';
import { chordOf } from '../../../src/core/circuit/line.js';
import { namedState } from '../../../src/core/circuit/resolve-state.js';
import type { ResolvedState } from '../../../src/core/circuit/resolved-state.js';
import { settle } from '../../../src/core/circuit/settle.js';
import { carryOf } from '../../../src/core/circuit/settled-solution.js';
import { type Solution, solutionsOf } from '../../../src/core/circuit/solution.js';
import type { ChangeSet } from '../../../src/core/numeric/change-set.js';
import { createFactor, type Factor } from '../../../src/core/numeric/factor.js';
import { GROUND } from '../../../src/core/numeric/types.js';
import { parseRecord } from '../../../src/core/record/parse-record.js';
import { generateHarness } from '../../support/generate-harness.js';
import { type Random, seededRandom } from '../../support/random.js';

export const SEED = 1;
export const STATE = 'Everything on';
const POINTS = 200;
const SERIES_OHMS = 0.5;
const SHORT_OHMS = 0.5;

/** One single fault of the linear network. */
export type LinearFault =
  | { readonly kind: 'open'; readonly edge: number }
  | { readonly kind: 'series'; readonly edge: number; readonly siemens: number }
  | { readonly kind: 'short'; readonly from: number; readonly to: number; readonly siemens: number };

/** Loads by their chords, sources by their Norton equivalents; floating parts left out. */
export interface LinearHarness {
  readonly factor: Factor;
  /** Nodes that hang on the reference. */
  readonly fed: Uint8Array;
  readonly faults: readonly LinearFault[];
  /** Nodes to read, evenly drawn from the fed ones. */
  readonly points: Int32Array;
}

export interface Unsettled {
  readonly model: Model;
  readonly state: ResolvedState;
}

export interface Subject extends Unsettled {
  readonly settled: Solution;
}

export function subjectOf(wires: number, seed = SEED): Subject {
  return settledSubject(unsettledSubject(wires, seed));
}

export function unsettledSubject(wires: number, seed = SEED): Unsettled {
  const parsed = parseRecord(generateHarness({ seed, wires }));
  if (!parsed.ok) throw new Error(`the generated harness of ${wires} wires is no valid record`);
  const model = buildModel(parsed.record);
  const resolved = namedState(model.graph, STATE);
  if (!resolved.ok) throw new Error(`no state ${STATE}`);
  return { model, state: resolved.state };
}

export function settledSubject({ model, state }: Unsettled): Subject {
  const outcome = settle(model.circuit, state);
  const settled = solutionsOf(outcome)[0];
  if (settled === undefined) throw new Error(`a generated harness does not settle: ${outcome.kind}`);
  return { model, state, settled };
}

/** Not factored yet. */
export function linearHarness({ settled }: Subject): LinearHarness {
  const { picture, memories } = carryOf(settled);
  const { network } = picture;
  const factor = createFactor(network.analysis);
  const fed = Uint8Array.from(picture.islandOf, (island) => (island === 0 ? 1 : 0));
  const isFed = (node: number): boolean => node === GROUND || fed[node] === 1;
  network.laws.forEach((law, edge) => {
    const [a, b] = [network.from[edge], network.to[edge]];
    if (picture.closed[edge] === 0 || !isFed(a) || !isFed(b)) return;
    const memory = memories[network.curvedIndex[edge]];
    const line =
      law.kind === 'ohmic' || memory === undefined
        ? { siemens: network.ohmicSiemens[edge], amps: 0 }
        : chordOf(law, picture.voltsAcross(edge), memory);
    factor.weights[edge] = line.siemens;
    if (a !== GROUND) factor.rhs[a] -= line.amps;
    if (b !== GROUND) factor.rhs[b] += line.amps;
  });
  const points = pointsToRead(fed, seededRandom(SEED));
  return { factor, fed, faults: singleFaults(factor, fed, settled), points };
}

/** Every conducting edge open and with a bad joint; every wire rubbed through to a body. In the order of the edges. */
function singleFaults({ weights, analysis }: Factor, fed: Uint8Array, settled: Solution): LinearFault[] {
  const { network } = carryOf(settled).picture;
  const { from, to } = analysis.pattern;
  const body = network.pointIds.findIndex((id, node) => fed[node] === 1 && id.startsWith('FRAME'));
  const faults: LinearFault[] = [];
  weights.forEach((weight, edge) => {
    if (weight === 0) return;
    faults.push({ kind: 'open', edge }, { kind: 'series', edge, siemens: 1 / (1 / weight + SERIES_OHMS) });
    if (network.elements[edge].role === 'conductor' && from[edge] !== GROUND && from[edge] !== body) {
      faults.push({ kind: 'short', from: from[edge], to: body, siemens: 1 / SHORT_OHMS });
    }
  });
  if (to.length === 0 || faults.length === 0) throw new Error('a harness without faults');
  return faults;
}

function pointsToRead(fed: Uint8Array, random: Random): Int32Array {
  const nodes = Array.from(fed, (_, node) => node).filter((node) => fed[node] === 1);
  return Int32Array.from({ length: POINTS }, () => random.pick(nodes));
}

/** Writes a fault as a set of changes. */
export function imposeFault(changes: ChangeSet, fault: LinearFault): void {
  changes.clear();
  if (fault.kind === 'open') changes.setWeight(fault.edge, 0);
  else if (fault.kind === 'series') changes.setWeight(fault.edge, fault.siemens);
  else changes.addEdge(fault.from, fault.to, fault.siemens);
}

/** `count` faults, evenly spread and mixed in kind. */
export function sampleOf<F>(faults: readonly F[], count: number): F[] {
  const step = faults.length / Math.min(count, faults.length);
  return Array.from({ length: Math.min(count, faults.length) }, (_, i) => faults[Math.floor(i * step)]);
}
