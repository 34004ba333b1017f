/**
 * Whether a threshold lies inside the band of what works it: then a reading may jump, and no slope at the working point tells how far.
 * It must not settle, nor know kinds of switches, laws or fuses: each states its own thresholds. It names the first that may flip.
 */
import type { Bands } from './bands.js';
import type { Circuit } from './compile.js';
import { formOf } from './laws.js';
import { OPENS, openedByLittle, opensAtAmps } from './protection.js';
import type { ResolvedState } from './resolved-state.js';
import { carryOf } from './settled-solution.js';
import type { Solution } from './solution.js';
import type { Threshold } from './threshold.js';

interface Named {
  readonly name: string;
  readonly threshold: Threshold;
}

/** Variable or element whose threshold lies in the 95 % band of what it senses; null when every switch stands firm. */
export function mayFlip(circuit: Circuit, state: ResolvedState, solution: Solution, bands: Bands): string | null {
  const opened =
    openedByLittle([...solution.blown, ...solution.cycling], OPENS) ?? openedByLittle(carryOf(solution).tripped, 1);
  if (opened !== null) return opened.element;
  for (const { name, threshold } of thresholds(circuit, state, solution)) {
    if (isNear(sensed(solution, threshold), threshold.at) && holds(bandOf(bands, threshold), threshold.at)) return name;
  }
  return null;
}

function* thresholds(
  { variables, network, trips }: Circuit,
  state: ResolvedState,
  solution: Solution,
): Generator<Named> {
  const { variablesOn } = carryOf(solution);
  for (const variable of variables) {
    for (const threshold of variable.thresholds(variablesOn.has(variable.name), state)) {
      yield { name: variable.name, threshold };
    }
  }
  for (let edge = 0; edge < network.elements.length; edge++) {
    const element = network.elements[edge];
    const { id, a, b } = element;
    if (!solution.conducts(id)) continue;
    const opensAt = opensAtAmps(element, trips);
    if (opensAt !== null) yield { name: id, threshold: { kind: 'amps', element: id, at: opensAt } };
    const law = network.laws[edge];
    const own = formOf(law).thresholds?.(law, solution.amps(id)) ?? [];
    for (const { of, at } of own) {
      const threshold: Threshold =
        of === 'amps' ? { kind: 'amps', element: id, at } : { kind: 'volts', plus: a, minus: b, at };
      yield { name: id, threshold };
    }
  }
}

function sensed(solution: Solution, it: Threshold): number | null {
  return it.kind === 'amps' ? solution.amps(it.element) : solution.voltsBetween(it.plus, it.minus);
}

function bandOf(bands: Bands, it: Threshold): ReturnType<Bands['amps']> {
  return it.kind === 'amps' ? bands.amps(it.element) : bands.voltsBetween(it.plus, it.minus);
}

/** Beyond this no healthy harness comes: motors scatter most, by 0.12 (table of spreads), and two deviations of them stay well within. */
const NEAR = 0.7;

/** What is far from its threshold needs no band, which costs a solve. */
function isNear(value: number | null, threshold: number): boolean {
  if (value === null) return false;
  const ratio = Math.abs(value / threshold);
  return ratio > NEAR && ratio < 1 / NEAR;
}

/** Whether a magnitude lies between the ends of a band. */
function holds(band: { readonly low: number; readonly high: number } | null, magnitude: number): boolean {
  if (band === null) return false;
  const isIn = (value: number): boolean => value >= band.low && value <= band.high;
  return isIn(magnitude) || isIn(-magnitude);
}
