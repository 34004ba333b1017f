/**
 * States beside that of the complaint in which a glance tells something: a switch moved so that another consumer runs over part of the
 * suspected circuit, or the same one by another way. Recorded states first; where none is recorded, one switch in another position.
 * It must not rank functions.
 */
import type { Model } from '../answers/model.js';
import type { ResolvedState } from '../circuit/resolved-state.js';
import type { LoadFunction } from '../graph/element.js';
import { contactTableOf } from '../record/contact-tables.js';
import type { Part } from '../record/part.js';
import { changeMinutes, LOOK_MINUTES } from './check-cost.js';
import type { Inquiry } from './inquiry.js';
import type { Live } from './live.js';
import type { StateChoice } from './shapes/check.js';
import { nameWith } from './state-name.js';
import type { Posterior } from './suspects.js';

const MOST_STATES = 2;
/** Of those that look promising so many are tried before giving up. */
const MOST_TRIED = 6;
/** Share of the suspicion that a consumer must clear, or leave, to be worth the walk to the switch (engineering judgement). */
const WORTH_MOVING = 0.05;
/** Of the same consumer run by another way: it clears what both share, or leaves it (engineering judgement). */
const SAME_BY_OTHER_WAY = 0.3;

/** A state with the consumers that only it switches on, or switches on by another way. */
interface Idea {
  readonly choice: StateChoice;
  readonly minutes: number;
  readonly functions: readonly LoadFunction[];
}

export function statesToTry(posterior: Posterior, live: Live): StateChoice[] {
  const { inquiry } = posterior;
  const split = splits(posterior, live);
  const promising = ideasFor(inquiry)
    .map(({ choice, minutes, functions }) => ({
      choice,
      functions: functions.filter((fn) => split(fn) >= WORTH_MOVING),
      rate: Math.max(0, ...functions.map(split)) / minutes,
    }))
    .filter(({ functions }) => functions.length > 0)
    .sort((a, b) => b.rate - a.rate)
    .slice(0, MOST_TRIED);
  const worth: StateChoice[] = [];
  for (const { choice, functions } of promising) {
    if (worth.length >= MOST_STATES) break;
    const sound = inquiry.healthy(choice);
    if (functions.some((fn) => sound.condition(fn) === 'works')) worth.push(choice);
  }
  return worth;
}

/** How evenly a consumer's working parts what is suspected: the smaller of what it shares and what it does not. */
function splits({ inquiry, probabilities }: Posterior, live: Live): (fn: LoadFunction) => number {
  const suspicion = new Map<string, number>();
  let total = 0;
  for (const i of live.indices) {
    for (const { element } of inquiry.hypotheses[i].faults) {
      if (element === null) continue;
      suspicion.set(element, (suspicion.get(element) ?? 0) + probabilities[i]);
      total += probabilities[i];
    }
  }
  const known = new Map<LoadFunction, number>();
  return (fn) => {
    if (fn.id === inquiry.complaintFunction) return SAME_BY_OTHER_WAY;
    const before = known.get(fn);
    if (before !== undefined) return before;
    const circuit = circuitOf(inquiry.model, fn);
    let shared = 0;
    for (const [element, share] of suspicion) if (circuit.has(element)) shared += share / total;
    const split = Math.min(shared, 1 - shared);
    known.set(fn, split);
    return split;
  };
}

const ideas = new WeakMap<Inquiry, readonly Idea[]>();

