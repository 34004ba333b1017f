/**
 * Many what-ifs against one settled state: quick where a change can be followed from there, settled in full where not.
 * Answers as `settle` does from the same base, to the millivolt; it must not give a number that `settle` would not.
 */

import type { Law } from '../graph/element.js';
import { GROUND } from '../numeric/types.js';
import type { Circuit } from './compile.js';
import { isAtLimit } from './laws.js';
import type { Network } from './network.js';
import { Picture } from './picture.js';
import { mayOpen, type Opening } from './protection.js';
import type { ResolvedState } from './resolved-state.js';
import { type SettleOptions, settle } from './settle.js';
import { settledSolution } from './settled-solution.js';
import { type Change, type Outcome, type Overload, type Solution, solutionsOf } from './solution.js';
import type { SwitchVariable } from './switch-variables.js';
import { type Glimpse, glimpseOf, Lookout, type Watched } from './watch.js';
import { type Rest, WhatIf } from './what-if.js';

export interface Prober {
  /** As `settle(circuit, state, { changes, from: base })`. */
  probe(changes: readonly Change[]): Outcome;
  /**
   * The same question about many changes: prepared once for a few points and elements, each look then costs a fraction of
   * a probe, since nothing else is solved for. Thresholds, fuses and curves are followed as by `probe`.
   *
   *     const watch = prober.watch({ pairs: [{ red: fn.feed, black: fn.return }], elements: [fn.element] });
   *     const kills = candidates.filter((element) => {
   *       const { glimpse } = watch([{ kind: 'open', element }]);
   *       return glimpse !== null && loadConditionAt(fn, glimpse.volts[0], glimpse.conducts[0] === 1) === 'dead';
   *     });
   *
   * Throws a RangeError on a name that the harness lacks.
   */
  watch(watched: Watched): (changes: readonly Change[]) => Seen;
  /** How many changes were followed from the base, and how many had to be settled in full. */
  readonly counts: { followed: number; settled: number };
}

export interface Seen {
  readonly outcome: Outcome['kind'];
  /** Null where the outcome has no solution; good until the next probe or look. */
  readonly glimpse: Glimpse | null;
}

/**
 * A prober for one base, which must come from `settle` of the same circuit and state without changes. `limits` hold for
 * changes that are settled in full: an outcome may then be `stopped`.
 */
export function createProber(
  circuit: Circuit,
  state: ResolvedState,
  base: Solution,
  limits: Pick<SettleOptions, 'isCancelled' | 'maxSolves'> = {},
): Prober {
  const counts = { followed: 0, settled: 0 };
  let whatIf: WhatIf | null = null;
  // Pulse-width outputs make two pictures of one state: those are settled in full.
  const begin = (): WhatIf | null => {
    if (!base.isMean) whatIf ??= new WhatIf(circuit, state, base);
    return whatIf;
  };
  const tryOut = (changes: readonly Change[]): Rest | null => {
    const rest = begin()?.tryOut(changes) ?? null;
    counts[rest === null ? 'settled' : 'followed'] += 1;
    return rest;
  };
  const inFull = (changes: readonly Change[]): Outcome => settle(circuit, state, { ...limits, changes, from: base });
  return {
    counts,
    probe(changes) {
      const rest = tryOut(changes);
      if (whatIf === null || rest === null) return inFull(changes);
      return { kind: 'settled', solution: solutionOf(circuit, base, whatIf, rest) };
    },
    watch(watched) {
      const started = begin();
      const lookout = started === null ? null : new Lookout(started, watched);
      return (changes) => {
        const rest = tryOut(changes);
        if (lookout !== null && rest !== null) return { outcome: 'settled', glimpse: lookout.atRest(rest) };
        const outcome = inFull(changes);
        const solution = solutionsOf(outcome)[0];
        return { outcome: outcome.kind, glimpse: solution === undefined ? null : glimpseOf(solution, watched) };
      };
    },
  };
}

function solutionOf(circuit: Circuit, base: Solution, whatIf: WhatIf, rest: Rest): Solution {
  const { carry, conduction, solver } = whatIf;
  const { variables, opened, imposed } = rest;
  const network = networkUnder(whatIf.network, rest);
  const picture = pictureUnder(network, whatIf.fullPicture(), rest);
  const on = (kind?: SwitchVariable['kind']): Set<string> => {
    const names = new Set<string>();
    circuit.variables.forEach((it, i) => {
      if (variables[i] === 1 && (kind ?? it.kind) === it.kind) names.add(it.name);
    });
    return names;
  };
  const gone = (how: Opening['how']): Overload[] =>
    opened.filter((it) => it.how === how).map(({ overload }) => overload);
  // What is forced closed can neither blow nor trip any more.
  const stillOpen = ({ element }: Overload): boolean => !imposed.forced.has(network.edgeOf.get(element) ?? -1);
  const blown = [...base.blown.filter(stillOpen), ...gone('blown')];
  const tripped = [...carry.tripped.filter(stillOpen), ...gone('tripped')];
  const limited: string[] = [];
  for (const edge of network.curvedEdges) {
    const isLimited = picture.closed[edge] === 1 && isAtLimit(network.laws[edge], picture.edgeAmps[edge]);
    if (isLimited) limited.push(network.elements[edge].id);
  }
  return settledSolution(
    picture,
    {
      pulledCoils: on('coil'),
      outputsOn: on('output'),
      awakeModules: on('awake'),
      blown,
      mayBlow: mayOpen(picture, conduction).filter(stillOpen),
      cycling: base.cycling,
      limited,
      tripped: tripped.map(({ element }) => element),
      isMean: false,
    },
    { memories: solver.remembered(), variablesOn: on(), blown, tripped },
  );
}

/** The network with the laws that were imposed. */
function networkUnder(network: Network, { imposed: { laws } }: Rest): Network {
  if (laws.size === 0) return network;
  const changed = {
    elements: [...network.elements],
    laws: [...network.laws],
    ohmicSiemens: network.ohmicSiemens.slice(),
  };
  for (const [edge, law] of laws) {
    changed.laws[edge] = law;
    if (law.kind === 'ohmic' && network.curvedIndex[edge] === -1) changed.ohmicSiemens[edge] = 1 / law.ohms;
    const plain: Law = law.kind === 'driver' ? { kind: 'ohmic', ohms: law.ohms } : law;
    changed.elements[edge] = { ...network.elements[edge], law: plain };
  }
  return { ...network, ...changed };
}

/** Elements that sit on other points carry what their extra lines carry. */
function pictureUnder(network: Network, found: Picture, { imposed: { moved, extras } }: Rest): Picture {
  const { nodeVolts, edgeAmps, slopes, islandOf, residualComponentwise } = found;
  const closed = moved.size === 0 ? found.closed : found.closed.slice();
  for (const [edge, place] of moved) {
    const { from, to, siemens } = extras[place];
    closed[edge] = 1;
    slopes[edge] = siemens;
    edgeAmps[edge] = siemens * ((from === GROUND ? 0 : nodeVolts[from]) - (to === GROUND ? 0 : nodeVolts[to]));
  }
  return new Picture(network, nodeVolts, edgeAmps, edgeAmps, slopes, closed, islandOf, residualComponentwise);
}
