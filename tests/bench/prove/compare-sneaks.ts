// The sneak search held against brute force: what it misses, and what it tells that brute force does not find.
// It must not forgive a difference.

import type { Model } from '../../../src/core/answers/model.js';
import type { SneaksAnswer } from '../../../src/core/answers/shapes/sneak.js';
import { findSneaks } from '../../../src/core/answers/sneak.js';
import { resolveState } from '../../../src/core/circuit/resolve-state.js';
import { settle } from '../../../src/core/circuit/settle.js';
import { solutionsOf } from '../../../src/core/circuit/solution.js';
import { allStates, bruteSneaks, drawnStates, type Loss, losses, sneaking } from './brute-sneaks.js';

export interface SneakComparison {
  readonly sneaks: number;
  readonly missed: readonly string[];
  readonly wrong: readonly string[];
  readonly search: SneaksAnswer['search'];
}

/** A loss is told where it brings at least so many times what flows without it. */
const CLEARLY_WORSE = 1.5;
/** Solves beyond any that a compared harness takes: the search must look through all. */
const WITHOUT_LIMIT = 1_000_000;

/** Over every state and every loss. */
export function compareWhole(model: Model): SneakComparison {
  const answer = findSneaks(model, { maxSolves: WITHOUT_LIMIT });
  const missed: string[] = [];
  const wrong: string[] = [];
  let sound: ReadonlyMap<string, number> = new Map();
  for (const loss of losses(model)) {
    const brute = bruteSneaks(model, allStates(model), loss);
    if (loss.name === null) sound = brute;
    const expected = new Set(
      [...brute]
        .filter(([id, amps]) => loss.name === null || amps > CLEARLY_WORSE * (sound.get(id) ?? 0))
        .map(([id]) => id),
    );
    const told = new Set(toldFor(answer, loss));
    for (const id of expected) if (!told.has(id)) missed.push(`${id} once ${loss.name ?? 'nothing'} is lost`);
    for (const id of told) if (!expected.has(id)) wrong.push(`${id} once ${loss.name ?? 'nothing'} is lost`);
  }
  return { sneaks: answer.sneaks.length, missed, wrong, search: answer.search };
}

/**
 * For a vehicle with too many states to look through: a drawn sample of states of the sound harness may hold no consumer that the search
 * does not know, and every sneak told must be there when its own settings are set.
 */
export function compareSampled(model: Model, maxSolves: number, drawn: number, mostChecked: number): SneakComparison {
  const answer = findSneaks(model, { maxSolves });
  const told = new Set(toldFor(answer, { name: null }));
  const brute = bruteSneaks(model, drawnStates(model, drawn, 11), { name: null, changes: [], unplugged: [] });
  const missed = [...brute.keys()].filter((id) => !told.has(id));
  const byName = new Map(losses(model).map((loss) => [loss.name, loss]));
  const wrong = answer.sneaks.slice(0, mostChecked).filter((sneak) => {
    if (sneak.kind !== 'back-feed') return false;
    const loss = byName.get(sneak.removed);
    if (loss === undefined) return true;
    const setting = (part: string): boolean => part !== 'engine' && !model.graph.positioned.has(part);
    const resolved = resolveState(model.graph, {
      name: 'again',
      engine: sneak.settings.some(({ part, is }) => part === 'engine' && is === 'running') ? 'running' : 'stopped',
      positions: Object.fromEntries(
        sneak.settings.filter(({ part }) => model.graph.positioned.has(part)).map(({ part, is }) => [part, is]),
      ),
      commands: Object.fromEntries(
        sneak.settings.filter(({ part }) => setting(part)).map(({ part, is }) => [part, is === 'on']),
      ),
      unplugged: [...loss.unplugged],
    });
    if (!resolved.ok) return true;
    return !solutionsOf(settle(model.circuit, resolved.state, { changes: loss.changes })).some((solution) =>
      sneaking(model, solution).has(sneak.consumer),
    );
  });
  return {
    sneaks: answer.sneaks.length,
    missed,
    wrong: wrong.map(({ consumer, removed }) => `${consumer} once ${removed ?? 'nothing'} is lost`),
    search: answer.search,
  };
}

function toldFor({ sneaks }: SneaksAnswer, { name }: Pick<Loss, 'name'>): string[] {
  return sneaks.filter(({ removed, kind }) => removed === name && kind === 'back-feed').map(({ consumer }) => consumer);
}
