// Operating states name parts, positions, outputs, points and wires that exist, and follow each other without a ring.
// It must not decide what the circuit does in a state.

import { normaliseAddress } from '../addresses.js';
import { contactTableOf } from '../contact-tables.js';
import type { PartKind } from '../part.js';
import { shortList } from '../record-issue.js';
import type { OperatingState } from '../state.js';
import type { CheckContext } from './draft.js';
import { type At, findPart, findPartOfKind, findPoint, isUnpluggable } from './find.js';

/** What a person resets or renews. */
const PROTECTING = ['fuse', 'fusible-link', 'breaker'] as const;

export function checkStates(context: CheckContext): void {
  for (const { value: state, path } of context.draft.states) checkState(context, state, path);
  checkAfter(context);
}

/** Stores canonical spellings in one state; tells what it names that is not there. */
function checkState(context: CheckContext, state: OperatingState, path: string): void {
  const at = (field: string): At => ({ path: `${path}/${field}`, part: state.name });

  state.positions = renamed(context, state.positions, at('positions'), (key, value, where) => {
    const part = findPart(context, key, where);
    if (part === null) return null;
    const table = contactTableOf(part);
    if (table === null) {
      // A rotary switch without positions is told at the switch.
      if (part.kind === 'switch') return null;
      context.issues.add(
        'not-switched',
        where.path,
        key,
        `${part.address} (${part.kind}) stands in no positions`,
        'a switch, master switch, sensor switch or load with limit contacts',
        state.name,
      );
      return null;
    }
    const names = table.positions.map(({ name }) => name);
    const position = names.find((name) => name.toLowerCase() === value.toLowerCase());
    if (position === undefined) {
      context.issues.add(
        'unknown-position',
        where.path,
        value,
        `${part.address} has no position ${value}`,
        shortList(names),
        state.name,
      );
      return null;
    }
    return [part.address, position];
  });
  state.commands = renamed(context, state.commands, at('commands'), (key, value, where) => {
    const point = findPoint(context, key, where);
    if (point === null) return null;
    const part = context.index.point(point.address)?.part;
    const outputs = part?.kind === 'module' ? (part.outputs ?? []) : [];
    const output = outputs.find((pin) => pin.terminal === point.terminal);
    if (part === undefined || output === undefined) {
      context.issues.add(
        'unknown-output',
        where.path,
        key,
        `${point.address} is no output of a module`,
        outputs.length === 0
          ? 'an output terminal of a module'
          : shortList(outputs.map((pin) => `${part?.address}/${pin.terminal}`)),
        state.name,
      );
      return null;
    }
    if (typeof value === 'number' && value > 0 && value < 1 && output.pulsed !== true) {
      context.issues.add(
        'not-pulsed',
        where.path,
        value,
        `${point.address} is not recorded as pulsed`,
        'on, off, or the output recorded as pulsed',
        state.name,
      );
    }
    return [`${part.address}/${output.terminal}`, value];
  });
  state.attached = byKind(context, state.attached, ['external-supply', 'jump-posts'], at('attached'));
  state.measured = byKind(context, state.measured, ['battery'], at('measured'));
  state.celsius = byKind(context, state.celsius, ['thermistor'], at('celsius'));
  state.travel = byKind(context, state.travel, ['potentiometer'], at('travel'));
  state.unplugged?.forEach((text, i) => {
    const part = findPart(context, text, { path: `${path}/unplugged/${i}`, part: state.name });
    if (part === null) return;
    state.unplugged![i] = part.address;
    if (!isUnpluggable(part)) {
      context.issues.add(
        'not-unpluggable',
        `${path}/unplugged/${i}`,
        text,
        `${part.address} (${part.kind}) has no plug`,
        'a connector, a fuse or a plug-in part; take a wire off with `detached`',
        state.name,
      );
    }
  });
  state.detached?.forEach((text, i) => {
    state.detached![i] = detached(context, text, { path: `${path}/detached/${i}`, part: state.name });
  });
  state.restored?.forEach((text, i) => {
    const where = { path: `${path}/restored/${i}`, part: state.name };
    state.restored![i] = findPartOfKind(context, text, PROTECTING, where)?.address ?? text;
  });
  state.links?.forEach((link, i) => {
    for (const end of ['from', 'to'] as const) {
      link[end] =
        findPoint(context, link[end], { path: `${path}/links/${i}/${end}`, part: state.name })?.address ?? link[end];
    }
    if (link.from === link.to) {
      context.issues.add(
        'joined-to-itself',
        `${path}/links/${i}/to`,
        link.to,
        'the link begins and ends on one point',
        'two different points',
        state.name,
      );
    }
  });
  for (const key of Object.keys(state) as (keyof OperatingState)[]) if (state[key] === undefined) delete state[key];
}

