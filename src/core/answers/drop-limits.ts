/**
 * Voltage-drop limits by class of element, for one element under its own load.
 * Workshop figures (common practice; SAE recommendation as quoted in workshop manuals): small connection 0 V, high-current connection 0.1 V,
 * wire 0.2 V, switch or relay contact 0.3 V, ground 0.1 V. Scaled to the system voltage, since they are 12 V figures.
 */
import type { Element } from '../graph/element.js';
import type { Model } from './model.js';

const WIRE_VOLTS = 0.2;
const CONTACT_VOLTS = 0.3;
const CONNECTION_VOLTS = 0.1;
const GROUND_VOLTS = 0.1;

/** Volts that the element may drop, or null where no limit is customary (loads, sources, semiconductors). */
export function dropLimitVolts(model: Model, element: Element): number | null {
  const scale = (model.graph.record.systemVolts ?? 12) / 12;
  switch (element.role) {
    case 'conductor':
      return WIRE_VOLTS * scale;
    case 'contact':
    case 'output':
    case 'fuse':
      return CONTACT_VOLTS * scale;
    case 'termination':
    case 'double-crimp':
    case 'mating':
    case 'bridge':
    case 'link':
      return CONNECTION_VOLTS * scale;
    case 'joint':
    case 'metal':
    case 'tie':
      return GROUND_VOLTS * scale;
    case 'coil':
    case 'load':
    case 'source':
    case 'component':
    case 'bias':
      return null;
  }
}
