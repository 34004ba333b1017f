/**
 * Under which switch positions and commands a load function runs, as the shortest sum of products.
 * Reads the structure; it does not solve, so a caller must still let the solver confirm each line it shows.
 */
import type { ResolvedState } from '../circuit/resolved-state.js';
import type { LoadFunction } from '../graph/element.js';
import { minimise } from './minimise.js';
import type { Model } from './model.js';
import { type Setting, settingsBehind } from './relevant-settings.js';
import { SwitchWorld } from './switch-world.js';
import type { Cube } from './truth-table.js';

/** One line of the sum: settings with their allowed values, all of which must hold. */
export type ConditionLine = readonly { readonly setting: Setting; readonly values: readonly string[] }[];

export interface RunConditions {
  readonly lines: readonly ConditionLine[];
  readonly settings: readonly Setting[];
  /** False when there were too many settings, or the minimiser ran out of its budget. */
  readonly exact: boolean;
  /** Settings left as in the state asked, because of the cap. */
  readonly leftOut: readonly Setting[];
}

/** Combinations that are looked through: sixteen switches of two positions. */
const MOST_COMBINATIONS = 65_536;

/** Looks through every combination of the relevant settings; the rest of the state stays as asked. */
export function runConditions(model: Model, fn: LoadFunction, state: ResolvedState): RunConditions {
  const circuitry = model.structure.between(fn.feed, fn.return);
  const all = settingsBehind(model, [...circuitry.feed, ...circuitry.return, ...circuitry.control]);
  const settings: Setting[] = [];
  let combinations = 1;
  for (const setting of all) {
    if (combinations * setting.values.length > MOST_COMBINATIONS) continue;
    combinations *= setting.values.length;
    settings.push(setting);
  }
  const world = new SwitchWorld(model, [...circuitry.feed, ...circuitry.return, ...circuitry.control], state);
  const sizes = settings.map((setting) => setting.values.length);
  const { cubes, exact } = minimise(sizes, (values) => world.runs(fn, withSettings(state, settings, values)));
  return {
    lines: cubes.map((cube) => lineOf(cube, settings)),
    settings,
    exact: exact && settings.length === all.length,
    leftOut: all.filter((setting) => !settings.includes(setting)),
  };
}

/** The state with these settings, one value index for each. */
export function withSettings(
  state: ResolvedState,
  settings: readonly Setting[],
  values: readonly number[],
): ResolvedState {
  const positions = new Map(state.positions);
  const commands = new Map(state.commands);
  let { engineRuns } = state;
  settings.forEach((setting, i) => {
    const value = setting.values[values[i]];
    if (setting.kind === 'position') positions.set(setting.name, value);
    else if (setting.kind === 'command') commands.set(setting.name, value === 'on' ? 1 : 0);
    else engineRuns = value === 'running';
  });
  return { ...state, positions, commands, engineRuns };
}

function lineOf(cube: Cube, settings: readonly Setting[]): ConditionLine {
  return settings.flatMap((setting, i) => {
    const values = setting.values.filter((_, value) => (cube[i] & (1 << value)) !== 0);
    return values.length === setting.values.length ? [] : [{ setting, values }];
  });
}
