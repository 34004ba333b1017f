/**
 * Checks, outcomes and suspects in the words of the trade: where the leads go, what is seen, what it means.
 * It must not compute anything.
 */
import { describeElement, describePart } from '../answers/describe.js';
import type { Model } from '../answers/model.js';
import type { Inquiry } from './inquiry.js';
import type { OutcomeClass } from './outcome-classes.js';
import { CHECK_WORDS, type Check } from './shapes/check.js';
import type { CheckPlace } from './shapes/hunt.js';

/** One line that tells the hands what to do. The state to set stands beside it. */
export function instructionFor(inquiry: Inquiry, check: Check): string {
  const { model } = inquiry;
  const reference = model.graph.reference;
  switch (check.kind) {
    case 'observe':
      return restsWhenSound(inquiry, check)
        ? `Look: is ${functionName(model, check.function)} off, as it should be?`
        : `Look: does ${functionName(model, check.function)} work?`;
    case 'volts': {
      const how = check.isBackProbed === true ? ', from the rear of the plug, which stays together' : '';
      if (check.newFuse !== undefined)
        return `New fuse of the recorded rating in ${check.newFuse}, once: does it hold? Volts: red to ${check.red}, black to ${check.black}${how}.`;
      return check.black === reference
        ? `Volts, load on: red to ${check.red}, black stays at ${reference}${how}.`
        : `Voltage drop, load on: red to ${check.red}, black to ${check.black}${how}.`;
    }
    case 'lamp':
      return `Test lamp from ${check.red} to ${check.black}.`;
    case 'clamp':
      return `Clamp round wire ${check.wire}.`;
    case 'ohms':
      return `Battery off, plugs at both ends pulled: ohms from ${check.red} to ${check.black}.`;
    case 'isolation':
      return `Battery off, plugs at both ends pulled: ohms from ${check.point} to ${check.body}.`;
    case 'look':
      return `Take fuse ${check.fuse} out and look at it.`;
    case 'swap':
      if (model.parts.get(check.part)?.kind === 'fuse')
        return `Fit a new fuse of the recorded rating at ${describePart(model, check.part)}, once: does ${functionName(model, check.function)} work, and does the fuse hold?`;
      return `Put a known good one in the place of ${describePart(model, check.part)}: does ${functionName(model, check.function)} ${restsWhenSound(inquiry, check) ? 'go off with it, and come on again' : 'work with it, and fail again'} with the old one back in?`;
    case 'inspect':
      return model.parts.get(check.part)?.kind === 'ground'
        ? `Undo ground ${check.part} and look: paint, rust, a loose lug?`
        : `Unplug ${check.part} and look: green or bent pins, a contact pushed back, wires in the wrong cavity?`;
    case 'link':
      return `Fused link of ${check.fuseAmps} A from ${check.from} to ${check.to}: does ${functionName(model, check.function)} work?`;
    case 'wiggle':
      return `Move the wires at ${check.part} in short steps: does ${functionName(model, check.function)} change?`;
  }
}

/** The check looks at something that is off in this state on a healthy harness. */
export function restsWhenSound(inquiry: Inquiry, check: Check): boolean {
  if (check.kind !== 'observe' && check.kind !== 'swap') return false;
  const fn = inquiry.model.graph.functions.get(check.function);
  return fn !== undefined && inquiry.healthy(check.state).condition(fn) === 'dead';
}

export function functionName(model: Model, id: string): string {
  const fn = model.graph.functions.get(id);
  if (fn === undefined) return id;
  const element = model.graph.elements.get(fn.element);
  if (element === undefined) return id;
  const words = describePart(model, fn.part, element);
  // `lamp E1 lamp` says nothing that `lamp E1` does not.
  return words.replace(new RegExp(`^(${fn.name}) (\\S+) \\1(?= |$)`), '$1 $2');
}

