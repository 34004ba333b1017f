// DIN 72552 terminals and trailer sockets against published allocations; and that the two tables agree.

import { describe, expect, it } from 'vitest';
import { parseColour } from '../../../src/core/units/colour.js';
import { DIN_72552_TERMINALS, terminalMeaning } from '../../../src/core/units/din72552.js';
import { ISO_1724, ISO_11446, socketPin, TRAILER_SOCKETS } from '../../../src/core/units/trailer-sockets.js';
import { parseWireSize } from '../../../src/core/units/wire-size.js';
import { readValue } from './support.js';

describe('terminalMeaning', () => {
  // Source: DIN 72552 as tabulated on secondary pages (seen); the word in the last column must appear.
  it.each([
    ['15', 'ignition'],
    ['30', 'always live'],
    ['31', 'ground'],
    ['31b', 'switch'],
    ['49', 'input'],
    ['49a', 'output'],
    ['50', 'starter'],
    ['53', 'wiper'],
    ['54', 'brake'],
    ['55', 'front fog'],
    ['56a', 'main beam'],
    ['56b', 'dipped'],
    ['58L', 'left tail'],
    ['58R', 'right tail'],
    ['61', 'charge'],
    ['85', 'coil'],
    ['86', 'coil'],
    ['87', 'closes'],
    ['87a', 'rest'],
    ['L', 'left indicators'],
    ['R', 'right indicators'],
  ])('%s: %s', (terminal, word) => {
    expect(terminalMeaning(terminal)).toMatchObject({ provenance: 'seen', meaning: expect.stringContaining(word) });
  });

  it('ignores capitals and blanks, and knows no invented terminal', () => {
    expect(terminalMeaning(' 58l ')?.terminal).toBe('58L');
    expect(terminalMeaning('b+')?.terminal).toBe('B+');
    expect(terminalMeaning('999')).toBeNull();
  });

  it('lists each terminal once', () => {
    const lower = DIN_72552_TERMINALS.map((entry) => entry.terminal.toLowerCase());
    expect(new Set(lower).size).toBe(lower.length);
  });
});

describe('trailer sockets', () => {
  // Source: ISO 11446-1:2012 contact allocation (seen on a secondary page): pin, word of its function, colour, mm².
  it.each([
    [1, 'left indicator', 'YE', 1.5],
    [2, 'rear fog', 'BU', 1.5],
    [3, 'return', 'WH', 2.5],
    [4, 'right indicator', 'GN', 1.5],
    [5, 'right tail', 'BN', 1.5],
    [6, 'brake', 'RD', 1.5],
    [7, 'left tail', 'BK', 1.5],
    [8, 'reversing', 'PK', 1.5],
    [9, 'permanent', 'OG', 2.5],
    [10, 'ignition', 'GY', 2.5],
    [11, 'return for pin 10', 'WH/BK', 2.5],
    [12, 'reserved', null, null],
    [13, 'return for pin 9', 'WH/RD', 2.5],
  ])('ISO 11446 pin %d: %s', (pin, word, colour, areaMm2) => {
    expect(socketPin(ISO_11446, pin)).toMatchObject({ function: expect.stringContaining(word), colour, areaMm2 });
  });

  // Source: ISO 1724:2003 contact allocation (seen on a secondary page).
  it.each([
    [1, 'left indicator', 'YE'],
    [2, 'rear fog', 'BU'],
    [3, 'return', 'WH'],
    [4, 'right indicator', 'GN'],
    [5, 'right tail', 'BN'],
    [6, 'brake', 'RD'],
    [7, 'left tail', 'BK'],
  ])('ISO 1724 pin %d: %s', (pin, word, colour) => {
    expect(socketPin(ISO_1724, pin)).toMatchObject({ function: expect.stringContaining(word), colour });
  });

  it('has 7 and 13 pins, numbered in order', () => {
    expect(ISO_1724.pins.map((entry) => entry.pin)).toEqual([1, 2, 3, 4, 5, 6, 7]);
    expect(ISO_11446.pins.map((entry) => entry.pin)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13]);
    expect(socketPin(ISO_1724, 8)).toBeNull();
  });

  it('speaks the same codes as the other tables', () => {
    for (const { pin, terminal, colour, areaMm2 } of TRAILER_SOCKETS.flatMap((socket) => socket.pins)) {
      if (terminal !== null) expect(terminalMeaning(terminal)?.terminal, `pin ${pin}`).toBe(terminal);
      if (colour !== null) expect(readValue(parseColour(colour)).text).toBe(colour);
      if (areaMm2 !== null) expect(readValue(parseWireSize(areaMm2)).areaMm2).toBe(areaMm2);
    }
  });

  it('sends every live pin back through a pin that is a return', () => {
    for (const socket of TRAILER_SOCKETS) {
      const returns = socket.pins.filter((entry) => entry.terminal === '31').map((entry) => entry.pin);
      for (const entry of socket.pins) {
        if (entry.returnPin === null) expect(returns.includes(entry.pin) || entry.colour === null).toBe(true);
        else expect(returns).toContain(entry.returnPin);
      }
    }
  });
});
