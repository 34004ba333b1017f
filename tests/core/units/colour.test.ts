// Insulation colours by IEC 60757, and by the words of sheets in English, German, French and Spanish (common practice).

import { describe, expect, it } from 'vitest';
import { colourHex, parseColour, toWords } from '../../../src/core/units/colour.js';
import { COLOURS } from '../../../src/core/units/colour-words.js';
import { readRefusal, readValue } from './support.js';

describe('parseColour', () => {
  // Source: IEC 60757, table 1 (codes and colours).
  it.each([
    ['BK', 'black'],
    ['BN', 'brown'],
    ['RD', 'red'],
    ['OG', 'orange'],
    ['YE', 'yellow'],
    ['GN', 'green'],
    ['BU', 'blue'],
    ['VT', 'violet'],
    ['GY', 'grey'],
    ['WH', 'white'],
    ['PK', 'pink'],
    ['GD', 'gold'],
    ['TQ', 'turquoise'],
    ['SR', 'silver'],
  ])('code %s is %s', (code, word) => {
    expect(readValue(parseColour(code)).text).toBe(code);
    expect(readValue(parseColour(word)).text).toBe(code);
    expect(toWords(code)).toBe(word);
  });

  it('covers exactly the fourteen single codes of the standard', () => {
    expect(COLOURS).toHaveLength(14);
  });

  // Source: IEC 60757 joins the codes of one item without a mark: GNYE.
  it.each([
    ['GNYE', 'GN/YE'],
    ['RDBU', 'RD/BU'],
    ['rdbk', 'RD/BK'],
    ['BKRD', 'BK/RD'],
    ['RD/BK', 'RD/BK'],
    ['RD-BK', 'RD/BK'],
    ['RD BK', 'RD/BK'],
    ['red/black', 'RD/BK'],
    ['black/red', 'BK/RD'],
    ['BLK/WHT', 'BK/WH'],
    ['BLKWHT', 'BK/WH'],
    ['red with a black stripe', 'RD/BK'],
    ['Yellow w/ blue tracer', 'YE/BU'],
    ['rot/schwarz', 'RD/BK'],
    ['rt/sw', 'RD/BK'],
    ['grün-gelb', 'GN/YE'],
    ['grüngelb', 'GN/YE'],
    ['Weiß', 'WH'],
    ['rouge / noir', 'RD/BK'],
    ['bleu', 'BU'],
    ['marron/blanc', 'BN/WH'],
    ['rojo con negro', 'RD/BK'],
    ['rojo y negro', 'RD/BK'],
    ['marrón', 'BN'],
    ['purple', 'VT'],
    ['gray', 'GY'],
    ['RD/BK/WH', 'RD/BK/WH'],
    ['light green/white', 'light GN/WH'],
    ['LT GRN/WHT', 'light GN/WH'],
    ['vert clair/noir', 'light GN/BK'],
    ['azul oscuro', 'dark BU'],
    ['hellblau', 'light BU'],
    ['tan', 'light BN'],
  ])('reads %s as %s', (text, canonical) => {
    expect(readValue(parseColour(text)).text).toBe(canonical);
  });

  it('keeps base and stripe in their order', () => {
    expect(readValue(parseColour('YE/GN')).bands.map((band) => band.code)).toEqual(['YE', 'GN']);
    expect(readValue(parseColour('GN/YE')).bands.map((band) => band.code)).toEqual(['GN', 'YE']);
  });

  it.each([
    ['r/b', 'can mean red or pink'],
    ['b', 'can mean black, blue or brown'],
    ['W/Y', 'can mean white'],
    ['RD/Y', 'can mean yellow'],
    ['bl', 'can mean black or blue'],
    ['gr/ws', 'can mean green or grey'],
    ['blsw', 'can mean black or blue'],
    ['BK+BN', 'joins two wires'],
    ['RD/RD', 'one colour twice'],
    ['RD/BK/WH/GN', 'more than 3'],
    ['light', 'shade without a colour'],
    ['mud', 'no colour code'],
    ['///', 'names no colour'],
    ['', 'empty'],
  ])('refuses %s and says why', (text, reason) => {
    const refused = readRefusal(parseColour(text));
    expect(refused.reason).toContain(reason);
    expect(refused.accepted).toContain('RD/BK');
  });
});

describe('toWords', () => {
  it.each([
    ['RD/BK', 'red with black stripe'],
    ['RD/BK/WH', 'red with black and white stripes'],
    ['light GN/WH', 'light green with white stripe'],
    ['VT', 'violet'],
    ['no such colour', 'no such colour'],
  ])('says %s as "%s"', (text, words) => {
    expect(toWords(text)).toBe(words);
  });
});

describe('colourHex', () => {
  it('gives each code its own drawing colour', () => {
    const hexes = COLOURS.map((colour) => colourHex(colour.code));
    expect(new Set(hexes).size).toBe(COLOURS.length);
    for (const hex of hexes) expect(hex).toMatch(/^#[0-9a-f]{6}$/);
  });
});
