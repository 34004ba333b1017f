// Terminal numbers of DIN 72552 with their meaning, for labels, relay sockets and what a person reads off a part.
// Data and look-up only; it must not decide how a relay is wired: the record's contact table does.

import type { Provenance } from './wire-tables.js';

export interface TerminalMeaning {
  /** As printed on parts: 30, 31b, 58L, B+. */
  readonly terminal: string;
  readonly meaning: string;
  readonly provenance: Provenance;
}

export const DIN_72552_SOURCE = 'DIN 72552, meanings in own words; seen in secondary tables or recalled, as marked';

type Row = readonly [terminal: string, meaning: string];

const SEEN: readonly Row[] = [
  ['1', 'ignition coil or distributor, low-voltage side'],
  ['4', 'ignition coil or distributor, high-voltage output'],
  ['15', 'battery positive switched by the ignition'],
  ['30', 'battery positive, always live'],
  ['31', 'return to battery negative, or ground'],
  ['31b', 'return to battery negative or ground through a switch'],
  ['49', 'flasher unit, input'],
  ['49a', 'flasher unit, output'],
  ['50', 'starter control'],
  ['53', 'wiper motor, positive feed'],
  ['54', 'brake lamps'],
  ['54g', 'rear fog lamp (trailer pin 2)'],
  ['55', 'front fog lamps'],
  ['56', 'headlamp feed'],
  ['56a', 'main beam'],
  ['56b', 'dipped beam'],
  ['57a', 'parking lamps'],
  ['58L', 'left tail and side lamps'],
  ['58R', 'right tail and side lamps, number plate'],
  ['61', 'charge warning lamp'],
  ['85', 'relay coil, negative side'],
  ['86', 'relay coil, positive side'],
  ['87', 'relay output that closes when the coil is energised, with 30 as common'],
  ['87a', 'relay output that is closed while the coil is at rest'],
  ['L', 'left indicators'],
  ['R', 'right indicators'],
];

const FROM_MEMORY: readonly Row[] = [
  ['15a', 'ignition feed through a ballast resistor'],
  ['17', 'glow plug switch, start'],
  ['19', 'glow plug switch, preheat'],
  ['30a', 'positive of a second battery at the 12/24 V change-over'],
  ['31a', 'negative of a second battery at the 12/24 V change-over'],
  ['45', 'output of a separate starter relay'],
  ['49b', 'flasher unit, second circuit'],
  ['49c', 'flasher unit, third circuit'],
  ['50a', 'output of the battery change-over to start'],
  ['51', 'alternator, direct current at the rectifier'],
  ['53a', 'wiper motor, positive for self-parking'],
  ['53b', 'wiper motor, shunt winding or second speed'],
  ['53c', 'washer pump'],
  ['53e', 'wiper motor, brake winding'],
  ['56d', 'headlamp flasher contact'],
  ['57', 'side lamps'],
  ['57L', 'left parking lamp'],
  ['57R', 'right parking lamp'],
  ['58', 'side, tail, number plate and instrument lamps'],
  ['58d', 'dimmed instrument lamps'],
  ['71', 'horn relay, input'],
  ['81', 'change-over contact, common'],
  ['81a', 'change-over contact, first output'],
  ['81b', 'change-over contact, second output'],
  ['87b', 'second output that closes when the coil is energised'],
  ['88', 'relay contact that closes, as the standard itself numbers it'],
  ['88a', 'relay contact that closes, first output, as the standard itself numbers it'],
  ['B+', 'battery positive; alternator main output'],
  ['B-', 'battery negative'],
  ['D+', 'alternator, auxiliary diodes: charge lamp and field supply'],
  ['D-', 'alternator, negative'],
  ['DF', 'alternator field'],
  ['C', 'indicator pilot lamp, towing vehicle'],
  ['C2', 'indicator pilot lamp, trailer'],
];

function rows(list: readonly Row[], provenance: Provenance): TerminalMeaning[] {
  return list.map(([terminal, meaning]) => ({ terminal, meaning, provenance }));
}

/** Every terminal covered, those seen in print first. */
export const DIN_72552_TERMINALS: readonly TerminalMeaning[] = [...rows(SEEN, 'seen'), ...rows(FROM_MEMORY, 'memory')];

/**
 * Where practice and the standard part: on the small plug-in relay 30 is the common, 87 makes and 87a breaks; the
 * standard's own text is recalled to number a relay's break input 87 and its make output 88. 85 and 86 may be swapped
 * unless a diode lies across the coil.
 */
export const RELAY_NUMBERING_NOTE =
  'On plug-in relays 30 is the common, 87 makes and 87a breaks (common practice); the standard itself is recalled to use 88 for a make contact.';

const BY_TERMINAL: ReadonlyMap<string, TerminalMeaning> = new Map(
  DIN_72552_TERMINALS.map((entry) => [entry.terminal.toLowerCase(), entry]),
);

/** The meaning of a terminal number, capitals ignored; null where the standard has none that we know. */
export function terminalMeaning(terminal: string): TerminalMeaning | null {
  return BY_TERMINAL.get(terminal.trim().toLowerCase()) ?? null;
}
