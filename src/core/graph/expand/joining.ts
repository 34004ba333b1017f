// What joins wires and metal: connector, splice, busbar, ground stud and block, body, strap, accidental tie.
// It must not join two bodies by itself: only straps and ties do.

import { figure } from '../../record/figure.js';
import type { PartOf } from '../../record/part.js';
import * as resolve from '../../record/resolve-joints.js';
import { terminalsOf } from '../../record/terminals.js';
import type { Element } from '../element.js';
import { type Expansion, expansion, ohmic, type PartSite } from './part-site.js';

/** A contact per cavity, and the bridges from cavity to cavity within one half. */
export function expandConnector(part: PartOf<'connector'>, site: PartSite): Expansion {
  const ohms = resolve.matingOhms(part);
  const contacts = terminalsOf(part).map((cavity) =>
    site.element({
      name: cavity,
      role: 'mating',
      a: `${part.address}.plug/${cavity}`,
      b: `${part.address}.receptacle/${cavity}`,
      law: ohmic(ohms),
      gates: [{ kind: 'mated', part: part.address }],
      from: [ohms],
    }),
  );
  return expansion([...contacts, ...bridges(part, site)]);
}

function bridges(part: PartOf<'connector'>, site: PartSite): readonly Element[] {
  const ohms = figure(undefined, 'mating.bridge.ohms');
  return (part.bridges ?? []).flatMap(({ half, cavities: [first, ...others] }) =>
    others.map((other) =>
      site.element({
        name: `${half}.${first}.${other}`,
        role: 'bridge',
        a: `${part.address}.${half}/${first}`,
        b: `${part.address}.${half}/${other}`,
        law: ohmic(ohms),
        from: [ohms],
      }),
    ),
  );
}

/** A splice or a body is one point: what joins it belongs to the wires, studs and straps. */
export function expandSinglePoint(): Expansion {
  return expansion([]);
}

export function expandBusbar(part: PartOf<'busbar'>, site: PartSite): Expansion {
  return expansion(barLegs(part, site));
}

export function expandGround(part: PartOf<'ground'>, site: PartSite): Expansion {
  return expansion(studToBody(part, site, part.on), { inner: [site.inner('inner')] });
}

/** Legs on a bar; with `on` the bar is itself a stud on a body. */
export function expandGroundBlock(part: PartOf<'ground-block'>, site: PartSite): Expansion {
  if (part.on === undefined) return expansion(barLegs(part, site));
  return expansion([...barLegs(part, site), ...studToBody(part, site, part.on)], { inner: [site.inner('inner')] });
}

function barLegs(part: PartOf<'busbar'> | PartOf<'ground-block'>, site: PartSite): readonly Element[] {
  const ohms = resolve.barLegOhms(part);
  return terminalsOf(part).map((terminal) =>
    site.element({
      name: terminal,
      role: 'metal',
      a: site.at(terminal),
      b: part.address,
      law: ohmic(ohms),
      from: [ohms],
    }),
  );
}

/** Paint and bolt first, then the metal as far as the middle of the body. */
function studToBody(part: PartOf<'ground'> | PartOf<'ground-block'>, site: PartSite, body: string): readonly Element[] {
  const joint = resolve.groundJointOhms(part);
  const path = resolve.groundPathOhms(part);
  const inner = site.id('inner');
  return [
    site.element({ name: 'joint', role: 'joint', a: part.address, b: inner, law: ohmic(joint), from: [joint] }),
    site.element({ name: 'metal', role: 'metal', a: inner, b: body, law: ohmic(path), from: [path] }),
  ];
}

export function expandStrap(part: PartOf<'strap'>, site: PartSite): Expansion {
  const braid = resolve.strapOhms(part);
  const joint = resolve.strapJointOhms(part);
  const [first, second] = part.between;
  return expansion([
    site.element({ name: 'joint1', role: 'joint', a: first, b: site.at('1'), law: ohmic(joint), from: [joint] }),
    site.element({
      name: 'strap',
      role: 'metal',
      a: site.at('1'),
      b: site.at('2'),
      law: ohmic(braid),
      from: [braid],
    }),
    site.element({ name: 'joint2', role: 'joint', a: site.at('2'), b: second, law: ohmic(joint), from: [joint] }),
  ]);
}

export function expandTie(part: PartOf<'tie'>, site: PartSite): Expansion {
  const ohms = resolve.tieOhms(part);
  const [a, b] = part.between;
  return expansion([site.element({ name: 'tie', role: 'tie', a, b, law: ohmic(ohms), from: [ohms] })]);
}
