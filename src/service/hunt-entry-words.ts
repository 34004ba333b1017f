// One entry of a hunt's log in words: what was done, and what it showed, with its unit.
// It must not say what follows from it.

import type { Model } from '../core/answers/model.js';
import { functionName, unitOf } from '../core/diagnosis/check-words.js';
import type { Check, CheckResult } from '../core/diagnosis/shapes/check.js';
import type { HuntEntry } from '../core/diagnosis/shapes/hunt.js';
import type { Symptom } from '../core/diagnosis/shapes/symptom.js';

/** `[what was done, what it showed]`; `log` holds what a correction corrects. */
export function entryWords(model: Model, log: readonly HuntEntry[], entry: HuntEntry): [words: string, result: string] {
  switch (entry.kind) {
    case 'symptom':
      return symptomWords(model, entry.symptom);
    case 'reading':
      return [checkWords(model, entry.check), resultWords(entry.result, unitOf(entry.check))];
    case 'cannot-reach':
      return [entry.place, 'cannot be reached'];
    case 'repair':
      return [`Repair: ${entry.repairs.join(', ')}`, 'done'];
    case 'proof':
      return ['After the repair', entry.symptoms.map((seen) => symptomWords(model, seen).join(' ')).join(', ')];
    case 'correct': {
      const target = log.find(({ id }) => id === entry.entry);
      if (target?.kind !== 'reading') return ['Corrected', resultWords(entry.result, null)];
      return [`Corrected: ${checkWords(model, target.check)}`, resultWords(entry.result, unitOf(target.check))];
    }
    case 'undo':
      return ['Taken back', ''];
    case 'closed':
      return ['Closed', ''];
  }
}

function symptomWords(model: Model, symptom: Symptom): [string, string] {
  switch (symptom.kind) {
    case 'function':
      return [functionName(model, symptom.function), symptom.report.replaceAll('-', ' ')];
    case 'fuse-found-blown':
      return [`Fuse ${symptom.fuse}`, 'found blown'];
    case 'fuse-blows':
      return [`Fuse ${symptom.fuse}`, symptom.when === 'at-once' ? 'blows at once' : 'blows after a time'];
    case 'relay':
      return [`Relay ${symptom.relay}`, symptom.clicks ? 'clicks' : 'does not click'];
    case 'battery-flat':
      return [`Battery ${symptom.battery}`, 'flat'];
    case 'hot':
      return [symptom.part, 'gets hot'];
  }
}

function checkWords(model: Model, check: Check): string {
  switch (check.kind) {
    case 'observe':
      return `Looked at ${functionName(model, check.function)}`;
    case 'volts':
      return check.black === model.graph.reference
        ? `Volts at ${check.red}`
        : `Volts from ${check.red} to ${check.black}`;
    case 'lamp':
      return `Test lamp from ${check.red} to ${check.black}`;
    case 'clamp':
      return `Amperes in ${check.wire}`;
    case 'ohms':
      return `Ohms from ${check.red} to ${check.black}`;
    case 'isolation':
      return `Ohms from ${check.point} to ${check.body}`;
    case 'look':
      return `Fuse ${check.fuse}`;
    case 'swap':
      return `Another one in the place of ${check.part}`;
    case 'inspect':
      return `Looked into ${check.part}`;
    case 'link':
      return `Fused link from ${check.from} to ${check.to}`;
    case 'wiggle':
      return `Moved the wires at ${check.part}`;
  }
}

/** As a meter of 6,000 counts would give it. */
function resultWords(result: CheckResult, unit: string | null): string {
  if (result.kind === 'word') return result.word.replaceAll('-', ' ');
  if (result.value === null) return 'OL';
  return `${Number(result.value.toPrecision(4))} ${unit ?? ''}`.trim();
}
