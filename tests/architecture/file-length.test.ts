// Holds every source file to 400 lines and to a comment at its head that says what it is for.
// It must not exempt code: the list below is for tables of data only.

import { describe, expect, it } from 'vitest';
import { generatedFiles, readTree } from './read-modules.js';

const hardLimitLines = 400;

/** Data tables longer than the limit, each with the reason. */
const longTables: ReadonlyMap<string, string> = new Map<string, string>([]);

const lineCount = (text: string): number => text.split('\n').length - (text.endsWith('\n') ? 1 : 0);

const files = readTree('src', ['.ts', '.tsx']).filter(({ file }) => !generatedFiles.includes(file));

describe('source files', () => {
  it('are there to be measured', () => {
    expect(files.length).toBeGreaterThan(0);
  });

  it(`stay within ${hardLimitLines} lines`, () => {
    const tooLong = files
      .filter(({ file, text }) => lineCount(text) > hardLimitLines && !longTables.has(file))
      .map(({ file, text }) => `${file}: ${lineCount(text)} lines`);
    expect(tooLong).toEqual([]);
  });

  it('are exempt only while they exist and need it', () => {
    const stale = [...longTables.keys()].filter(
      (exempt) => !files.some(({ file, text }) => file === exempt && lineCount(text) > hardLimitLines),
    );
    expect(stale).toEqual([]);
  });

  it('begin with a comment that says what they are for', () => {
    expect(files.filter(({ text }) => !/^(\/\/|\/\*)/.test(text)).map(({ file }) => file)).toEqual([]);
  });

  it('are named in kebab case', () => {
    const name = /^[a-z0-9]+(-[a-z0-9]+)*(\.d)?\.tsx?$/;
    expect(files.map(({ file }) => file).filter((file) => !name.test(file.split('/').pop() ?? ''))).toEqual([]);
  });
});

describe('the line count', () => {
  it('counts a last line with and without its newline the same', () => {
    expect(lineCount('a\nb\n')).toBe(2);
    expect(lineCount('a\nb')).toBe(2);
  });
});
