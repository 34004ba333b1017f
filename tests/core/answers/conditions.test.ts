// Under which switches a load runs: the shortest sum, held to the solver over every combination.

import { describe, expect, it } from 'vitest';
import { conditionOf, isActive } from '../../../src/core/answers/condition.js';
import { runConditions, withSettings } from '../../../src/core/answers/conditions.js';
import { settle } from '../../../src/core/circuit/settle.js';
import { solutionsOf } from '../../../src/core/circuit/solution.js';
import { fixtureModel, functionOf, stateOf } from '../../support/fixture-model.js';

function inWords(fixture: string, fn: string, state: string): string[] {
  const model = fixtureModel(fixture);
  const { lines } = runConditions(model, functionOf(model, fn), stateOf(model, state));
  return lines.map((line) => line.map(({ setting, values }) => `${setting.name}=${values.join('|')}`).join(' & '));
}

/** Every combination of the settings, solved; true where the function runs. */
function disagreements(fixture: string, fn: string, state: string): string[] {
  const model = fixtureModel(fixture);
  const load = functionOf(model, fn);
  const asked = stateOf(model, state);
  const { lines, settings } = runConditions(model, load, asked);
  const wrong: string[] = [];
  const values = settings.map(() => 0);
  for (;;) {
    const chosen = withSettings(asked, settings, values);
    const solution = solutionsOf(settle(model.circuit, chosen))[0];
    const runs = solution !== undefined && isActive(conditionOf(load, solution));
    const said = lines.some((line) =>
      line.every(({ setting, values: allowed }) => allowed.includes(setting.values[values[settings.indexOf(setting)]])),
    );
    if (runs !== said)
      wrong.push(settings.map((setting, i) => `${setting.name}=${setting.values[values[i]]}`).join(' '));
    let at = settings.length - 1;
    while (at >= 0 && values[at] + 1 === settings[at].values.length) values[at--] = 0;
    if (at < 0) return wrong;
    values[at] += 1;
  }
}

describe('run conditions', () => {
  it('needs light switch, dip switch and, with the engine stopped, the battery switch for the dipped beam', () => {
    expect(inWords('tern', 'E1:dip', 'Parked')).toHaveLength(1);
    expect(inWords('tern', 'E1:dip', 'Parked')[0].split(' & ').sort()).toEqual(['MS1=on', 'S2=head', 'S3=dip']);
  });

  it('agree with the solver in every combination: dipped beam, brake lamp, winch of the Tern', () => {
    for (const fn of ['E1:dip', 'E7:stop', 'E23']) expect(disagreements('tern', fn, 'Parked'), fn).toEqual([]);
  });

  it('agree with the solver on every load of the Heron whose settings are few', () => {
    const heron = fixtureModel('heron');
    const state = (heron.graph.record.states ?? [])[0].name;
    for (const fn of heron.graph.functions.keys()) {
      const { settings } = runConditions(heron, functionOf(heron, fn), stateOf(heron, state));
      const combinations = settings.reduce((product, setting) => product * setting.values.length, 1);
      if (combinations <= 16) expect(disagreements('heron', fn, state), fn).toEqual([]);
    }
  });
});
