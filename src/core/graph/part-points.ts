// The points of a part that probes and wires meet, and the contacts of a plug-in part between its two sides.
// It must not add inner points; those belong to the expansions.

import type { Part } from '../record/part.js';
import { isPlugIn, type PointSpec } from '../record/points.js';
import { matingOhms } from '../record/resolve-joints.js';
import type { Element, Point } from './element.js';
import { accessOf, marksOf, ohmic, type PartSite } from './expand/part-site.js';

export function partPoint(part: Part, spec: PointSpec): Point {
  return {
    id: spec.address,
    role: spec.role,
    owner: part.address,
    terminal: spec.terminal,
    side: spec.side,
    probeable: isProbeable(part, spec),
    access: accessOf(part),
    location: part.location ?? null,
    panel: part.panel ?? null,
    marks: marksOf(part),
  };
}

/** Behind its contacts a plugged-in part hides its own terminals; a fuse shows them on its back (common practice). */
function isProbeable(part: Part, spec: PointSpec): boolean {
  return spec.side !== 'body' || part.kind === 'fuse';
}

/**
 * One contact per terminal of a plug-in part, harness side to part side, closed while the part is fitted. Made after the
 * part's own elements: a function keeps its name (`E2:tail`), the contact of terminal `tail` is then `E2:tail.mating`.
 */
export function plugInContacts(part: Part, specs: readonly PointSpec[], site: PartSite): readonly Element[] {
  if (!isPlugIn(part)) return [];
  const ohms = matingOhms(part);
  return specs
    .filter((spec) => spec.side === 'body' && spec.terminal !== null)
    .map((spec) =>
      site.element({
        name: spec.terminal ?? '',
        role: 'mating',
        a: `${part.address}/${spec.terminal}`,
        b: spec.address,
        law: ohmic(ohms),
        gates: [{ kind: 'mated', part: part.address }],
        from: [ohms],
      }),
    );
}
