/**
 * Sneak conduction: loads and relays that get current while their own feed is off, over switch states and single lost grounds or plugs.
 * A conductor path decides what is the own feed, the solver what flows. It must not leave out a state without saying so.
 */
import { restState } from '../circuit/resolve-state.js';
import type { ResolvedState } from '../circuit/resolved-state.js';
import { settle } from '../circuit/settle.js';
import { type Change, type Solution, solutionsOf } from '../circuit/solution.js';
import type { Element } from '../graph/element.js';
import { formatAmps } from '../units/format.js';
import { cautions } from './cautions.js';
import { withSettings } from './conditions.js';
import type { Model } from './model.js';
import { type Setting, settingsBehind } from './relevant-settings.js';
import type { Sneak, SneaksAnswer } from './shapes/sneak.js';
import { usualDirections } from './sneak-direction.js';
import { sneakParts } from './sneak-parts.js';
import { consumersOf, type SneakConsumer, type SneakCurrent, sneakCurrent, sneakPath } from './sneak-test.js';

export interface SneakOptions {
  /** Switch states solved at most, removals included. */
  readonly maxSolves?: number;
  readonly isCancelled?: () => boolean;
}

/** Combinations of one part of the harness (PRECISIONS of the design): 16 two-way switches. */
const MOST_COMBINATIONS = 65_536;
const MOST_SOLVES = 20_000;

interface Removal {
  readonly name: string | null;
  readonly changes: readonly Change[];
  readonly unplugged: readonly string[];
  readonly gone: ReadonlySet<string>;
}

/** All combinations of every part that sneak current can run in; sampled evenly beyond the limits, and says so. */
export function findSneaks(model: Model, { maxSolves = MOST_SOLVES, isCancelled }: SneakOptions = {}): SneaksAnswer {
  const settings = settingsBehind(model, model.graph.elements.keys());
  const consumers = consumersOf(model);
  const usual = usualDirections(model);
  const found = new Map<string, Sneak>();
  const rest = restState(model.graph);
  const healthy = new Set(sneakParts(model, new Set()).map(signature));
  const removals = removalsOf(model);
  const product = settings.reduce((all, { values }) => all * values.length, 1);
  // returns have ohms: where all switches can be looked through together, millivolts on a shared return count as well
  const isWhole = product <= MOST_COMBINATIONS && product * removals.length <= maxSolves;
  const everything = {
    elements: [...model.graph.elements.values()],
    settings: new Set(settings.map(({ name }) => name)),
  };
  const tasks = removals.flatMap((removal) =>
    isWhole
      ? [{ removal, part: everything }]
      : sneakParts(model, removal.gone)
          .filter((part) => removal.name === null || !healthy.has(signature(part)))
          .map((part) => ({ removal, part })),
  );
  const share = Math.max(1, Math.floor(maxSolves / Math.max(1, tasks.length)));
  let combinations = 0;
  let left = 0;
  for (const { removal, part } of tasks) {
    const ids = new Set(part.elements.map(({ id }) => id));
    const inPart = consumers.filter(({ element }) => ids.has(element.id));
    if (inPart.length === 0) continue;
    const own = settings.filter(({ name }) => part.settings.has(name));
    const all = own.reduce((product, { values }) => product * values.length, 1);
    const count = Math.min(all, MOST_COMBINATIONS, share);
    left += all - count;
    for (let i = 0; i < count && isCancelled?.() !== true; i++) {
      const values = digits(count === all ? i : Math.floor((i * all) / count), own);
      const chosen = withSettings(rest, own, values);
      const state: ResolvedState = { ...chosen, unplugged: new Set([...chosen.unplugged, ...removal.unplugged]) };
      combinations += 1;
      for (const solution of solutionsOf(settle(model.circuit, state, { changes: removal.changes }))) {
        for (const consumer of inPart) {
          const current = sneakCurrent(model, usual, solution, consumer);
          if (current !== null) keep(model, found, consumer, removal, solution, current, away(own, values, rest));
        }
      }
    }
  }
  return {
    sneaks: [...found.values()],
    search: {
      switches: settings.length,
      combinations,
      solved: combinations,
      complete: left === 0 && isWhole,
      note: noteOn(isWhole, left, maxSolves),
    },
    cautions: cautions(['live-work', 'moving-parts']),
  };
}

