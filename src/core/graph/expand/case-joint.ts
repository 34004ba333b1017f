// A part whose case is screwed to a body: the mounting joint is an element that can fail.
// It must not decide which function returns through the case.

import { caseJointOhms } from '../../record/resolve-joints.js';
import type { Element } from '../element.js';
import { ohmic, type PartSite } from './part-site.js';

interface WithCase {
  readonly caseOn?: string | undefined;
}

/** Terminal that a part with an optional case returns through: 31 is the return to the battery in DIN 72552. */
export function groundTerminal(part: WithCase): 'case' | '31' {
  return part.caseOn === undefined ? '31' : 'case';
}

/** The joint from terminal `case` to the body, if the part has one. */
export function caseJoint(part: WithCase, site: PartSite): readonly Element[] {
  if (part.caseOn === undefined) return [];
  const ohms = caseJointOhms(site.part);
  return [
    site.element({ name: 'case', role: 'joint', a: site.at('case'), b: part.caseOn, law: ohmic(ohms), from: [ohms] }),
  ];
}
