// Bytes of sheets as spreadsheets really write them.
// Byte values: the Unicode and windows-1252 code charts (0xE4 ä, 0xB2 ², 0x80 €, 0x96 –, 0x9F Ÿ in windows-1252), from memory.

import { describe, expect, it } from 'vitest';
import { decodeSheet } from '../../src/service/decode-sheet.js';

const bytes = (...values: number[]): Uint8Array => Uint8Array.from(values);

describe('a sheet`s bytes', () => {
  it('are read as UTF-8 where they are that', () => {
    expect(decodeSheet(new TextEncoder().encode('0.75 mm², grün'))).toEqual({
      text: '0.75 mm², grün',
      encoding: 'utf-8',
    });
  });

  it('are read as windows-1252 where they cannot be UTF-8', () => {
    expect(decodeSheet(bytes(0x6d, 0x6d, 0xb2, 0x20, 0xe4, 0x80, 0x96, 0x9f))).toEqual({
      text: 'mm² ä€–Ÿ',
      encoding: 'windows-1252',
    });
  });

  it('lose their mark of UTF-8 and of UTF-16 in both orders', () => {
    expect(decodeSheet(bytes(0xef, 0xbb, 0xbf, 0x61)).text).toBe('a');
    expect(decodeSheet(bytes(0xff, 0xfe, 0x61, 0x00, 0xe4, 0x00))).toEqual({ text: 'aä', encoding: 'utf-16' });
    expect(decodeSheet(bytes(0xfe, 0xff, 0x00, 0x61, 0x00, 0xe4))).toEqual({ text: 'aä', encoding: 'utf-16' });
  });

  it('may be none', () => {
    expect(decodeSheet(bytes())).toEqual({ text: '', encoding: 'utf-8' });
  });
});
