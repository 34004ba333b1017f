// The contact table of every part that stands in positions: switch, master switch, sensor switch, load with limit contacts.
// It must not know which position a state has set, nor any resistance.

import type { Part, PartOf } from './part.js';

interface ContactPosition {
  readonly name: string;
  /** Sets of terminals that are joined while the part stands here. */
  readonly joins: readonly (readonly string[])[];
  readonly momentary: boolean;
}

export interface ContactTable {
  readonly positions: readonly ContactPosition[];
  /** Position when a state does not say. */
  readonly rest: string;
}

type SwitchStyle = NonNullable<PartOf<'switch'>['style']>;

const position = (name: string, joins: readonly (readonly string[])[], momentary = false): ContactPosition => ({
  name,
  joins,
  momentary,
});

/**
 * What a style joins when the record gives no table. Ignition: DIN 72552 numbers 30, 15, 50, 75, common practice. A rotary
 * switch has no typical table and must be written out.
 */
const STYLE_TABLES: Readonly<Record<Exclude<SwitchStyle, 'rotary'>, readonly ContactPosition[]>> = {
  'on-off': [position('off', []), position('on', [['1', '2']])],
  momentary: [position('off', []), position('on', [['1', '2']], true)],
  'change-over': [position('2', [['1', '2']]), position('3', [['1', '3']])],
  ignition: [
    position('off', []),
    position('accessory', [['30', '75']]),
    position('on', [['30', '15', '75']]),
    position('start', [['30', '15', '50']], true),
  ],
};

/** The contact table of a part, or null when it stands in no positions. A rotary switch without positions has none. */
export function contactTableOf(part: Part): ContactTable | null {
  switch (part.kind) {
    case 'switch':
      return switchTable(part);
    case 'master-switch':
      return { positions: [position('off', []), position('on', [['1', '2']])], rest: part.rest ?? 'on' };
    case 'sensor-switch': {
      const second = part.caseOn === undefined ? '2' : 'case';
      return { positions: [position('open', []), position('closed', [['1', second]])], rest: part.rest ?? 'open' };
    }
    case 'load':
      return limitTable(part);
    default:
      return null;
  }
}

function switchTable(part: PartOf<'switch'>): ContactTable | null {
  const positions = switchPositions(part);
  const first = positions[0];
  return first === undefined ? null : { positions, rest: part.rest ?? first.name };
}

function switchPositions(part: PartOf<'switch'>): readonly ContactPosition[] {
  if (part.positions !== undefined) {
    return part.positions.map(({ name, joins, momentary }) => position(name, joins, momentary ?? false));
  }
  const style = part.style ?? 'on-off';
  return style === 'rotary' ? [] : STYLE_TABLES[style];
}

function limitTable(part: PartOf<'load'>): ContactTable | null {
  const contacts = part.limitContacts ?? [];
  const names = [...new Set(contacts.flatMap((contact) => contact.closedIn))];
  // A contact closed in one position is open in another, even where nobody named that one.
  if (names.length === 1) names.push('away');
  if (part.rest !== undefined && !names.includes(part.rest) && names.length > 0) names.push(part.rest);
  const first = names[0];
  if (first === undefined) return null;
  const positions = names.map((name) =>
    position(
      name,
      contacts.filter((contact) => contact.closedIn.includes(name)).map((contact) => contact.between),
    ),
  );
  return { positions, rest: part.rest ?? first };
}
