/**
 * Faults in the few words that a person keeps in mind from one reading to the next: which place, and what is the matter there.
 * It must not give sizes, colours or places in the vehicle; the full description does.
 */
import { describePart } from '../answers/describe.js';
import type { Model } from '../answers/model.js';
import { MODE_WORDS } from './element-faults.js';
import type { Fault } from './fault.js';
import type { Hypothesis } from './hypotheses.js';

const KIND_NAMES = {
  healthy: 'nothing wrong',
  'record-wrong': 'not wired as recorded',
  unknown: 'something not in the list of faults',
} as const;

/** `ground G5, bolted joint open`; both of a pair. */
export function shortName(model: Model, { kind, faults }: Hypothesis): string {
  if (faults.length === 0) return KIND_NAMES[kind as keyof typeof KIND_NAMES];
  return faults.map((fault) => faultName(model, fault)).join(' and ');
}

function faultName(model: Model, { element: id, owner, mode, description }: Fault): string {
  const element = id === null ? undefined : model.graph.elements.get(id);
  // Shorts and swaps are about two things: their own words say which.
  if (element === undefined || mode.startsWith('short-to') || mode === 'swapped-cavities') return description;
  const own = element.id.slice(element.id.indexOf(':') + 1).replace(/\.mating$/, '');
  const part = describePart(model, owner, element.role === 'load' ? element : undefined).replace(/ \(.*$/, '');
  const words = MODE_WORDS[mode];
  switch (element.role) {
    case 'conductor':
      return `wire ${owner} ${words}`;
    case 'termination':
      return `wire ${owner} at ${element.id.slice(element.id.indexOf('@') + 1)} ${words}`;
    case 'double-crimp':
      return `shared crimp at ${element.id.slice(1)} ${words}`;
    case 'mating':
      return `${owner} contact ${own} ${words}`;
    case 'joint':
      return `${part}, bolted joint ${words}`;
    case 'contact':
      return isOnlyContact(model, owner) ? `${part} ${words}` : `${part} contact ${own} ${words}`;
    default:
      return `${part} ${words}`;
  }
}

/** Of a relay or switch with one contact nobody asks which; a motor with a park contact, or a change-over, has to be told. */
function isOnlyContact({ graph, parts }: Model, part: string): boolean {
  const contacts = [...graph.elements.values()].filter(({ owner, role }) => owner === part && role === 'contact');
  return contacts.length === 1 && parts.get(part)?.kind !== 'load';
}
