// How many readings of random true harnesses lie inside their stated band.
// It must not be tuned to the bands: truth is a full settling with every parameter drawn anew.

import { createBands } from '../../../src/core/circuit/bands.js';
import { linearise } from '../../../src/core/circuit/linearised.js';
import { mayFlip } from '../../../src/core/circuit/may-flip.js';
import { namedState } from '../../../src/core/circuit/resolve-state.js';
import { settle } from '../../../src/core/circuit/settle.js';
import { type Solution, solutionsOf } from '../../../src/core/circuit/solution.js';
import { seededRandom } from '../../support/random.js';
import { settledHarnesses } from '../../support/settled-harnesses.js';
import { subjectOf } from './subject.js';

export interface BandCoverage {
  readonly pooled: number | null;
  readonly worstStratum: number | null;
  readonly strata: readonly { readonly name: string; readonly inside: number; readonly readings: number }[];
  /** Healthy harnesses in which a switch may flip inside the band: the answers draw harnesses there instead. */
  readonly mayFlip: number;
}

type Told = { readonly low: number; readonly high: number } | null;

interface Asked {
  readonly stratum: 'feed' | 'drop' | 'amps' | 'ohms';
  readonly band: Told;
  read(truth: Solution): number | null;
}

const HARNESSES = 40;
const TRUTHS_EACH = 50;
const WIRES = 60;
const LEAST_VOLTS = 1e-3;
const LEAST_AMPS = 1e-3;
const MOST_OHMS = 1e4;
const PER_STRATUM = 8;

/** 40 harnesses with everything on, 50 true ones drawn of each: 2,000. Floating and sub-millivolt readings are left out. */
export function bandCoverage(): BandCoverage {
  const strata = new Map(['feed', 'drop', 'amps', 'ohms'].map((name) => [name, { name, inside: 0, readings: 0 }]));
  let flipping = 0;
  for (let seed = 1; seed <= HARNESSES; seed++) {
    const { model, state, settled } = subjectOf(WIRES, seed);
    const bands = createBands(state, settled);
    if (mayFlip(model.circuit, state, settled, bands) !== null) flipping += 1;
    const random = seededRandom(seed);
    const count = (truths: Iterable<Solution>, asked: readonly Asked[]): void => {
      for (const truth of truths) {
        for (const { stratum, band, read } of asked) {
          const value = read(truth);
          const tally = strata.get(stratum);
          if (value === null || band === null || tally === undefined) continue;
          tally.readings += 1;
          if (value >= band.low && value <= band.high) tally.inside += 1;
        }
      }
    };
    count(settledHarnesses(model.circuit, state, TRUTHS_EACH, random.next), askedOf(model, settled, bands));
    const dead = namedState(model.graph, 'Key off');
    const resting = dead.ok ? solutionsOf(settle(model.circuit, dead.state))[0] : undefined;
    if (!dead.ok || resting === undefined) continue;
    const asked = askedOhms(model, resting, createBands(dead.state, resting));
    count(settledHarnesses(model.circuit, dead.state, TRUTHS_EACH, random.next), asked);
  }
  const told = [...strata.values()].filter(({ readings }) => readings >= 200);
  const share = (of: readonly { inside: number; readings: number }[]): number =>
    of.reduce((sum, { inside }) => sum + inside, 0) / of.reduce((sum, { readings }) => sum + readings, 0);
  const shares = told.map((stratum) => share([stratum]));
  return {
    pooled: told.length === 0 ? null : share(told),
    worstStratum: shares.reduce((worst, it) => (Math.abs(it - 0.95) > Math.abs(worst - 0.95) ? it : worst), 0.95),
    strata: told,
    mayFlip: flipping,
  };
}

type Bands = ReturnType<typeof createBands>;
type Model = ReturnType<typeof subjectOf>['model'];

function askedOf({ graph }: Model, settled: Solution, bands: Bands): Asked[] {
  const feeds = [...graph.functions.values()].filter((fn) => Math.abs(settled.volts(fn.feed) ?? 0) > LEAST_VOLTS);
  const carrying = [...graph.elements.values()].filter(({ id }) => Math.abs(settled.amps(id)) > LEAST_AMPS);
  const dropping = carrying.filter(({ a, b, role }) => {
    return role !== 'load' && role !== 'source' && Math.abs(settled.voltsBetween(a, b) ?? 0) > LEAST_VOLTS;
  });
  return [
    ...spread(feeds).map(
      ({ feed, return: home }): Asked => ({
        stratum: 'feed',
        band: bands.voltsBetween(feed, home),
        read: (truth) => truth.voltsBetween(feed, home),
      }),
    ),
    ...spread(dropping).map(
      ({ a, b }): Asked => ({
        stratum: 'drop',
        band: bands.voltsBetween(a, b),
        read: (truth) => truth.voltsBetween(a, b),
      }),
    ),
    ...spread(carrying).map(
      ({ id }): Asked => ({
        stratum: 'amps',
        band: bands.amps(id),
        read: (truth) => truth.amps(id),
      }),
    ),
  ];
}

/** Ohms along each load's own circuit with the key off, and over conductors. */
function askedOhms({ graph }: Model, resting: Solution, bands: Bands): Asked[] {
  const between = (truth: Solution, a: string, b: string): number | null =>
    linearise(truth, [])
      .inject([
        { point: a, amps: 1 },
        { point: b, amps: -1 },
      ])
      .voltsBetween(a, b);
  const pairs = [...graph.elements.values()].filter(({ role, a, b, id }) => {
    if (!resting.conducts(id) || (role !== 'load' && role !== 'mating' && role !== 'termination')) return false;
    const ohms = between(resting, a, b);
    return ohms !== null && ohms < MOST_OHMS;
  });
  return spread(pairs).map(
    ({ a, b }): Asked => ({
      stratum: 'ohms',
      band: bands.ohmsBetween(a, b),
      read: (truth) => between(truth, a, b),
    }),
  );
}

function spread<T>(all: readonly T[]): T[] {
  const count = Math.min(PER_STRATUM, all.length);
  return Array.from({ length: count }, (_, i) => all[Math.floor((i * all.length) / count)]);
}
