/**
 * Elements in trade words, for people with a meter in one hand: `wire L12, 0.75 mm², red with black stripe, 1.3 m`.
 */
import type { Element } from '../graph/element.js';
import type { Part } from '../record/part.js';
import { toWords } from '../units/colour.js';
import { formatMetres } from '../units/format.js';
import type { Model } from './model.js';

/** One line about an element, without its voltage. */
export function describeElement(model: Model, element: Element): string {
  switch (element.role) {
    case 'conductor':
      return describeWire(model, element.owner);
    case 'termination':
      return `end of wire ${element.owner} at ${element.id.slice(element.id.indexOf('@') + 1)}`;
    case 'double-crimp':
      return `shared crimp at ${element.id.slice(1)}`;
    case 'mating':
      return `${describePart(model, element.owner)}, contact ${element.id.slice(element.id.indexOf(':') + 1).replace(/\.mating$/, '')}`;
    case 'contact':
      return `${describePart(model, element.owner)}, contact ${element.id.slice(element.id.indexOf(':') + 1)}`;
    case 'coil':
      return `${describePart(model, element.owner)}, coil`;
    case 'joint':
      return `${describePart(model, element.owner)}, bolted joint`;
    case 'metal':
      return `${describePart(model, element.owner)}, metal path`;
    case 'bridge':
      return `${describePart(model, element.owner)}, bridge between cavities`;
    case 'link':
      return 'link fitted for the test';
    case 'fuse':
    case 'load':
    case 'source':
    case 'tie':
    case 'component':
    case 'output':
    case 'bias':
      return describePart(model, element.owner, element);
  }
}

function describeWire(model: Model, label: string): string {
  const wire = model.wires.get(label);
  if (wire === undefined) return `wire ${label}`;
  const parts = [`wire ${label}`, wire.size];
  if (wire.colour !== undefined) parts.push(toWords(wire.colour));
  parts.push(wire.lengthMetres === undefined ? 'length not recorded' : formatMetres(wire.lengthMetres));
  return parts.join(', ');
}

/** Kind, address and name of a part: `fuse F6 10 A (dip left)`. */
export function describePart(model: Model, address: string, element?: Element): string {
  const part = model.parts.get(address);
  if (part === undefined) return address;
  const rating = element?.protection ? ` ${element.protection.ratingAmps} A` : '';
  const functionName =
    element?.role === 'load' && element.id.includes(':') ? ` ${element.id.slice(element.id.indexOf(':') + 1)}` : '';
  const name = part.name === undefined ? '' : ` (${part.name})`;
  return `${kindWord(part)} ${address}${functionName}${rating}${name}`;
}

function kindWord(part: Part): string {
  if (part.kind !== 'load') return part.kind.replaceAll('-', ' ');
  const laws = new Set(part.functions.map((fn) => fn.law));
  if (laws.has('filament')) return 'lamp';
  if (laws.has('led')) return 'LED';
  if (laws.has('motor')) return 'motor';
  if (laws.has('heater')) return 'heater';
  return 'load';
}
