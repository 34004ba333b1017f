// Fuse, fusible link, breaker: one element that opens on too much current.
// It must not know at what current or when; the circuit settles that.

import { combine } from '../../record/figure.js';
import type { PartOf } from '../../record/part.js';
import {
  breakerOhms,
  fuseOhms,
  fusibleLinkLengthMetres,
  fusibleLinkRatingAmps,
} from '../../record/resolve-protection.js';
import type { Gate } from '../element.js';
import { wireSizeOf } from '../wire-ohms.js';
import { type Expansion, expansion, ohmic, type PartSite } from './part-site.js';

const INTACT: Gate = { kind: 'intact' };

/** A bolted fuse has no contacts that part, so being fitted is a gate of the link itself. */
export function expandFuse(part: PartOf<'fuse'>, site: PartSite): Expansion {
  const ohms = fuseOhms(part);
  const fitted: readonly Gate[] = site.isPlugIn ? [] : [{ kind: 'mated', part: part.address }];
  return expansion([
    site.element({
      name: 'link',
      role: 'fuse',
      a: site.at('in'),
      b: site.at('out'),
      law: ohmic(ohms),
      gates: [INTACT, ...fitted],
      protection: { ratingAmps: part.ratingAmps, style: 'fuse' },
      from: [ohms],
    }),
  ]);
}

/** A short thin conductor, at 20 °C as all tables are. */
export function expandFusibleLink(part: PartOf<'fusible-link'>, site: PartSite): Expansion {
  const size = wireSizeOf(part.size);
  const length = fusibleLinkLengthMetres(part);
  const rating = fusibleLinkRatingAmps(part, size.areaMm2);
  return expansion([
    site.element({
      name: 'link',
      role: 'fuse',
      a: site.at('in'),
      b: site.at('out'),
      law: ohmic(combine([length], (metres) => metres * size.resistanceOhmsPerMetre)),
      gates: [INTACT],
      protection: { ratingAmps: rating.value, style: 'fusible-link' },
      from: [length, rating],
      spreadRow: 'conductor',
    }),
  ]);
}

export function expandBreaker(part: PartOf<'breaker'>, site: PartSite): Expansion {
  const ohms = breakerOhms(part);
  return expansion([
    site.element({
      name: 'link',
      role: 'contact',
      a: site.at('in'),
      b: site.at('out'),
      law: ohmic(ohms),
      gates: [INTACT],
      protection: { ratingAmps: part.ratingAmps, style: part.reset ?? 'manual' },
      from: [ohms],
    }),
  ]);
}
