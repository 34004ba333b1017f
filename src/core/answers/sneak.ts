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
import { describeElement, describePart } from './describe.js';
import type { Model } from './model.js';
import { type Setting, settingsBehind } from './relevant-settings.js';
import type { Sneak, SneaksAnswer } from './shapes/sneak.js';
import { usualDirections } from './sneak-direction.js';
import { type SneakPart, sneakParts } from './sneak-parts.js';
import { departuresWithin, statesByDepartures } from './sneak-states.js';
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

/**
 * All combinations of every part that sneak current can run in. Beyond the limits those with the fewest settings away from rest, and a
 * spread of the others; the answer says so. A removal is told only for what it brings or makes clearly worse.
 */
export function findSneaks(model: Model, { maxSolves = MOST_SOLVES, isCancelled }: SneakOptions = {}): SneaksAnswer {
  const settings = settingsBehind(model, model.graph.elements.keys());
  const consumers = consumersOf(model);
  const usual = usualDirections(model);
  const found = new Map<string, Kept>();
  const rest = restState(model.graph);
  const tasks = tasksOf(model, settings, maxSolves);
  let solved = 0;
  let left = 0;
  const whollyAway = { sound: settings.length, lost: settings.length };
  for (const [index, { removal, part, budget }] of tasks.list.entries()) {
    const ids = new Set(part.elements.map(({ id }) => id));
    if (!consumers.some(({ element }) => ids.has(element.id))) continue;
    const own = settings.filter(({ name }) => part.settings.has(name));
    const counts = own.map(({ values }) => values.length);
    const all = counts.reduce((product, count) => product * count, 1);
    const share = budget ?? Math.max(1, Math.floor((maxSolves - solved) / (tasks.list.length - index)));
    const most = Math.min(all, MOST_COMBINATIONS, share);
    let looked = 0;
    for (const values of statesByDepartures(counts, restOf(own, rest), most)) {
      if (isCancelled?.() === true) break;
      const chosen = withSettings(rest, own, values);
      const state: ResolvedState = { ...chosen, unplugged: new Set([...chosen.unplugged, ...removal.unplugged]) };
      looked += 1;
      for (const solution of solutionsOf(settle(model.circuit, state, { changes: removal.changes }))) {
        // settled as a whole: what sneaks beside the part is seen as well
        for (const consumer of consumers) {
          const current = sneakCurrent(model, usual, solution, consumer);
          if (current !== null) keep(model, found, consumer, removal, solution, current, away(own, values, rest));
        }
      }
    }
    solved += looked;
    left += all - looked;
    const which = removal.name === null ? 'sound' : 'lost';
    if (looked < all) whollyAway[which] = Math.min(whollyAway[which], departuresWithin(counts, looked));
  }
  return {
    sneaks: worstFirst([...found.values()]),
    search: {
      switches: settings.length,
      combinations: solved,
      solved,
      complete: left === 0 && tasks.isWhole,
      note: noteOn(tasks.isWhole, left, solved, whollyAway),
    },
    cautions: cautions(['live-work', 'moving-parts']),
  };
}

interface Task {
  readonly removal: Removal;
  readonly part: SneakPart;
  /** States for this task alone; null: what is left, shared among the tasks to come. */
  readonly budget: number | null;
}

/** Returns have ohms: where all switches can be looked through together, millivolts on a shared return count as well. */
function tasksOf(
  model: Model,
  settings: readonly Setting[],
  maxSolves: number,
): { readonly list: readonly Task[]; readonly isWhole: boolean } {
  const removals = removalsOf(model);
  const product = settings.reduce((all, { values }) => all * values.length, 1);
  if (product <= MOST_COMBINATIONS && product * removals.length <= maxSolves) {
    const everything = {
      elements: [...model.graph.elements.values()],
      settings: new Set(settings.map(({ name }) => name)),
    };
    return { isWhole: true, list: removals.map((removal) => ({ removal, part: everything, budget: product })) };
  }
  const sound = sneakParts(model, new Set());
  const known = new Set(sound.map(signature));
  const half = Math.floor(maxSolves / 2 / Math.max(1, sound.length));
  return {
    isWhole: false,
    list: removals.flatMap((removal): Task[] =>
      removal.name === null
        ? sound.map((part) => ({ removal, part, budget: Math.max(1, half) }))
        : sneakParts(model, removal.gone)
            .filter((part) => !known.has(signature(part)))
            .map((part) => ({ removal, part, budget: null })),
    ),
  };
}

