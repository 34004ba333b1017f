/**
 * One period of pulsed outputs: what conducts in each part of it, and what loads that are slow make of the whole.
 * It must not decide what is switched; it solves part after part until the slow loads agree with all of them.
 *
 * Pulses come faster than anything warms up or turns (100 Hz and more, common practice). So throughout a period
 *   - a filament or heater has one resistance, that of its RMS volts, since it is heated by the mean of V^2 / R;
 *   - a motor turns or stands by its mean volts;
 *   - a winding with a freewheel diode beside it carries one current. Its inductance takes u = V - mean(V) in each part; the
 *     mean of u is 0 (volt-second balance: Erickson and Maksimovic, Fundamentals of Power Electronics, ch. 2), so that
 *     I = (V - u) / R = mean(V) / R. What feeds it carries that current for its share of the period alone: power is conserved.
 * A winding without a diode loses its current with each pulse and is its resistance.
 */
import { freewheeled } from './freewheel.js';
import { type CircuitLaw, filamentOhms, ptcOhms, shouldTurn, windingLaw } from './laws.js';
import type { Network } from './network.js';
import type { Accuracy, OperatingPointSolver, PointOutcome } from './operating-point.js';
import { meanPicture, type Picture } from './picture.js';

/** A part of the period: its share, and per edge whether it conducts. */
export interface PeriodPart {
  readonly share: number;
  readonly closed: Uint8Array;
}

/** What a slow load is taken for, the same in all parts but for its volts. */
interface SlowLoad {
  readonly edge: number;
  readonly isFreewheeled: boolean;
  /** In each part. */
  readonly volts: Float64Array;
  meanVolts: number;
  rmsVolts: number;
}

/** Rounds until the solver gives up; a stiff supply needs about ten. */
const MOST_ROUNDS = 300;

/** Volts of slow loads, from round to round, in shares of the volts and in volts. */
const FINE_CHANGE = 1e-11;
const COARSE_CHANGE = 1e-5;

/** The mean picture of a period. */
export function solvePeriod(
  solver: OperatingPointSolver,
  network: Network,
  parts: readonly PeriodPart[],
  accuracy: Accuracy,
): PointOutcome {
  const loads = slowLoads(network, parts);
  const enough = accuracy.picture === 'fine' ? FINE_CHANGE : COARSE_CHANGE;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const pictures: Picture[] = [];
    for (let k = 0; k < parts.length; k++) {
      solver.holdLaws(new Map(loads.map((load) => [load.edge, lawIn(network, load, k)])));
      const outcome = solver.find(parts[k].closed, accuracy);
      if (outcome.kind !== 'found') return outcome;
      pictures.push(outcome.picture);
    }
    // Not a shortcut: every load has to take part in every round.
    const changes = loads.map((load) => follow(load, parts, pictures));
    if (changes.every((change) => change <= enough)) {
      return {
        kind: 'found',
        picture: meanPicture(pictures.map((picture, k) => ({ share: parts[k].share, picture }))),
      };
    }
  }
  const edge = loads[0]?.edge ?? 0;
  return { kind: 'no-convergence', edge, detail: `no steady pulses after ${MOST_ROUNDS} rounds` };
}

function slowLoads(network: Network, parts: readonly PeriodPart[]): SlowLoad[] {
  const edges = Array.from(network.curvedEdges).filter((edge) => isSlow(network, edge));
  const throughout = parts
    .map(({ closed }) => closed)
    .reduce((both, closed) => both.map((it, edge) => it & closed[edge]));
  const carried = freewheeled(
    network,
    throughout,
    edges.filter((edge) => isWinding(network, edge)),
  );
  return edges.map((edge) => {
    const law = network.laws[edge];
    // Lamps and heaters as at their rating, windings without current.
    const volts = 'ratedVolts' in law && law.kind !== 'motor' ? law.ratedVolts : 0;
    return {
      edge,
      isFreewheeled: carried.has(edge),
      volts: new Float64Array(parts.length).fill(volts),
      meanVolts: volts,
      rmsVolts: volts,
    };
  });
}

/** Coils and resistive loads stand in a pulsed state as windings, see `lawsOfState`. */
function isWinding({ laws, elements }: Network, edge: number): boolean {
  const { kind } = laws[edge];
  return kind === 'motor' || (kind === 'battery' && elements[edge].role !== 'source');
}

function isSlow(network: Network, edge: number): boolean {
  const { kind } = network.laws[edge];
  return kind === 'filament' || kind === 'ptc' || isWinding(network, edge);
}

/** What a load is in part k, from what the round before showed. */
function lawIn(network: Network, load: SlowLoad, k: number): CircuitLaw {
  const law = network.laws[load.edge];
  switch (law.kind) {
    case 'filament':
      return { kind: 'ohmic', ohms: filamentOhms(law, load.rmsVolts) };
    case 'ptc':
      return { kind: 'ohmic', ohms: ptcOhms(law, load.rmsVolts) };
    case 'motor':
      return winding(load, k, shouldTurn(law, load.meanVolts) ? law.ratedVolts / law.ratedAmps : law.stallOhms);
    case 'battery':
      return winding(load, k, law.dischargeOhms);
    default:
      return law;
  }
}

function winding({ isFreewheeled, volts, meanVolts }: SlowLoad, k: number, ohms: number): CircuitLaw {
  return isFreewheeled ? windingLaw(ohms, volts[k] - meanVolts) : { kind: 'ohmic', ohms };
}

/** Takes over the volts of a round; by how much they differ from those before, the most of all parts. */
function follow(load: SlowLoad, parts: readonly PeriodPart[], pictures: readonly Picture[]): number {
  let change = 0;
  let [sum, squares] = [0, 0];
  for (let k = 0; k < parts.length; k++) {
    const volts = pictures[k].voltsAcross(load.edge);
    change = Math.max(change, Math.abs(volts - load.volts[k]) / (1 + Math.abs(volts)));
    load.volts[k] = volts;
    sum += parts[k].share * volts;
    squares += parts[k].share * volts ** 2;
  }
  load.meanVolts = sum;
  load.rmsVolts = Math.sqrt(squares);
  return change;
}