type Renamer<T> = (key: string, value: T, at: At) => readonly [string, T] | null;

/** The map with canonical keys; a key that stands twice in different spellings is told. */
function renamed<T>(
  context: CheckContext,
  map: Record<string, T> | undefined,
  at: At,
  rename: Renamer<T>,
): Record<string, T> | undefined {
  if (map === undefined) return undefined;
  const result = new Map<string, T>();
  for (const [key, value] of Object.entries(map)) {
    const where = { ...at, path: `${at.path}/${key.replaceAll('~', '~0').replaceAll('/', '~1')}` };
    const entry = rename(key, value, where) ?? ([key, value] as const);
    if (result.has(entry[0])) {
      context.issues.add('repeated-entry', where.path, key, `${entry[0]} stands twice`, 'each address once', at.part);
    }
    result.set(...entry);
  }
  return Object.fromEntries(result);
}

function byKind<T>(
  context: CheckContext,
  map: Record<string, T> | undefined,
  kinds: readonly PartKind[],
  at: At,
): Record<string, T> | undefined {
  return renamed(context, map, at, (key, value, where) => {
    const part = findPartOfKind(context, key, kinds, where);
    return part === null ? null : [part.address, value];
  });
}

/** `L1` or one of its terminations, `L1@BAT1/neg`. */
function detached(context: CheckContext, text: string, at: At): string {
  const [label = '', pointText] = text.split('@');
  const wire = context.wires.get(normaliseAddress(label));
  if (wire === undefined) {
    if (!context.isDeclared(label))
      context.issues.add('unknown-wire', at.path, text, `there is no wire ${label}`, 'a label of the wires', at.part);
    return text;
  }
  if (pointText === undefined) return wire.label;
  const point = context.index.point(pointText)?.point.address;
  // An end that is unknown is told at the wire.
  if (context.index.point(wire.from) === null || context.index.point(wire.to) === null) return text;
  if (point === wire.from || point === wire.to) return `${wire.label}@${point}`;
  context.issues.add(
    'unknown-termination',
    at.path,
    text,
    `${wire.label} does not end on ${pointText}`,
    `${wire.label}@${wire.from}, ${wire.label}@${wire.to}`,
    at.part,
  );
  return text;
}

function checkAfter(context: CheckContext): void {
  const previous = new Map<string, string>();
  for (const { value: state, path } of context.draft.states) {
    if (state.after === undefined) continue;
    const name = context.state(state.after);
    if (name === null) {
      context.issues.add(
        'unknown-state',
        `${path}/after`,
        state.after,
        `there is no state ${state.after}`,
        shortList(context.stateNames()),
        state.name,
      );
      continue;
    }
    state.after = name;
    previous.set(state.name, name);
  }
  const told = new Set<string>();
  for (const { value: state, path } of context.draft.states) {
    const ring = ringFrom(state.name, previous);
    if (ring === null || ring.some((name) => told.has(name))) continue;
    for (const name of ring) told.add(name);
    context.issues.add(
      'state-ring',
      `${path}/after`,
      state.after,
      `the states follow each other in a ring: ${ring.join(', ')}`,
      'a first state without `after`',
      state.name,
    );
  }
}

function ringFrom(start: string, previous: ReadonlyMap<string, string>): readonly string[] | null {
  const way = [start];
  let at = previous.get(start);
  while (at !== undefined && at !== start && way.length <= previous.size) {
    way.push(at);
    at = previous.get(at);
  }
  return at === start ? way : null;
}