function noteOn(
  isWhole: boolean,
  left: number,
  solved: number,
  whollyAway: { readonly sound: number; readonly lost: number },
): string | null {
  if (isWhole && left === 0) return null;
  const apart = isWhole ? null : 'parts of the harness that meet only at the sources’ posts were looked through apart';
  const cut =
    left === 0
      ? null
      : `${left} switch states were left out within ${solved}: on the sound harness all with up to ${Math.max(0, whollyAway.sound)} settings away from rest and a spread of the others, with something lost all with up to ${Math.max(0, whollyAway.lost)}`;
  return [apart, cut].filter((words) => words !== null).join('; ');
}

/** With the largest current of any state, while the shortest settings are shown. */
interface Kept extends Sneak {
  readonly most: number;
  readonly timesLeast: number;
}

/** A removal must make at least this of what flows without it (engineering judgement). */
const CLEARLY_WORSE = 1.5;

function worstFirst(found: readonly Kept[]): Sneak[] {
  const sound = new Map(
    found.filter(({ removed }) => removed === null).map(({ consumer, kind, most }) => [`${consumer} ${kind}`, most]),
  );
  return found
    .filter(
      ({ consumer, kind, removed, most }) =>
        removed === null || most > CLEARLY_WORSE * (sound.get(`${consumer} ${kind}`) ?? 0),
    )
    .sort(
      (one, other) =>
        Number(one.removed !== null) - Number(other.removed !== null) || other.timesLeast - one.timesLeast,
    )
    .map(({ most, timesLeast, ...sneak }) => sneak);
}

function keep(
  model: Model,
  found: Map<string, Kept>,
  consumer: SneakConsumer,
  removal: Removal,
  solution: Solution,
  { amps, kind }: SneakCurrent,
  settings: Sneak['settings'],
): void {
  const key = `${consumer.id} ${removal.name ?? ''} ${kind}`;
  const known = found.get(key);
  const most = Math.max(Math.abs(amps), known?.most ?? 0);
  const shared = { states: (known?.states ?? 0) + 1, most, timesLeast: most / consumer.leastAmps };
  if (known !== undefined && known.settings.length <= settings.length) {
    found.set(key, { ...known, ...shared });
    return;
  }
  const path = sneakPath(model, solution, consumer);
  found.set(key, {
    consumer: consumer.id,
    kind,
    removed: removal.name,
    settings,
    amps,
    volts: solution.voltsBetween(consumer.element.a, consumer.element.b),
    path,
    text: `${consumer.id} gets ${formatAmps(Math.abs(amps))} with its own feed off${lossOf(model, removal)}, ${byWayOf(model, path, kind)}.`,
    ...shared,
  });
}

function lossOf(model: Model, { name }: Removal): string {
  if (name === null) return '';
  const element = model.graph.elements.get(name);
  return element === undefined
    ? ` once ${describePart(model, name)} is unplugged`
    : ` once ${describeElement(model, element)} is lost`;
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

function restOf(settings: readonly Setting[], rest: ResolvedState): number[] {
  return settings.map((setting) => Math.max(0, setting.values.indexOf(valueAtRest(setting, rest))));
}

function valueAtRest({ kind, name }: Setting, rest: ResolvedState): string {
  switch (kind) {
    case 'position':
      return rest.positions.get(name) ?? '';
    case 'command':
      return 'off';
    case 'engine':
      return 'stopped';
  }
}

function away(settings: readonly Setting[], values: readonly number[], rest: ResolvedState): Sneak['settings'] {
  return settings.flatMap((setting, i) => {
    const is = setting.values[values[i]];
    return is === valueAtRest(setting, rest) ? [] : [{ part: setting.name, is }];
  });
}
