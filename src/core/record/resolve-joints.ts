// Ohms of what joins: terminations, plug contacts, splices, studs, straps, cases, ties; length of a wire without one.
// It must not know conductor sizes; those are in units.

import { type Figure, figure } from './figure.js';
import type { Part, PartOf } from './part.js';
import { mountOf } from './points.js';
import type { Termination, Wire } from './record.js';

export type TerminationStyle = Termination | 'twist';

/** How a wire end is fixed to this part: recorded on the wire, else what its kind usually takes (common practice). */
export function terminationStyle(part: Part, recordedStyle?: Termination): TerminationStyle {
  if (recordedStyle !== undefined) return recordedStyle;
  if (part.kind === 'splice')
    return part.style === 'solder' ? 'solder' : part.style === 'twist' ? 'twist' : 'splice-crimp';
  return mountOf(part) === 'bolted' ? 'lug' : 'crimp';
}

export function terminationOhms(part: Part, recordedStyle?: Termination): Figure {
  return figure(undefined, `termination.${terminationStyle(part, recordedStyle)}.ohms`);
}

export function doubleCrimpOhms(): Figure {
  return figure(undefined, 'termination.double-crimp.ohms');
}

/** Contact between the halves of a connector, or between the harness side and the part side of a plug-in part. */
export function matingOhms(part: Part): Figure {
  switch (part.kind) {
    case 'connector':
      return figure(part.contactOhms, 'mating.connector.ohms');
    case 'relay':
    case 'flasher':
      return figure(undefined, 'mating.relay.ohms');
    case 'fuse':
      return figure(undefined, 'mating.fuse.ohms');
    case 'load':
      return figure(
        undefined,
        part.functions.some((fn) => fn.law === 'filament') ? 'mating.bulb.ohms' : 'mating.device.ohms',
      );
    default:
      return figure(undefined, 'mating.device.ohms');
  }
}

export function connectorRatingAmps(part: PartOf<'connector'>): Figure {
  return figure(part.contactRatingAmps, 'connector.contactRatingAmps');
}

export function groundJointOhms(part: PartOf<'ground'> | PartOf<'ground-block'>): Figure {
  return figure(part.jointOhms, 'ground.jointOhms');
}

export function groundPathOhms(part: PartOf<'ground'> | PartOf<'ground-block'>): Figure {
  return figure(part.pathOhms, 'ground.pathOhms');
}

export function barLegOhms(part: PartOf<'busbar'> | PartOf<'ground-block'>): Figure {
  return figure(undefined, `${part.kind}.legOhms`);
}

export function strapOhms(part: PartOf<'strap'>): Figure {
  return figure(part.resistanceOhms, 'strap.ohms');
}

export function strapJointOhms(part: PartOf<'strap'>): Figure {
  return figure(part.jointOhms, 'strap.jointOhms');
}

/** Joint between a part's case and the body it is screwed to. */
export function caseJointOhms(part: Part): Figure {
  const heavy = part.kind === 'starter' || part.kind === 'alternator';
  return figure(
    undefined,
    heavy ? 'case.heavyJointOhms' : part.kind === 'module' ? 'module.caseOhms' : 'case.jointOhms',
  );
}

export function tieOhms(part: PartOf<'tie'>): Figure {
  return figure(part.resistanceOhms, 'tie.ohms');
}

export function wireLengthMetres(wire: Pick<Wire, 'lengthMetres'>): Figure {
  return figure(wire.lengthMetres, 'wire.lengthMetres');
}
