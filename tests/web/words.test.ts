// Figures, colours, addresses and field names as the page says them.
// Display of a meter of 6,000 counts: common practice of hand-held meters. Colour codes: IEC 60757.

import { describe, expect, it } from 'vitest';
import { compareAddresses, halfOf, partOfPoint, terminalOf } from '../../src/web/words/addresses.js';
import { colourShades, colourWords } from '../../src/web/words/colours.js';
import { fieldWords, valueWords } from '../../src/web/words/field-words.js';
import { ampsText, bandText, ohmsText, shareText, voltsText } from '../../src/web/words/figures.js';
import { readFigure } from '../../src/web/words/read-figure.js';

const plain = (text: string | null): string | null => text?.replaceAll('\u00a0', ' ') ?? null;

describe('figures', () => {
  it.each([
    [12.4349, '12.43 V'],
    [5.0004, '5.000 V'],
    [0.4123, '412 mV'],
    [0.0042, '4.2 mV'],
    [-0.00001, '0.0 mV'],
    [-12.6, '−12.60 V'],
    [null, 'floats'],
  ])('shows %s V as a meter does', (volts, text) => expect(plain(voltsText(volts))).toBe(text));

  it.each([
    [4.876, '4.88 A'],
    [48.76, '48.8 A'],
    [159.4, '159 A'],
    [0.159, '159 mA'],
    [0, '0 A'],
  ])('shows %s A', (amps, text) => expect(plain(ampsText(amps))).toBe(text));

  it.each([
    [0.02, '20.0 mΩ'],
    [4.7, '4.70 Ω'],
    [47_000, '47.00 kΩ'],
    [10e6, '10.00 MΩ'],
    [null, 'OL'],
  ])('shows %s Ω', (ohms, text) => expect(plain(ohmsText(ohms))).toBe(text));

  it('says a band only where there is one', () => {
    expect(plain(bandText({ low: 11.9, high: 12.1 }))).toBe('11.90 V to 12.10 V');
    expect(bandText({ low: null, high: null })).toBeNull();
  });

  it('says shares of the current', () => {
    expect(shareText(1)).toBe('all of the current');
    expect(shareText(0.953)).toBe('95 % of the current');
    expect(shareText(0.004)).toBe('0.4 % of the current');
  });
});

describe('readFigure', () => {
  it.each([
    ['12.31', 12.31, null],
    ['minus 0,4', -0.4, null],
    ['−3', -3, null],
    ['40 mV', 40, 1e-3],
    ['40 millivolts', 40, 1e-3],
    ['12 point 3 volts', 12.3, 1],
    ['4.7 kΩ', 4.7, 1e3],
    ['.5', 0.5, null],
  ])('takes %s', (text, value, factor) => expect(readFigure(text)).toEqual({ value, factor }));

  it.each(['', '-', '1.2.3', 'twelve', '12 V 3', '1e3', 'NaN', 'Infinity'])('refuses %j', (text) =>
    expect(readFigure(text)).toBeNull(),
  );
});

describe('colours', () => {
  it('says base and stripe in words', () => {
    expect(colourWords('RD/BK')).toBe('red with black stripe');
    expect(colourWords('light GN/WH')).toBe('light green with white stripe');
    expect(colourWords('BU')).toBe('blue');
    expect(colourWords(undefined)).toBe('colour not recorded');
  });

  it('draws only what it can read', () => {
    expect(colourShades('RD/BK')).toHaveLength(2);
    expect(colourShades('striped')).toEqual([]);
  });
});

describe('addresses', () => {
  it('finds part, half and terminal', () => {
    expect(['X4.plug/3', 'K2.body/87', 'SP1', 'L12:from'].map(partOfPoint)).toEqual(['X4', 'K2', 'SP1', 'L12']);
    expect(['X4.plug/3', 'SP1'].map(terminalOf)).toEqual(['3', null]);
    expect(['X4.plug/3', 'K2/87'].map(halfOf)).toEqual(['plug', null]);
  });

  it('sorts numbers as numbers', () => {
    expect(['X10', 'X2', 'x1'].sort(compareAddresses)).toEqual(['x1', 'X2', 'X10']);
  });
});

describe('field names', () => {
  it('become words with units', () => {
    expect(['lengthMetres', 'contactRatingAmps', 'capacityAmpHours', 'name'].map(fieldWords)).toEqual([
      'Length (m)',
      'Contact rating (A)',
      'Capacity (Ah)',
      'Name',
    ]);
    expect(valueWords({ contacts: 'pins', spare: ['1', '2'] })).toBe('contacts pins, spare 1, 2');
  });
});
