// A hunt as a client shows it: phase, next check, suspects, entries in words. Made from the log and what the core says of it.
// It must not decide anything of the diagnosis.

import type { Model } from '../core/answers/model.js';
import type { Hunt } from '../core/diagnosis/hunt.js';
import { factsOf, undone } from '../core/diagnosis/hunt-log.js';
import { isComplaint } from '../core/diagnosis/scope.js';
import { CHECK_WORDS } from '../core/diagnosis/shapes/check.js';
import type { HuntEntry, HuntVerdict, HuntView, ProposedCheck } from '../core/diagnosis/shapes/hunt.js';
import type { Symptom } from '../core/diagnosis/shapes/symptom.js';
import type { CheckCard } from './check-card.js';
import { entryWords } from './hunt-entry-words.js';
import type { LoggedEntry, StoredHunt } from './ports/hunt-store.js';
import { complaintCard, furtherCard, proofWords } from './proof-cards.js';

export type HuntPhase = 'checking' | 'repairing' | 'proving' | 'closed';

export interface HuntHead {
  readonly id: string;
  readonly complaint: string;
  /** The complaint as data; the first thing reported when all of it works. */
  readonly symptom: Symptom | null;
  readonly phase: HuntPhase;
  readonly startedAt: string;
}

export interface HuntPicture extends HuntHead {
  readonly revision: number;
  readonly recordHasChanged: boolean;
  readonly next: CheckCard | null;
  readonly suspects: readonly {
    readonly id: string;
    readonly words: string;
    readonly parts: readonly string[];
    readonly probability: number;
    readonly before: number | null;
    readonly repair: string;
    readonly repairs: readonly string[];
  }[];
  readonly entries: readonly {
    readonly id: string;
    readonly at: string;
    readonly words: string;
    readonly result: string;
    readonly effect: string | null;
    readonly isUndone: boolean;
    readonly isDoubtful: boolean;
  }[];
  readonly verdict: string | null;
  /** All of it as data: ids, numbers, units. */
  readonly view: HuntView;
}

export function huntHead({ id, startedAt, log }: StoredHunt): HuntHead {
  const facts = factsOf(log.map(({ entry }) => entry));
  const phase = facts.isClosed || facts.isCured ? 'closed' : facts.awaitsProof ? 'proving' : 'checking';
  return { id, startedAt, phase, complaint: complaintOf(log), symptom: complaintIn(log) };
}

/** Throws `HuntStopped` once `isLate`. */
export function huntPicture(
  stored: StoredHunt,
  model: Model,
  hunt: Hunt,
  recordHasChanged: boolean,
  isLate: () => boolean,
): HuntPicture {
  const log = stored.log.map(({ entry }) => entry);
  // In the order of the log: the one before is mostly known from the last request.
  const before = hunt.assess(log.slice(0, -1), isLate).view;
  const { view } = hunt.assess(log, isLate);
  const facts = factsOf(log);
  const proof = facts.isCured ? provedBy(hunt, log, isLate) : [];
  const phase: HuntPhase = facts.isClosed
    ? 'closed'
    : facts.awaitsProof
      ? 'proving'
      : view.status === 'ended'
        ? view.verdict?.kind === 'cured'
          ? 'closed'
          : 'repairing'
        : 'checking';
  return {
    id: stored.id,
    revision: stored.revision,
    recordHasChanged,
    startedAt: stored.startedAt,
    complaint: complaintOf(stored.log),
    symptom: complaintIn(stored.log),
    phase,
    next:
      phase === 'proving'
        ? complaintCard(model, log)
        : phase === 'closed'
          ? facts.isCured && !facts.isClosed
            ? furtherCard(model, standingOf(log), proof)
            : null
          : view.next === null
            ? null
            : card(view.next),
    suspects: view.suspects.map(({ id, description, probability, repair, sites }) => ({
      id,
      words: description,
      parts: [...new Set(sites.map((site) => site.description))],
      probability,
      before: before.suspects.find((old) => old.id === id)?.probability ?? null,
      repair,
      repairs: sites.map((site) => site.repair),
    })),
    entries: stored.log
      .filter(({ entry }) => entry.kind !== 'undo')
      .map((logged) => entryPicture(model, hunt, log, logged, view, proof)),
    verdict: view.verdict?.sentence ?? null,
    view,
  };
}