/** All of an inquiry, whatever is suspected by now. */
function ideasFor(inquiry: Inquiry): readonly Idea[] {
  const known = ideas.get(inquiry);
  if (known !== undefined) return known;
  const { model, complaintFunction } = inquiry;
  const main = inquiry.resolve(inquiry.mainState);
  const sound = inquiry.healthy(inquiry.mainState);
  const resting = [...model.graph.functions.values()].filter(
    (fn) => fn.id === complaintFunction || sound.condition(fn) === 'dead',
  );
  const switchedOn = (state: ResolvedState): LoadFunction[] =>
    resting.filter((fn) => isSwitchedOn(model, fn, main, state));
  const recorded = (model.graph.record.states ?? [])
    .filter(({ name }) => name !== main.source.name)
    .map(({ name }): [StateChoice, ResolvedState] => [name, inquiry.resolve(name)])
    .filter(([, state]) => state.after === null && state.engineRuns === main.engineRuns);
  const written = new Set(recorded.map(([, state]) => positionsKey(state)));
  const spelled = switchesMoved(model, main)
    .map((choice): [StateChoice, ResolvedState] => [choice, inquiry.resolve(choice)])
    .filter(([, state]) => !written.has(positionsKey(state)));
  const idea = ([choice, state]: [StateChoice, ResolvedState]): Idea => ({
    choice,
    minutes: LOOK_MINUTES + changeMinutes(main, state),
    functions: switchedOn(state),
  });
  const found = [
    ...recorded.map(idea),
    // What moves by itself once it has current is set going by a state that somebody wrote down, never by one made up here.
    ...spelled.map(idea).filter(({ functions }) => functions.every(({ law }) => law !== 'motor')),
  ].filter(({ functions }) => functions.length > 0);
  ideas.set(inquiry, found);
  return found;
}

interface Circuit {
  readonly elements: ReadonlySet<string>;
  readonly switches: readonly { readonly part: string; readonly closedIn: readonly string[] }[];
}

const circuits = new WeakMap<LoadFunction, Circuit>();

function wholeCircuit(model: Model, fn: LoadFunction): Circuit {
  const known = circuits.get(fn);
  if (known !== undefined) return known;
  const { feed, return: back, control } = model.structure.between(fn.feed, fn.return);
  const elements = new Set([fn.element, ...feed, ...back, ...control]);
  const gates = [...elements].flatMap((id) => model.graph.elements.get(id)?.gates ?? []);
  const circuit = { elements, switches: gates.flatMap((gate) => (gate.kind === 'position' ? [gate] : [])) };
  circuits.set(fn, circuit);
  return circuit;
}

const circuitOf = (model: Model, fn: LoadFunction): ReadonlySet<string> => wholeCircuit(model, fn).elements;

/** A contact of the circuit closes by the change of position. */
function isSwitchedOn(
  model: Model,
  fn: LoadFunction,
  { positions: before }: ResolvedState,
  { positions: now }: ResolvedState,
): boolean {
  return wholeCircuit(model, fn).switches.some(
    ({ part, closedIn }) => closedIn.includes(now.get(part) ?? '') && !closedIn.includes(before.get(part) ?? ''),
  );
}

/** The state of the complaint with one hand switch in another position. Nobody is told to crank, or to touch an interlock. */
function switchesMoved({ graph: { record } }: Model, main: ResolvedState): Exclude<StateChoice, string>[] {
  return record.parts.filter(isHandSwitch).flatMap((part) => {
    const at = main.positions.get(part.address);
    return (contactTableOf(part)?.positions ?? [])
      .filter(({ name }) => name !== at)
      .map(({ name }) => ({
        ...main.source,
        name: stateName(main.source.name, part, name),
        positions: { ...main.source.positions, [part.address]: name },
      }));
  });
}

function isHandSwitch(part: Part): boolean {
  if (part.kind !== 'switch' || (part.marks ?? []).length > 0) return false;
  const table = contactTableOf(part);
  return table !== null && !table.positions.some(({ joins }) => joins.some((set) => set.includes('50')));
}

function stateName(main: string, part: Part, position: string): string {
  return nameWith(main, `${part.address}${part.name === undefined ? '' : ` (${part.name})`} at ${position}`);
}

function positionsKey({ positions }: ResolvedState): string {
  return JSON.stringify([...positions].sort(([a], [b]) => (a < b ? -1 : 1)));
}
