// Which states matter is found, not guessed: the changes that an answer proposes are those of its own conditions, and each is needed.

import { describe, expect, it } from 'vitest';
import { conditionOf, isActive } from '../../../src/core/answers/condition.js';
import { answerFeeds } from '../../../src/core/answers/feeds.js';
import { resolveState } from '../../../src/core/circuit/resolve-state.js';
import type { ResolvedState } from '../../../src/core/circuit/resolved-state.js';
import { settle } from '../../../src/core/circuit/settle.js';
import { solutionsOf } from '../../../src/core/circuit/solution.js';
import { fixtureModel, functionOf, stateOf } from '../../support/fixture-model.js';

type Changes = readonly { readonly part: string; readonly is: string }[];

const tern = fixtureModel('tern');
const parked = stateOf(tern, 'Parked');

/** The parked Tern with these things done, by their names as a person would set them. */
function after(changes: Changes): ResolvedState {
  const { source } = parked;
  const positions: Record<string, string> = { ...source.positions };
  const commands: Record<string, boolean | number> = { ...source.commands };
  let engine = source.engine;
  for (const { part, is } of changes) {
    if (tern.graph.positioned.has(part)) positions[part] = is;
    else if (is === 'running' || is === 'stopped') engine = is;
    else commands[part] = is === 'on';
  }
  const resolved = resolveState(tern.graph, {
    ...source,
    positions,
    commands,
    ...(engine === undefined ? {} : { engine }),
  });
  if (!resolved.ok) throw new Error(JSON.stringify(resolved.issues));
  return resolved.state;
}

function runsAfter(id: string, changes: Changes): boolean {
  const solution = solutionsOf(settle(tern.circuit, after(changes)))[0];
  return solution !== undefined && isActive(conditionOf(functionOf(tern, id), solution));
}

/** Loads that do not run while the Tern is parked, for which the answer finds a state. */
const proposals = [...tern.graph.functions.keys()].flatMap((id) => {
  const { shownFor, conditions } = answerFeeds(tern, { function: functionOf(tern, id), state: parked });
  return shownFor === null || shownFor.asAsked ? [] : [{ id, changes: shownFor.changes, conditions }];
});

describe('the state that an answer shows in place of the one asked', () => {
  it('is found for most loads of the parked Tern', () => {
    expect(proposals.length).toBeGreaterThan(20);
  });

  it('is one line of the conditions in the same answer: every change is named there with the position it is in', () => {
    for (const { id, changes, conditions } of proposals) {
      const explains = conditions.anyOf.some((line) =>
        changes.every(({ part, is }) => line.some((term) => term.part === part && term.is.includes(is))),
      );
      expect(explains, `${id}: ${JSON.stringify(changes)}`).toBe(true);
    }
  });

  it('makes the load run, by the solver', () => {
    for (const { id, changes } of proposals) expect(runsAfter(id, changes), id).toBe(true);
  });

  it('holds nothing that is not needed: without any one change the load stays off', () => {
    const needless = proposals.flatMap(({ id, changes }) =>
      changes.flatMap((left) => {
        const others = changes.filter((change) => change !== left);
        return runsAfter(id, others) ? [`${id} without ${left.part}`] : [];
      }),
    );
    expect(needless).toEqual([]);
  });
});
