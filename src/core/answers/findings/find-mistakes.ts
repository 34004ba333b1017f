/**
 * Runs every check over a model: what stands, what the record accepts with a reason, and which checks broke down.
 * It must not know what any check looks for; a new check is one more entry in the list.
 */
import { naturalCompare } from '../../graph/natural-compare.js';
import { normaliseAddress } from '../../record/addresses.js';
import { cautions } from '../cautions.js';
import type { Model } from '../model.js';
import type { Finding, FindingsAnswer, Severity } from '../shapes/findings.js';
import { tiedAssembly } from './assembly-checks.js';
import type { Check, Found } from './check.js';
import {
  cavityUsedTwice,
  halfFilledMate,
  loadWithoutFeed,
  loadWithoutReturn,
  unreachedPart,
} from './connection-checks.js';
import { dropOverCircuit, dropOverElement } from './drop-checks.js';
import { sharedSensorGround, unsuppressedCoil } from './module-checks.js';
import { fuseMayNotOpen, fuseOverWire, unfusedWire } from './protection-checks.js';
import { cavityOverRating, contactOverRating, wireOverloaded } from './rating-checks.js';
import { duplicateLabel, wireWithoutLength } from './record-checks.js';
import { type WorstCase, worstCase } from './worst-case.js';

export const allChecks: readonly Check[] = [
  unfusedWire,
  fuseOverWire,
  fuseMayNotOpen,
  wireOverloaded,
  cavityOverRating,
  contactOverRating,
  dropOverElement,
  dropOverCircuit,
  loadWithoutReturn,
  loadWithoutFeed,
  halfFilledMate,
  cavityUsedTwice,
  unreachedPart,
  unsuppressedCoil,
  sharedSensorGround,
  tiedAssembly,
  duplicateLabel,
  wireWithoutLength,
];

const ORDER: readonly Severity[] = ['danger', 'fault', 'warning', 'note'];

/**
 * Pure; `checks` is all of them unless a caller narrows it. A check that throws is told apart and costs none of the others.
 * Without `isSearched` no state is solved: ratings and drops are then not held against anything.
 */
export function findMistakes(model: Model, checks: readonly Check[] = allChecks, isSearched = true): FindingsAnswer {
  let searched: WorstCase | null = null;
  const worst = (): WorstCase => {
    searched ??= isSearched ? worstCase(model) : NOT_SEARCHED;
    return searched;
  };
  const failedChecks: FindingsAnswer['failedChecks'] = [];
  const accepts = acceptances(model);
  const found: Finding[] = [];
  for (const check of checks) {
    try {
      for (const it of check.find({ model, worst })) found.push(finished(check, it, accepts.reason(check.code, it.at)));
    } catch (error) {
      failedChecks.push({ code: check.code, reason: error instanceof Error ? error.message : String(error) });
    }
  }
  found.sort(
    (one, other) =>
      ORDER.indexOf(one.severity) - ORDER.indexOf(other.severity) ||
      allChecks.findIndex(({ code }) => code === one.code) - allChecks.findIndex(({ code }) => code === other.code) ||
      naturalCompare(one.at[0] ?? '', other.at[0] ?? ''),
  );
  const looked = searched as WorstCase | null;
  return {
    standing: found.filter(({ acceptedBecause }) => acceptedBecause === null),
    accepted: found.filter(({ acceptedBecause }) => acceptedBecause !== null),
    acceptancesWithoutFinding: accepts.unused(),
    failedChecks,
    search: { states: looked?.looks.length ?? 0, complete: looked?.complete ?? true, note: looked?.note ?? null },
    cautions: cautions(
      found.some(({ code }) => code === 'unfused-wire') ? ['unfused-live', 'fuse-size'] : ['fuse-size'],
    ),
  };
}

const NOT_SEARCHED: WorstCase = { amps: () => null, looks: [], complete: false, note: 'no state was solved' };

function finished(check: Check, found: Found, acceptedBecause: string | null): Finding {
  return {
    code: check.code,
    severity: found.severity ?? check.severity,
    at: found.at,
    points: found.points,
    numbers: found.numbers ?? [],
    limit: found.limit ?? null,
    state: found.state ?? null,
    text: found.text,
    remedy: found.remedy ?? check.remedy,
    acceptedBecause,
  };
}

/** Acceptances cover a finding of their code when together they name every address that it is about, and each its first. */
function acceptances(model: Model): {
  reason(code: string, at: readonly string[]): string | null;
  unused(): FindingsAnswer['acceptancesWithoutFinding'];
} {
  const entries = (model.graph.record.acceptedFindings ?? []).map((entry) => ({
    entry,
    names: new Set(entry.at.map(normaliseAddress)),
    used: false,
  }));
  return {
    reason(code, at) {
      const addresses = at.map(normaliseAddress);
      const matching = entries.filter(({ entry, names }) => entry.code === code && names.has(addresses[0] ?? ''));
      const isCovered = addresses.every((address) => matching.some(({ names }) => names.has(address)));
      if (matching.length === 0 || !isCovered) return null;
      for (const match of matching) match.used = true;
      return [...new Set(matching.map(({ entry }) => entry.reason))].join('; ');
    },
    unused: () => entries.filter(({ used }) => !used).map(({ entry }) => ({ ...entry })),
  };
}