function card(next: ProposedCheck): CheckCard {
  const { check, healthy, unit } = next;
  const words: readonly string[] = check.kind in CHECK_WORDS ? CHECK_WORDS[check.kind as keyof typeof CHECK_WORDS] : [];
  const setUp = [
    ...(next.state === null ? [] : [`Set: ${next.state}.`]),
    ...next.why.panels.map((panel) => `Take off: ${panel}.`),
  ];
  const range = healthy.low === null ? '' : ` (${healthy.low.toFixed(2)} to ${(healthy.high ?? 0).toFixed(2)})`;
  return {
    id: JSON.stringify(check),
    title: next.instruction,
    why: next.why.sentence,
    setUp,
    leads: next.red === null || next.black === null ? null : { red: next.red.point, black: next.black.point },
    unit,
    words: words.map((id) => ({ id, words: id.replaceAll('-', ' ') })),
    healthy: healthy.word ?? `${(healthy.nominal ?? 0).toFixed(2)} ${unit ?? ''}${range}`,
    outcomes: next.outcomes.map(({ sentence }) => {
      const at = sentence.indexOf(': ');
      return { shows: sentence.slice(0, at), means: sentence.slice(at + 2) };
    }),
    cautions: next.cautions,
    canSkip: check.kind !== 'observe',
  };
}

function complaintIn(log: readonly LoggedEntry[]): Symptom | null {
  const symptoms = log.flatMap(({ entry }) => (entry.kind === 'symptom' ? [entry.symptom] : []));
  return symptoms.find(isComplaint) ?? symptoms[0] ?? null;
}

function complaintOf(log: readonly LoggedEntry[]): string {
  const first = complaintIn(log);
  if (first === null) return '';
  const state = typeof first.state === 'string' ? first.state : first.state.name;
  switch (first.kind) {
    case 'function':
      return `${first.function} ${first.report.replaceAll('-', ' ')} in ${state}`;
    case 'fuse-found-blown':
    case 'fuse-blows':
      return `${first.fuse} ${first.kind.replaceAll('-', ' ')}`;
    case 'relay':
      return `${first.relay} ${first.clicks ? 'clicks' : 'does not click'} in ${state}`;
    case 'battery-flat':
      return `${first.battery} flat`;
    case 'hot':
      return `${first.part} gets hot in ${state}`;
  }
}

function entryPicture(
  model: Model,
  hunt: Hunt,
  log: readonly HuntEntry[],
  { entry, addedAt }: LoggedEntry,
  view: HuntView,
  proof: HuntVerdict['proof'],
) {
  const [words, result] = entryWords(model, log, entry);
  const gone = undone(log).has(entry.id);
  return {
    id: entry.id,
    at: addedAt,
    words,
    result,
    effect: gone ? null : (proofEffect(log, entry, proof) ?? effectAt(hunt, log, entry.id)),
    isUndone: gone,
    isDoubtful: view.doubt?.entry === entry.id,
  };
}

/** What was to be tried after the last repair, as the verdict before it said. */
function provedBy(hunt: Hunt, log: readonly HuntEntry[], isLate: () => boolean): HuntVerdict['proof'] {
  const standing = standingOf(log);
  const at = standing.findLastIndex(({ kind }) => kind === 'repair');
  return at < 0 ? [] : (hunt.assess(standing.slice(0, at), isLate).view.verdict?.proof ?? []);
}

function standingOf(log: readonly HuntEntry[]): HuntEntry[] {
  const gone = undone(log);
  return log.filter(({ id, kind }) => kind !== 'undo' && !gone.has(id));
}

/** Readings after the repair say something of it, not of suspects. */
function proofEffect(log: readonly HuntEntry[], entry: HuntEntry, proof: HuntVerdict['proof']): string | null {
  const isAfter = log.indexOf(entry) > log.findLastIndex(({ kind }) => kind === 'repair');
  return entry.kind === 'reading' && isAfter ? proofWords(proof, entry.check, entry.result) : null;
}

/** What a reading changed when it was taken, corrections counted, entries undone since left out. */
function effectAt(hunt: Hunt, log: readonly HuntEntry[], id: string): string | null {
  const gone = undone(log);
  const corrected = new Map(
    log.flatMap((entry) => (entry.kind === 'correct' && !gone.has(entry.id) ? [[entry.entry, entry.result]] : [])),
  );
  const standing = log
    .filter(({ id: own, kind }) => kind !== 'undo' && kind !== 'correct' && !gone.has(own))
    .map((entry) => (entry.kind === 'reading' ? { ...entry, result: corrected.get(entry.id) ?? entry.result } : entry));
  const at = standing.findIndex((entry) => entry.id === id);
  return at < 0 ? null : (hunt.effect(standing.slice(0, at + 1))?.sentence ?? null);
}
