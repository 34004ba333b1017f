/**
 * The append-only log of a hunt and what it amounts to: undone entries count no more, corrected readings count as corrected.
 * A pure reducer; it must not weigh or predict.
 */

import type { Evidence, PastReading, PastRepair, TakenReading } from './evidence.js';
import { isComplaint } from './scope.js';
import type { HuntEntry } from './shapes/hunt.js';
import type { FunctionReport, Symptom } from './shapes/symptom.js';

export interface HuntFacts extends Evidence {
  /** Every report of any time, oldest first: what it is all about stays the same after a repair. */
  readonly told: readonly Symptom[];
  /** Points and parts that the person cannot get at. */
  readonly unreachable: ReadonlySet<string>;
  /** Where the last check left the vehicle: its state, and the panels still off by the checks done. */
  readonly lastReading: TakenReading | null;
  /** Readings of any time: a panel once off stays off. */
  readonly everTaken: readonly TakenReading[];
  /** A repair was made, and not everything that was complained of was looked at since. */
  readonly awaitsProof: boolean;
  /** Complaints that were not looked at since the repair. */
  readonly toProve: readonly Symptom[];
  /** Keys of what was mended last. */
  readonly lastRepair: readonly string[];
  /** The last proof showed no complaint. */
  readonly isCured: boolean;
  /** The person has ended the hunt. */
  readonly isClosed: boolean;
}

/** One thing wrong with an entry: it names an entry that is not there, or not of the kind. */
export interface EntryIssue {
  readonly path: '/entry';
  readonly value: string;
  readonly reason: string;
}

/** Null when the entry may be appended to the log. */
export function refuseEntry(log: readonly HuntEntry[], entry: HuntEntry): EntryIssue | null {
  if (entry.kind !== 'undo' && entry.kind !== 'correct') return null;
  const target = log.find(({ id }) => id === entry.entry);
  const issue = (reason: string): EntryIssue => ({ path: '/entry', value: entry.entry, reason });
  if (target === undefined) return issue('no such entry in this hunt');
  if (undone(log).has(target.id)) return issue('that entry is undone already');
  if (entry.kind === 'correct' && target.kind !== 'reading') return issue('only a reading can be corrected');
  return null;
}

/** What the log says now. */
export function factsOf(log: readonly HuntEntry[]): HuntFacts {
  const gone = undone(log);
  const corrections = new Map(
    log.flatMap((entry) => (entry.kind === 'correct' && !gone.has(entry.id) ? [[entry.entry, entry.result]] : [])),
  );
  let symptoms: Symptom[] = [];
  let readings: TakenReading[] = [];
  let past: PastReading[] = [];
  const repairs: PastRepair[] = [];
  const told: Symptom[] = [];
  let vainRepairs = 0;
  const everTaken: TakenReading[] = [];
  const unreachable = new Set<string>();
  const mended = new Set<string>();
  let lastRepair: readonly string[] = [];
  let unproved: string[] = [];
  let toProve: Symptom[] = [];
  let seenSince: Symptom[] = [];
  let [awaitsProof, isCured, isClosed] = [false, false, false];
  for (const entry of log) {
    if (gone.has(entry.id)) continue;
    switch (entry.kind) {
      case 'symptom':
        symptoms.push(entry.symptom);
        told.push(entry.symptom);
        isCured = false;
        break;
      case 'reading': {
        const taken = { entry: entry.id, check: entry.check, result: corrections.get(entry.id) ?? entry.result };
        readings.push(taken);
        everTaken.push(taken);
        break;
      }
      case 'cannot-reach':
        unreachable.add(entry.place);
        break;
      case 'repair':
        lastRepair = entry.repairs.flatMap((repair) => repair.split(' + '));
        unproved.push(...lastRepair);
        for (const key of lastRepair) mended.add(key);
        awaitsProof = true;
        toProve = symptoms.filter((it) => it.kind === 'function' && isComplaint(it));
        seenSince = [];
        break;
      case 'proof': {
        seenSince = [...seenSince.filter((old) => !isSeenIn(entry.symptoms, old)), ...entry.symptoms];
        toProve = toProve.filter((old) => !isSeenIn(seenSince, old));
        const wasOn = new Set(symptoms.flatMap((old) => (isReported(old, 'stays-on') ? [subjectOf(old)] : [])));
        // What stayed on and is off now is cured.
        const fails = seenSince.some(
          (now) => isComplaint(now) && !(isReported(now, 'dead') && wasOn.has(subjectOf(now))),
        );
        // All that has been looked at works: the rest of what was complained of is looked at before anything is said.
        if (!fails && toProve.length > 0) break;
        // What was read before was read on the vehicle with what is mended now; a proof without a repair mends nothing.
        const before = new Map(symptoms.map((old) => [subjectOf(old), JSON.stringify(old)]));
        const isUnchanged = seenSince.every((now) => (before.get(subjectOf(now)) ?? '') === JSON.stringify(now));
        past = [...past, ...readings.map((reading) => ({ ...reading, repairsBefore: repairs.length }))];
        repairs.push({ keys: unproved, hasChanged: !isUnchanged });
        unproved = [];
        told.push(...seenSince);
        vainRepairs = isUnchanged ? vainRepairs + 1 : 0;
        isCured = !fails;
        // As long as nothing has changed, complaints stand that were not looked at again.
        symptoms = [
          ...seenSince.filter(isComplaint),
          ...symptoms.filter((old) => (isUnchanged || !isComplaint(old)) && !isSeenIn(seenSince, old)),
          ...seenSince.filter((now) => !isComplaint(now)),
        ];
        readings = [];
        [toProve, seenSince] = [[], []];
        awaitsProof = false;
        break;
      }
      case 'closed':
        isClosed = true;
        break;
      case 'undo':
      case 'correct':
        break;
    }
  }
  return {
    symptoms,
    readings,
    told,
    past,
    repairs,
    vainRepairs,
    mended,
    unreachable,
    lastReading: everTaken[everTaken.length - 1] ?? null,
    everTaken,
    awaitsProof,
    toProve,
    lastRepair,
    isCured,
    isClosed,
  };
}

/** Ids of entries that an undo took back. An undo can itself be undone. */
export function undone(log: readonly HuntEntry[]): ReadonlySet<string> {
  const gone = new Set<string>();
  for (const entry of log.toReversed()) if (entry.kind === 'undo' && !gone.has(entry.id)) gone.add(entry.entry);
  return gone;
}

function isSeenIn(seen: readonly Symptom[], symptom: Symptom): boolean {
  return seen.some((it) => subjectOf(it) === subjectOf(symptom));
}

function isReported(symptom: Symptom, report: FunctionReport): boolean {
  return symptom.kind === 'function' && symptom.report === report;
}

function subjectOf(symptom: Symptom): string {
  switch (symptom.kind) {
    case 'function':
      return `${symptom.function} ${JSON.stringify(symptom.state)}`;
    case 'fuse-found-blown':
    case 'fuse-blows':
      return `fuse ${symptom.fuse}`;
    case 'relay':
      return `relay ${symptom.relay}`;
    case 'battery-flat':
      return `battery ${symptom.battery}`;
    case 'hot':
      return `hot ${symptom.part}`;
  }
}
