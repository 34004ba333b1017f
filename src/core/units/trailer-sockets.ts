// Pin functions of the trailer sockets of ISO 1724 (7 pins) and ISO 11446 (13 pins), with core colours and sizes.
// Data only; a real trailer is what its builder made of it, so a record always holds its own pins.

import type { TableSource } from './wire-tables.js';

export interface SocketPin {
  readonly pin: number;
  readonly function: string;
  /** DIN 72552 terminal that the pin carries, where there is one. */
  readonly terminal: string | null;
  /** Core colour in IEC 60757 codes, base/stripe; null where none is laid down. */
  readonly colour: string | null;
  readonly areaMm2: number | null;
  /** Pin that returns this pin's current; null on returns and where nothing is connected. */
  readonly returnPin: number | null;
}

export interface TrailerSocket {
  readonly id: 'iso1724' | 'iso11446';
  readonly name: string;
  readonly source: TableSource;
  readonly pins: readonly SocketPin[];
  readonly notes: readonly string[];
}

const LEFT_TAIL = 'left tail, side and number plate lamps';
const RIGHT_TAIL = 'right tail, side and number plate lamps';

export const ISO_1724: TrailerSocket = {
  id: 'iso1724',
  name: '7-pin socket, 12 V (ISO 1724)',
  source: { standard: 'ISO 1724:2003', provenance: 'seen', note: 'contact allocation read on a secondary page' },
  pins: [
    { pin: 1, function: 'left indicator', terminal: 'L', colour: 'YE', areaMm2: null, returnPin: 3 },
    { pin: 2, function: 'rear fog lamp', terminal: '54g', colour: 'BU', areaMm2: null, returnPin: 3 },
    { pin: 3, function: 'return for all pins', terminal: '31', colour: 'WH', areaMm2: null, returnPin: null },
    { pin: 4, function: 'right indicator', terminal: 'R', colour: 'GN', areaMm2: null, returnPin: 3 },
    { pin: 5, function: RIGHT_TAIL, terminal: '58R', colour: 'BN', areaMm2: null, returnPin: 3 },
    { pin: 6, function: 'brake lamps', terminal: '54', colour: 'RD', areaMm2: null, returnPin: 3 },
    { pin: 7, function: LEFT_TAIL, terminal: '58L', colour: 'BK', areaMm2: null, returnPin: 3 },
  ],
  notes: ['No lamp may be joined to both pin 5 and pin 7.'],
};

export const ISO_11446: TrailerSocket = {
  id: 'iso11446',
  name: '13-pin socket, 12 V (ISO 11446)',
  source: {
    standard: 'ISO 11446-1:2012',
    provenance: 'seen',
    note: 'contact allocation read on a secondary page; core colours of pins 8 to 13 differ between pages',
  },
  pins: [
    { pin: 1, function: 'left indicator', terminal: 'L', colour: 'YE', areaMm2: 1.5, returnPin: 3 },
    { pin: 2, function: 'rear fog lamp', terminal: '54g', colour: 'BU', areaMm2: 1.5, returnPin: 3 },
    { pin: 3, function: 'return for pins 1 to 8', terminal: '31', colour: 'WH', areaMm2: 2.5, returnPin: null },
    { pin: 4, function: 'right indicator', terminal: 'R', colour: 'GN', areaMm2: 1.5, returnPin: 3 },
    { pin: 5, function: RIGHT_TAIL, terminal: '58R', colour: 'BN', areaMm2: 1.5, returnPin: 3 },
    { pin: 6, function: 'brake lamps', terminal: '54', colour: 'RD', areaMm2: 1.5, returnPin: 3 },
    { pin: 7, function: LEFT_TAIL, terminal: '58L', colour: 'BK', areaMm2: 1.5, returnPin: 3 },
    { pin: 8, function: 'reversing lamps', terminal: null, colour: 'PK', areaMm2: 1.5, returnPin: 3 },
    { pin: 9, function: 'permanent positive', terminal: '30', colour: 'OG', areaMm2: 2.5, returnPin: 13 },
    {
      pin: 10,
      function: 'positive switched by the ignition',
      terminal: '15',
      colour: 'GY',
      areaMm2: 2.5,
      returnPin: 11,
    },
    { pin: 11, function: 'return for pin 10', terminal: '31', colour: 'WH/BK', areaMm2: 2.5, returnPin: null },
    {
      pin: 12,
      function: 'reserved; trailer recognition in practice',
      terminal: null,
      colour: null,
      areaMm2: null,
      returnPin: null,
    },
    { pin: 13, function: 'return for pin 9', terminal: '31', colour: 'WH/RD', areaMm2: 2.5, returnPin: null },
  ],
  notes: ['The three returns (3, 11, 13) must not be joined on the trailer.'],
};

export const TRAILER_SOCKETS: readonly TrailerSocket[] = [ISO_1724, ISO_11446];

/** The allocation of one pin, or null where the socket has no such pin. */
export function socketPin(socket: TrailerSocket, pin: number): SocketPin | null {
  return socket.pins.find((entry) => entry.pin === pin) ?? null;
}
