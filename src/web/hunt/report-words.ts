// How a load can be wrong, in the words that a person taps; the common ones first.
// It must not leave out `works`: what still works is evidence too.

import type { FunctionReport } from './hunt-view.js';

export const commonReports: readonly (readonly [FunctionReport, string])[] = [
  ['dead', 'dead'],
  ['weak', 'weak or slow'],
  ['works', 'works'],
  ['stays-on', 'on when it should be off'],
  ['comes-and-goes', 'comes and goes'],
];

export const furtherReports: readonly (readonly [FunctionReport, string])[] = [
  ['runs-backwards', 'runs the wrong way'],
  ['too-bright', 'too bright'],
  ['flashes-fast', 'flashes fast'],
  ['flashes-slow', 'flashes slowly'],
  ['does-not-flash', 'does not flash'],
  ['reads-high', 'gauge reads high'],
  ['reads-low', 'gauge reads low'],
  ['reads-stuck', 'gauge is stuck'],
];

const all = new Map([...commonReports, ...furtherReports]);

export const reportWords = (report: FunctionReport): string => all.get(report) ?? report;
