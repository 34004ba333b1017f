// What can be wrong with a load, fuse, relay, battery or part, in the words that a person taps; and the symptom that each is sent as.
// It must not leave out `works`: what still works is evidence too.

import type { StateQuestion } from '../api/client.js';
import type { Part, Symptom, SymptomOf } from '../api/types.js';
import { functionWords, nameOf, type RecordIndex } from '../state/record-index.js';

type FunctionReport = SymptomOf<'function'>['report'];
type PartReport = 'found-blown' | 'blows-at-once' | 'blows-after-a-time' | 'clicks' | 'does-not-click' | 'flat' | 'hot';
export type Report = FunctionReport | PartReport;
export type Options = readonly (readonly [report: Report, words: string])[];

const commonReports: readonly (readonly [FunctionReport, string])[] = [
  ['dead', 'dead'],
  ['weak', 'weak or slow'],
  ['works', 'works'],
  ['stays-on', 'on when it should be off'],
  ['comes-and-goes', 'comes and goes'],
];

const furtherReports: readonly (readonly [FunctionReport, string])[] = [
  ['runs-backwards', 'runs the wrong way'],
  ['too-bright', 'too bright'],
  ['flashes-fast', 'flashes fast'],
  ['flashes-slow', 'flashes slowly'],
  ['does-not-flash', 'does not flash'],
  ['reads-high', 'gauge reads high'],
  ['reads-low', 'gauge reads low'],
  ['reads-stuck', 'gauge is stuck'],
];

const fuseReports: Options = [
  ['found-blown', 'found blown'],
  ['blows-at-once', 'a new one blows at once'],
  ['blows-after-a-time', 'a new one blows after a time'],
];
const relayReports: Options = [
  ['clicks', 'clicks'],
  ['does-not-click', 'does not click'],
];
const batteryReports: Options = [['flat', 'flat overnight']];
const anyPartReports: Options = [['hot', 'gets hot, or smells']];

export const functionOptions = { common: commonReports, further: furtherReports };

/** What can be reported of a part as such; its functions are reported one by one. */
export function partOptions(part: Part): Options {
  const own =
    part.kind === 'fuse'
      ? fuseReports
      : part.kind === 'relay' || part.kind === 'flasher'
        ? relayReports
        : part.kind === 'battery'
          ? batteryReports
          : [];
  return [...own, ...anyPartReports];
}

const words = new Map<Report, string>([
  ...commonReports,
  ...furtherReports,
  ...fuseReports,
  ...relayReports,
  ...batteryReports,
  ...anyPartReports,
]);

export const reportWords = (report: Report): string => words.get(report) ?? report;

/** Works, or clicks: nothing to hunt for by itself. */
export const isFine = (report: Report): boolean => report === 'works' || report === 'clicks';

/** `address` is a function where the report is one of a function. */
export function symptomOf(address: string, report: Report, state: StateQuestion): Symptom {
  switch (report) {
    case 'found-blown':
      return { kind: 'fuse-found-blown', fuse: address, state };
    case 'blows-at-once':
    case 'blows-after-a-time':
      return {
        kind: 'fuse-blows',
        fuse: address,
        state,
        when: report === 'blows-at-once' ? 'at-once' : 'after-a-time',
      };
    case 'clicks':
    case 'does-not-click':
      return { kind: 'relay', relay: address, state, clicks: report === 'clicks' };
    case 'flat':
      return { kind: 'battery-flat', battery: address, state };
    case 'hot':
      return { kind: 'hot', part: address, state };
    default:
      return { kind: 'function', function: address, state, report };
  }
}

/** `Left headlamp, dip: dead`. */
export function complaintWords(index: RecordIndex, symptom: Symptom): string {
  switch (symptom.kind) {
    case 'function':
      return `${functionWords(index, symptom.function)}: ${reportWords(symptom.report)}`;
    case 'fuse-found-blown':
      return `Fuse ${symptom.fuse}: found blown`;
    case 'fuse-blows':
      return `Fuse ${symptom.fuse}: ${symptom.when === 'at-once' ? 'blows at once' : 'blows after a time'}`;
    case 'relay':
      return `${nameOf(index, symptom.relay)}: ${symptom.clicks ? 'clicks' : 'does not click'}`;
    case 'battery-flat':
      return `${nameOf(index, symptom.battery)}: flat overnight`;
    case 'hot':
      return `${nameOf(index, symptom.part)}: gets hot`;
    default: {
      const never: never = symptom;
      return never;
    }
  }
}

export const stateName = (state: StateQuestion): string => (typeof state === 'string' ? state : state.name);
