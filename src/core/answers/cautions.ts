/**
 * The trade's cautions as data: one table, attached by what a question touches. All of it yields to the maker's
 * procedure, local codes and licensed practice (common practice throughout).
 */
import type { Mark } from '../record/kinds/common.js';
import type { Caution } from './shapes/common.js';

const CAUTIONS = {
  'maker-first': 'The maker’s procedure, local codes and licensed practice come first; this is a hint, not permission.',
  'live-work':
    'Circuit is live: one slip of a probe can short an unfused point. Rings and watch off, insulated probe tips.',
  'live-pins':
    'Pins stay live on the open half: cap or tape them, keep them off metal, or switch the battery off first.',
  'unfused-live':
    'A live point has no fuse behind it: a short there is limited by the battery alone and can burn. Battery off before work on it.',
  'battery-off':
    'Battery negative off first and back on last; ask first about modules that must sleep and stored codes.',
  'ohms-dead-only':
    'Ohms and continuity only on a dead circuit, with the battery off and both ends parted where a second path exists.',
  'pull-by-housing':
    'Pull the plug by its housing, never by the wires, with the function switched off where it can be.',
  'moving-parts':
    'A motor or winch can start: keep hands, hair and clothing clear; take the key out while hands are in.',
  'hot-parts': 'Lamps, heaters, motors and exhaust are hot after use.',
  'battery-gas': 'No sparks at a battery under charge, at the tank, filler or fuel pump.',
  'fuse-size': 'Never fit a larger fuse than recorded; a blown fuse is a finding, not a nuisance.',
  restraint:
    'Restraint circuit: not probed, not measured in ohms, not unplugged on advice of this tool. Maker’s procedure and trained people only.',
  'high-voltage':
    'High-voltage circuit: trained people, maker’s isolation, prove dead with a rated meter. No step is offered here.',
  mains: 'Mains circuit: licensed electricians only. No step is offered here.',
  spark: 'Ignition spark circuit: high voltage even at low supply. No probing step is offered here.',
  'movement-interlock': 'Movement interlock: never link it out; the machine can move.',
  'data-bus':
    'Data-bus pair: no test lamp and no load on it; only the ohms across, with power off, mean anything to a meter.',
} as const;

export type CautionCode = keyof typeof CAUTIONS;

/** The caution with its text. */
export function caution(code: CautionCode): Caution {
  return { code, text: CAUTIONS[code] };
}

/** Cautions in table order without repeats, `maker-first` always last. */
export function cautions(codes: Iterable<CautionCode>): Caution[] {
  const wanted = new Set(codes);
  wanted.delete('maker-first');
  const listed = (Object.keys(CAUTIONS) as CautionCode[]).filter((code) => wanted.has(code));
  return [...listed, 'maker-first' as const].map(caution);
}

/** Marks that no plan, check or link may touch. */
export const FORBIDDEN_MARKS: ReadonlySet<Mark> = new Set(['restraint', 'high-voltage', 'mains', 'spark']);

/** Whether probing is refused because of these marks. */
export function isForbidden(marks: readonly Mark[]): boolean {
  return marks.some((mark) => FORBIDDEN_MARKS.has(mark));
}

export const allCautionCodes = Object.keys(CAUTIONS) as readonly CautionCode[];
