// Loads: one branch and one function entry per function, limit contacts, the case.
// It must not decide whether a function works; its thresholds are told, not tested.

import { contactTableOf } from '../../record/contact-tables.js';
import { figure } from '../../record/figure.js';
import type { PartOf } from '../../record/part.js';
import {
  deadBelowVolts,
  type LoadFunctionRecord,
  ratedAmps,
  ratedVolts,
  weakBelowVolts,
} from '../../record/resolve-loads.js';
import type { Element, LoadFunction } from '../element.js';
import { caseJoint } from './case-joint.js';
import { loadLaw } from './load-law.js';
import { type Expansion, expansion, marksOf, type PartSite } from './part-site.js';
import { positionContacts } from './switching.js';

export function expandLoad(part: PartOf<'load'>, site: PartSite): Expansion {
  const branches = part.functions.map((fn) => functionBranch(fn, site));
  return expansion([...branches, ...limitContacts(part, site), ...caseJoint(part, site)], {
    functions: part.functions.map((fn, i) => functionEntry(part, fn, branches[i], site)),
  });
}

function functionBranch(fn: LoadFunctionRecord, site: PartSite): Element {
  return site.element({
    name: fn.name,
    role: 'load',
    a: site.at(fn.feed ?? 'feed'),
    b: site.at(fn.return ?? 'return'),
    spreadRow: `load.${fn.law}`,
    ...loadLaw(fn, site.volts),
  });
}

function functionEntry(part: PartOf<'load'>, fn: LoadFunctionRecord, branch: Element, site: PartSite): LoadFunction {
  return {
    id: part.functions.length === 1 ? part.address : branch.id,
    part: part.address,
    name: fn.name,
    element: branch.id,
    feed: branch.a,
    return: branch.b,
    ratedVolts: ratedVolts(fn, site.volts),
    ratedAmps: ratedAmps(fn, site.volts).value,
    weakBelowVolts: weakBelowVolts(fn, site.volts).value,
    deadBelowVolts: deadBelowVolts(fn, site.volts).value,
    law: branch.law.kind,
    marks: marksOf(part),
  };
}

/** Park and limit contacts follow the movement; like a switch's they are named by the terminals that they join. */
function limitContacts(part: PartOf<'load'>, site: PartSite): readonly Element[] {
  return contactTableOf(part) === null
    ? []
    : positionContacts(part, site, figure(undefined, 'sensor-switch.contactOhms'));
}