export function unitOf(check: Check): 'V' | 'A' | 'Ω' | null {
  switch (check.kind) {
    case 'volts':
      return 'V';
    case 'clamp':
      return 'A';
    case 'ohms':
    case 'isolation':
      return 'Ω';
    case 'observe':
    case 'lamp':
    case 'look':
    case 'swap':
    case 'inspect':
    case 'link':
    case 'wiggle':
      return null;
  }
}

/** An outcome as a person would say it: `as it should be, 12.0 to 12.7 V`. */
export function outcomeWords(inquiry: Inquiry, check: Check, { name, low, high }: OutcomeClass): string {
  if (check.kind in CHECK_WORDS) return seenWords(inquiry, check, name);
  const unit = unitOf(check) ?? '';
  const show = (value: number): string => `${formatted(unit === 'Ω' ? 10 ** value : value)} ${unit}`;
  const range = Number.isFinite(low)
    ? Number.isFinite(high)
      ? low < 0 && high > 0 && unit !== 'Ω'
        ? `up to ${show(high)}`
        : `${formatted(unit === 'Ω' ? 10 ** low : low)} to ${show(high)}`
      : `over ${show(low)}`
    : Number.isFinite(high)
      ? `under ${show(high)}`
      : '';
  return `${NAMES[name] ?? name}${range === '' ? '' : `, ${range}`}`;
}

/** The same in the middle of a sentence: `it is as it should be`, `it stays dead`. */
export function outcomeName(inquiry: Inquiry, check: Check, { name }: OutcomeClass): string {
  return check.kind in CHECK_WORDS ? seenWords(inquiry, check, name) : `it is ${NAMES[name] ?? name}`;
}

function seenWords(inquiry: Inquiry, check: Check, name: string): string {
  const words = check.kind === 'observe' && restsWhenSound(inquiry, check) ? RESTING_WORDS : WORDS;
  return words[name] ?? name;
}

/** Of what should be off. */
const RESTING_WORDS: Readonly<Record<string, string>> = {
  works: 'it is on',
  weak: 'it glows or runs a little',
  dead: 'it is off',
  reversed: 'it runs the wrong way',
};

const NAMES: Readonly<Record<string, string>> = {
  'as-healthy': 'as it should be',
  lower: 'too low',
  higher: 'too high',
  nothing: 'next to nothing',
  reversed: 'the other way round',
  supply: 'about battery volts',
  open: 'open',
  connected: 'connected',
};

const WORDS: Readonly<Record<string, string>> = {
  works: 'it works',
  weak: 'it is weak',
  dead: 'it stays dead',
  reversed: 'it runs the wrong way',
  good: 'the fuse is good',
  blown: 'the fuse is blown',
  missing: 'there is no fuse',
  'wrong-rating': 'a fuse of too small a rating is blown there',
  cured: 'that cures it',
  same: 'no change',
  clean: 'it looks clean and sits right',
  damaged: 'there is something to see',
  changes: 'it changes with the movement',
  steady: 'it stays steady',
  bright: 'the lamp is bright',
  dim: 'the lamp is dim',
  dark: 'the lamp is dark',
};

function formatted(value: number): string {
  const size = Math.abs(value);
  if (size >= 1e6) return `${(value / 1e6).toPrecision(2)} M`;
  if (size >= 1e3) return `${(value / 1e3).toPrecision(2)} k`;
  return size >= 10 ? value.toFixed(1) : value.toFixed(2);
}

export function checkPlaceOf(model: Model, point: string): CheckPlace | null {
  const found = model.graph.points.get(point);
  if (found === undefined) return null;
  return {
    point,
    part: found.owner,
    description: describePart(model, found.owner),
    location: found.location,
    access: found.access,
    panel: found.panel,
    side: found.side,
  };
}

/** Element of a suspect as one line; used where a fault's own description is too narrow. */
export function elementWords(model: Model, id: string): string {
  const element = model.graph.elements.get(id);
  return element === undefined ? id : describeElement(model, element);
}
