// Keeps out of the repository what binds it to one machine or leaves work undone: absolute paths, promises in comments.
// It must not hold the words it looks for, or it would find itself.

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readTree, repositoryRoot, type TextFile } from './read-modules.js';

const endings = ['.ts', '.tsx', '.json', '.md', '.csv', '.html', '.css', '.mjs', '.cjs'];

/** Words that stand for work not done, put together so that this file does not hold them. */
const promises = new RegExp(`\\b(${['TO' + 'DO', 'FIX' + 'ME', 'XX' + 'X'].join('|')})\\b`);

/** Folders of one person's or one job's machine. Places where Debian puts programs (/usr/bin) are not among them. */
const machineFolders = ['wo' + 'rk', 'tm' + 'p', 'ho' + 'me', 'ro' + 'ot', 'Us' + 'ers'];
const machinePath = new RegExp(`(^|[\\s'"\`(=:,\\[])(file://)?/(${machineFolders.join('|')})/`);

function linesMatching(files: readonly TextFile[], pattern: RegExp): string[] {
  return files.flatMap(({ file, text }) =>
    text
      .split('\n')
      .map((line, index) => ({ line, at: `${file}:${index + 1}` }))
      .filter(({ line }) => pattern.test(line))
      .map(({ line, at }) => `${at} ${line.trim().slice(0, 100)}`),
  );
}

describe('what is committed', () => {
  const files = ['src', 'tests', 'fixtures', 'openapi', '.ci'].flatMap((folder) => readTree(folder, endings));

  it('is there to be read', () => {
    expect(files.length).toBeGreaterThan(0);
  });

  it('leaves no promise in src or tests', () => {
    const code = files.filter(({ file }) => file.startsWith('src/') || file.startsWith('tests/'));
    expect(linesMatching(code, promises)).toEqual([]);
  });

  it('names no folder of one machine', () => {
    expect(linesMatching(files, machinePath)).toEqual([]);
  });

  it('locks packages without a host of their own', () => {
    const lock = readFileSync(join(repositoryRoot, 'package-lock.json'), 'utf8');
    const hosts = [...lock.matchAll(/"resolved": "([a-z+]+:\/*[^/"]*)/g)].map((match) => match[1]);
    expect(hosts.filter((host) => host !== 'https://registry.npmjs.org')).toEqual([]);
    expect(linesMatching([{ file: 'package-lock.json', text: lock }], machinePath)).toEqual([]);
  });
});

describe('the word rules themselves', () => {
  const findsIn = (text: string, pattern: RegExp): number => linesMatching([{ file: 'x', text }], pattern).length;

  it('find a promise and a machine folder', () => {
    expect(findsIn(`ok\n// ${'TO' + 'DO'} later`, promises)).toBe(1);
    expect(findsIn(`open('/${'tm' + 'p'}/x.json')`, machinePath)).toBe(1);
    expect(findsIn(`path: file:///${'ho' + 'me'}/someone/x`, machinePath)).toBe(1);
  });

  it('leave the API and ordinary words alone', () => {
    expect(findsIn(`get('/api/harnesses/1')`, machinePath)).toBe(0);
    expect(findsIn('net/work/on', machinePath)).toBe(0);
    expect(findsIn('a method', promises)).toBe(0);
  });
});
