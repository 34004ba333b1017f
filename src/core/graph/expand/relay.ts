// Relay after DIN 72552: coil 86 to 85, contacts from 30, an optional built-in fuse and coil suppressor.
// It must not decide when the coil pulls in.

import type { PartOf } from '../../record/part.js';
import { fuseOhmsByRating } from '../../record/resolve-protection.js';
import * as resolve from '../../record/resolve-switching.js';
import type { Element } from '../element.js';
import { type Expansion, expansion, ohmic, type PartSite } from './part-site.js';
import { suppressorLaw } from './suppressor-law.js';

export function expandRelay(part: PartOf<'relay'>, site: PartSite): Expansion {
  const isFused = part.fuseRatingAmps !== undefined;
  const common = isFused ? site.id('inner') : site.at('30');
  return expansion(
    [coil(part, site), ...builtInFuse(part, site), ...contacts(part, site, common), ...suppressor(part, site)],
    { inner: isFused ? [site.inner('inner')] : [] },
  );
}

function coil(part: PartOf<'relay'>, site: PartSite): Element {
  const ohms = resolve.relayCoilOhms(part, site.volts);
  const pullIn = resolve.relayPullInVolts(part, site.volts);
  const dropOut = resolve.relayDropOutVolts(part, site.volts);
  return site.element({
    name: 'coil',
    role: 'coil',
    a: site.at('86'),
    b: site.at('85'),
    law: ohmic(ohms),
    coil: { pullInVolts: pullIn.value, dropOutVolts: dropOut.value },
    from: [ohms, pullIn, dropOut],
  });
}

function contacts(part: PartOf<'relay'>, site: PartSite, common: string): readonly Element[] {
  return contactTerminals(part).map(({ terminal, when }) => {
    const ohms = resolve.contactOhms(part, when === 'released');
    return site.element({
      name: `30-${terminal}`,
      role: 'contact',
      a: common,
      b: site.at(terminal),
      law: ohmic(ohms),
      gates: [{ kind: 'coil', coil: site.id('coil'), when }],
      from: [ohms],
    });
  });
}

interface ContactTerminal {
  readonly terminal: string;
  readonly when: 'pulled' | 'released';
}

/** 87 and 87b make, 87a breaks: mini-relay practice with 30 as the common (DIN 72552). */
function contactTerminals(part: PartOf<'relay'>): readonly ContactTerminal[] {
  const makes: ContactTerminal = { terminal: '87', when: 'pulled' };
  const breaks: ContactTerminal = { terminal: '87a', when: 'released' };
  switch (part.contacts ?? 'make') {
    case 'make':
      return [makes];
    case 'break':
      return [breaks];
    case 'change-over':
      return [makes, breaks];
    case 'twin-make':
      return [makes, { terminal: '87b', when: 'pulled' }];
  }
}

function builtInFuse(part: PartOf<'relay'>, site: PartSite): readonly Element[] {
  if (part.fuseRatingAmps === undefined) return [];
  const ohms = fuseOhmsByRating(part.fuseRatingAmps, 'blade');
  return [
    site.element({
      name: 'fuse',
      role: 'fuse',
      a: site.at('30'),
      b: site.id('inner'),
      law: ohmic(ohms),
      gates: [{ kind: 'intact' }],
      protection: { ratingAmps: part.fuseRatingAmps, style: 'fuse' },
      from: [ohms],
    }),
  ];
}

/** Across the coil: a diode blocks while the fed terminal, its cathode, is positive. */
function suppressor(part: PartOf<'relay'>, site: PartSite): readonly Element[] {
  if (part.suppressor === undefined) return [];
  const cathode = part.suppressor.cathode ?? '86';
  const anode = cathode === '86' ? '85' : '86';
  return [
    site.element({
      name: 'suppressor',
      role: 'component',
      a: site.at(anode),
      b: site.at(cathode),
      ...suppressorLaw(part.suppressor, resolve.relayNominalVolts(part, site.volts)),
    }),
  ];
}
