/**
 * Checks of current against ratings: wires, cavities, switch and relay contacts, each in its worst state.
 * It must not look for the worst state itself.
 */
import type { Element } from '../../graph/element.js';
import type { Part } from '../../record/part.js';
import { connectorRatingAmps } from '../../record/resolve-joints.js';
import { contactRatingAmps } from '../../record/resolve-switching.js';
import { formatAmps } from '../../units/format.js';
import { describeElement } from '../describe.js';
import type { Model } from '../model.js';
import type { Case, Check, Found } from './check.js';
import { wireAmps } from './wire-amps.js';

export const wireOverloaded: Check = {
  code: 'wire-over-ampacity',
  severity: 'fault',
  remedy: 'Thicker wire, fewer warm wires in the bundle, or insulation of a higher temperature.',
  *find({ model, worst }) {
    const ampsOf = wireAmps(model, worst());
    for (const wire of model.graph.record.wires) {
      const most = worst().amps(wire.label);
      const carries = ampsOf(wire.label);
      if (most === null || carries === null || most.amps <= carries.amps || isBrief(model, most.amps, wire.label))
        continue;
      yield {
        at: [wire.label],
        points: [wire.from, wire.to],
        numbers: [
          { what: 'current', value: most.amps, unit: 'A' },
          { what: 'carries', value: carries.amps, unit: 'A' },
        ],
        limit: { value: carries.amps, unit: 'A', source: carries.source.standard },
        state: most.state,
        text: `Wire ${wire.label} carries ${formatAmps(most.amps)} in ${most.state}; it is good for ${formatAmps(carries.amps)}.`,
      };
    }
  },
};

export const cavityOverRating: Check = {
  code: 'cavity-over-rating',
  severity: 'fault',
  remedy: 'Share the current over two cavities, or use a connector with larger contacts.',
  *find(subject) {
    for (const element of subject.model.graph.elements.values()) {
      if (element.role !== 'mating') continue;
      const part = subject.model.parts.get(element.owner);
      if (part?.kind !== 'connector') continue;
      yield* overRating(subject, element, part, connectorRatingAmps(part).value, part.contactRatingAmps === undefined);
    }
  },
};

export const contactOverRating: Check = {
  code: 'contact-over-rating',
  severity: 'fault',
  remedy: 'Let a relay carry the current, or fit a switch or relay with a higher rating.',
  *find(subject) {
    for (const element of subject.model.graph.elements.values()) {
      const part = element.role === 'contact' ? subject.model.parts.get(element.owner) : undefined;
      const rating = part === undefined ? null : ratingOf(part, element);
      if (part === undefined || rating === null) continue;
      yield* overRating(subject, element, part, rating.amps, rating.isDefault);
    }
  },
};

function* overRating(
  { worst, model }: Case,
  element: Element,
  part: Part,
  ratingAmps: number,
  isDefault: boolean,
): Iterable<Found> {
  const most = worst().amps(element.id);
  if (most === null || most.amps <= ratingAmps || isBrief(model, most.amps, element.id)) return;
  yield {
    at: [element.id],
    points: [element.a, element.b],
    numbers: [
      { what: 'current', value: most.amps, unit: 'A' },
      { what: 'rating', value: ratingAmps, unit: 'A' },
    ],
    limit: {
      value: ratingAmps,
      unit: 'A',
      source: isDefault ? 'default for its kind (common practice)' : 'recorded rating',
    },
    state: most.state,
    text: `${describeElement(model, element)} of ${part.address} carries ${formatAmps(most.amps)} in ${most.state}; it is rated ${formatAmps(ratingAmps)}.`,
  };
}

function ratingOf(part: Part, element: Element): { amps: number; isDefault: boolean } | null {
  switch (part.kind) {
    case 'relay':
    case 'switch':
    case 'sensor-switch':
    case 'flasher':
    case 'master-switch':
    case 'split-charge-relay':
      return {
        amps: contactRatingAmps(part, element.id.endsWith('87a')).value,
        isDefault: part.contactRatingAmps === undefined,
      };
    default:
      return null;
  }
}

/**
 * Cranking current flows for seconds: what only carries that much because a starter turns is not held to continuous ratings
 * (common practice; cable makers give several times the continuous figure for some seconds).
 */
function isBrief(model: Model, amps: number, element: string): boolean {
  for (const [id, fn] of model.graph.functions) {
    if (model.parts.get(fn.part)?.kind !== 'starter' || amps < 0.5 * fn.ratedAmps) continue;
    const circuitry = model.structure.between(fn.feed, fn.return);
    if (circuitry.feed.has(element) || circuitry.return.has(element) || id === element) return true;
  }
  return false;
}
