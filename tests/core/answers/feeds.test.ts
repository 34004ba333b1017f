// What feeds this load, on the bench board (worked by hand), the trailer and the Tern.

import { describe, expect, it } from 'vitest';
import { conditionOf, isActive } from '../../../src/core/answers/condition.js';
import { answerFeeds } from '../../../src/core/answers/feeds.js';
import type { Model } from '../../../src/core/answers/model.js';
import { feedsSchema } from '../../../src/core/answers/shapes/feeds.js';
import { settle } from '../../../src/core/circuit/settle.js';
import { solutionsOf } from '../../../src/core/circuit/solution.js';
import { fixtureModel, functionOf, stateOf } from '../../support/fixture-model.js';

function ask(model: Model, fn: string, state: string) {
  return answerFeeds(model, { function: functionOf(model, fn), state: stateOf(model, state) });
}

/** Elements whose opening alone stops the function, by trying every one. */
function bruteForce(model: Model, fn: string, state: string): string[] {
  const resolved = stateOf(model, state);
  const running = solutionsOf(settle(model.circuit, resolved))[0];
  return [...model.graph.elements.keys()].filter((element) => {
    const outcome = settle(model.circuit, resolved, { changes: [{ kind: 'open', element }], from: running });
    const after = solutionsOf(outcome)[0];
    return after !== undefined && !isActive(conditionOf(functionOf(model, fn), after));
  });
}

describe('feeds on the bench board', () => {
  const board = fixtureModel('bench-board');
  const answer = ask(board, 'E1', 'Lamp on');

  it('has the shape that the API publishes', () => {
    expect(feedsSchema.parse(answer)).toEqual(answer);
  });

  it('walks from the battery through fuse, splice, relay and plug to the lamp, and home over two grounds', () => {
    const owners = (steps: readonly { owner: string }[]) =>
      steps.map((step) => step.owner).filter((owner, i, all) => owner !== all[i - 1]);
    expect(owners(answer.supplies[0].steps)).toEqual(['BAT1', 'W1', 'F1', 'W2', 'W3', 'K1', 'W7', 'X1', 'W8', 'E1']);
    expect(owners(answer.returns[0].steps)).toEqual(['E1', 'W9', 'X1', 'W10', 'G1', 'G2', 'W11']);
    expect(answer.supplies).toHaveLength(1);
    expect(answer.supplies[0].share).toBeGreaterThan(0.99);
  });

  it('loses volts all the way: drops along feed, lamp and return add up to the battery’s terminal volts', () => {
    const sum = (steps: readonly { dropVolts: { nominal: number | null } }[]) =>
      steps.reduce((total, step) => total + (step.dropVolts.nominal ?? Number.NaN), 0);
    const [supply] = answer.supplies;
    const drops =
      sum(supply.steps.slice(1)) + (answer.voltsAcross.nominal ?? Number.NaN) + sum(answer.returns[0].steps);
    expect(drops).toBeCloseTo(supply.steps[0].volts.nominal ?? Number.NaN, 9);
  });

  it('names the coil’s own path as control, with the switch on it', () => {
    const coil = answer.controls.find((control) => control.contact === 'K1:30-87');
    expect(coil?.closed).toBe(true);
    expect(coil?.paths[0].steps.map((step) => step.element)).toEqual(
      expect.arrayContaining(['F1:link', 'S1:1-2', 'K1:coil', 'G2:joint']),
    );
    expect(answer.controls.map((control) => control.needs)).toContain('switch S1 (Lamp switch) in position on');
  });

  it('calls an element a single point of failure exactly if opening it kills the lamp', () => {
    expect([...answer.singlePointsOfFailure].sort()).toEqual(bruteForce(board, 'E1', 'Lamp on').sort());
  });

  it('runs with the switch on and nothing else', () => {
    expect(answer.conditions).toEqual({ exact: true, anyOf: [[{ part: 'S1', is: ['on'] }]], note: null });
  });

  it('shows the paths for the nearest state in which it runs when the state asked leaves it off', () => {
    const off = ask(board, 'E1', 'Off');
    expect(off.condition).toBe('dead');
    expect(off.shownFor).toEqual({ asAsked: false, changes: [{ part: 'S1', is: 'on' }] });
    expect(off.supplies[0].steps.map((step) => step.element)).toEqual(
      answer.supplies[0].steps.map((step) => step.element),
    );
  });

  it('says which defaults it leaned on, with their source', () => {
    expect(answer.basis.defaults.length).toBeGreaterThan(0);
    for (const used of answer.basis.defaults) expect(used.source.length).toBeGreaterThan(3);
  });
});

describe('feeds on the trailer', () => {
  const trailer = fixtureModel('trailer');
  const states = trailer.graph.record.states ?? [];

  it('agrees with brute force on every lamp in every named state: single points of failure', () => {
    for (const state of states) {
      for (const fn of trailer.graph.functions.keys()) {
        const answer = ask(trailer, fn, state.name);
        if (!isActive(answer.condition === 'undefined' ? 'dead' : answer.condition)) continue;
        expect([...answer.singlePointsOfFailure].sort(), `${fn} in ${state.name}`).toEqual(
          bruteForce(trailer, fn, state.name).sort(),
        );
      }
    }
  }, 60_000);

  it('sees that lamps share the one ground', () => {
    const [first] = trailer.graph.functions.keys();
    const answer = ask(
      trailer,
      first,
      states.find((state) => isActive(ask(trailer, first, state.name).condition as 'works'))?.name ?? '',
    );
    const grounds = answer.shares.filter(
      (share) => share.kind === 'ground' || share.kind === 'connector' || share.kind === 'splice',
    );
    expect(grounds.length).toBeGreaterThan(0);
    for (const share of grounds) expect(share.functions).not.toContain(first);
  });
});

describe('feeds on two batteries in series', () => {
  const heron = fixtureModel('heron');

  it('agrees with brute force, the link between the batteries included', () => {
    const running = (heron.graph.record.states ?? []).flatMap(({ name, engine }) =>
      engine === 'running'
        ? []
        : [...heron.graph.functions.keys()].slice(0, 40).map((fn) => ({ fn, name, answer: ask(heron, fn, name) })),
    );
    const some = running.filter(({ answer }) => answer.condition === 'works').slice(0, 4);
    expect(some.length).toBe(4);
    for (const { fn, name, answer } of some) {
      expect([...answer.singlePointsOfFailure].sort(), `${fn} in ${name}`).toEqual(bruteForce(heron, fn, name).sort());
      expect(answer.singlePointsOfFailure).toContain('H3');
    }
  }, 60_000);
});
