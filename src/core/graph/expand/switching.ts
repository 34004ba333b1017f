// Switch, sensor switch and flasher: contacts whose gate is a position or a phase.
// It must not hold contact tables; the record's own module reads those.

import { contactTableOf } from '../../record/contact-tables.js';
import { type Figure, figureByVolts } from '../../record/figure.js';
import type { PartOf } from '../../record/part.js';
import { contactOhms } from '../../record/resolve-switching.js';
import type { Element } from '../element.js';
import { caseJoint } from './case-joint.js';
import { type Expansion, expansion, ohmic, type PartSite } from './part-site.js';

export function expandSwitch(part: PartOf<'switch'>, site: PartSite): Expansion {
  return expansion(positionContacts(part, site, contactOhms(part)));
}

export function expandSensorSwitch(part: PartOf<'sensor-switch'>, site: PartSite): Expansion {
  return expansion([...positionContacts(part, site, contactOhms(part)), ...caseJoint(part, site)]);
}

interface Pair {
  readonly a: string;
  readonly b: string;
  readonly closedIn: string[];
}

/**
 * One element per pair of terminals that any position joins, closed in all positions that join it. A set of more than
 * two terminals is joined from its first terminal to each other one.
 */
export function positionContacts(
  part: PartOf<'switch' | 'sensor-switch' | 'master-switch' | 'load'>,
  site: PartSite,
  ohms: Figure,
): readonly Element[] {
  const pairs = new Map<string, Pair>();
  for (const position of contactTableOf(part)?.positions ?? []) {
    for (const [first, ...others] of position.joins) {
      for (const other of others) {
        if (first === undefined || first === other) continue;
        // `1-2` and `2-1` are the same contact, named as it was first written.
        const pair = pairs.get(`${other}-${first}`) ??
          pairs.get(`${first}-${other}`) ?? { a: first, b: other, closedIn: [] };
        if (!pair.closedIn.includes(position.name)) pair.closedIn.push(position.name);
        pairs.set(`${pair.a}-${pair.b}`, pair);
      }
    }
  }
  return [...pairs].map(([name, { a, b, closedIn }]) =>
    site.element({
      name,
      role: 'contact',
      a: site.at(a),
      b: site.at(b),
      law: ohmic(ohms),
      gates: [{ kind: 'position', part: part.address, closedIn }],
      from: [ohms],
    }),
  );
}

/** Closed in its lit phase; both phases are solved. `drive` is what the unit itself draws between 49 and 31. */
export function expandFlasher(part: PartOf<'flasher'>, site: PartSite): Expansion {
  const contact = contactOhms(part);
  const drive = figureByVolts(undefined, 'flasher.supplyOhms', site.volts, 2);
  return expansion([
    site.element({
      name: '49-49a',
      role: 'contact',
      a: site.at('49'),
      b: site.at('49a'),
      law: ohmic(contact),
      gates: [{ kind: 'lit', part: part.address }],
      from: [contact],
    }),
    site.element({
      name: 'drive',
      role: 'bias',
      a: site.at('49'),
      b: site.at('31'),
      law: ohmic(drive),
      from: [drive],
    }),
  ]);
}