function noteOn(isWhole: boolean, left: number, maxSolves: number): string | null {
  if (isWhole && left === 0) return null;
  const apart = 'parts of the harness that meet only at the sources’ posts were looked through apart';
  return left === 0
    ? apart
    : `${apart}; ${left} switch states were left out: sampled evenly within ${maxSolves} states`;
}
function keep(
  model: Model,
  found: Map<string, Sneak>,
  consumer: SneakConsumer,
  removal: Removal,
  solution: Solution,
  { amps, kind }: SneakCurrent,
  settings: Sneak['settings'],
): void {
  const key = `${consumer.id} ${removal.name ?? ''} ${kind}`;
  const known = found.get(key);
  if (known !== undefined && known.settings.length <= settings.length) {
    found.set(key, { ...known, states: known.states + 1 });
    return;
  }
  const path = sneakPath(model, solution, consumer);
  const lost = removal.name === null ? '' : ` once ${removal.name} is lost`;
  found.set(key, {
    consumer: consumer.id,
    kind,
    removed: removal.name,
    settings,
    states: (known?.states ?? 0) + 1,
    amps,
    volts: solution.voltsBetween(consumer.element.a, consumer.element.b),
    path,
    text: `${consumer.id} gets ${formatAmps(Math.abs(amps))} with its own feed off${lost}, ${byWayOf(model, path, kind)}.`,
  });
}

/** Contacts and fuses named at most: a path is read to its end from its elements. */
const MOST_NAMED = 6;

function byWayOf(model: Model, path: readonly string[], kind: Sneak['kind']): string {
  const elements = path.map((id) => model.graph.elements.get(id)).filter((element) => element !== undefined);
  if (kind === 'reversed-feed') {
    const contacts = elements.filter(({ role }) => role === 'contact').map(({ owner }) => owner);
    return `by way of ${[...new Set(contacts)].slice(0, MOST_NAMED).join(', ')}, at least one of them against its usual direction`;
  }
  const loads = elements.filter(({ role }) => role === 'load' || role === 'coil').map(({ id }) => id);
  return `by way of ${loads.slice(0, MOST_NAMED).join(', ') || 'contacts alone'}`;
}

function removalsOf(model: Model): Removal[] {
  const none: Removal = { name: null, changes: [], unplugged: [], gone: new Set() };
  // a stud is lost as a whole from its metal, or one ring of it from the others
  const joints = [...model.graph.elements.values()].filter(
    ({ role, id }) => role === 'joint' || (role === 'termination' && isOnGround(model, id.slice(id.indexOf('@') + 1))),
  );
  const plugs = model.graph.record.parts.filter(({ kind }) => kind === 'connector');
  return [
    none,
    ...joints.map(
      ({ id }): Removal => ({ name: id, changes: [{ kind: 'open', element: id }], unplugged: [], gone: new Set([id]) }),
    ),
    ...plugs.map(
      ({ address }): Removal => ({ name: address, changes: [], unplugged: [address], gone: matingsOf(model, address) }),
    ),
  ];
}

function isOnGround(model: Model, point: string): boolean {
  const kind = model.parts.get(model.graph.points.get(point)?.owner ?? '')?.kind;
  return kind === 'ground' || kind === 'ground-block';
}

function matingsOf(model: Model, plug: string): ReadonlySet<string> {
  const isMating = ({ gates }: Element): boolean => gates.some((gate) => gate.kind === 'mated' && gate.part === plug);
  return new Set([...model.graph.elements.values()].filter(isMating).map(({ id }) => id));
}

/** The part by its elements: alike before and after a removal means that nothing in it changed. */
function signature({ elements }: { readonly elements: readonly Element[] }): string {
  return elements
    .map(({ id }) => id)
    .sort()
    .join('\n');
}

/** Number -> one value index per setting, the first setting fastest. */
function digits(number: number, settings: readonly Setting[]): number[] {
  let rest = number;
  return settings.map(({ values }) => {
    const digit = rest % values.length;
    rest = Math.floor(rest / values.length);
    return digit;
  });
}

function away(settings: readonly Setting[], values: readonly number[], rest: ResolvedState): Sneak['settings'] {
  return settings.flatMap((setting, i) => {
    const is = setting.values[values[i]];
    const atRest =
      setting.kind === 'position'
        ? (rest.positions.get(setting.name) ?? '')
        : setting.kind === 'command'
          ? 'off'
          : 'stopped';
    return is === atRest ? [] : [{ part: setting.name, is }];
  });
}
