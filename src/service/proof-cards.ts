// What is asked after a repair: the complaint first, then the drop across what was mended and what shares it. Each answer is kept as a reading.
// It must not decide that a repair is proved; only the complaint does.

import { cautions } from '../core/answers/cautions.js';
import type { Model } from '../core/answers/model.js';
import { cautionsOf } from '../core/diagnosis/candidates.js';
import { functionName, unitOf } from '../core/diagnosis/check-words.js';
import { factsOf } from '../core/diagnosis/hunt-log.js';
import { CHECK_WORDS, type Check, type CheckResult, checkKey } from '../core/diagnosis/shapes/check.js';
import type { HuntEntry, HuntVerdict } from '../core/diagnosis/shapes/hunt.js';
import type { CheckCard } from './check-card.js';
import { placeOf } from './hunt-place.js';

type ProofStep = HuntVerdict['proof'][number];

/** Is what was complained of as it should be? One complaint after the other; null where no function was complained of. */
export function complaintCard(model: Model, log: readonly HuntEntry[]): CheckCard | null {
  const [complaint] = factsOf(log).toProve;
  if (complaint?.kind !== 'function') return null;
  const check = { kind: 'observe', function: complaint.function, state: complaint.state } as const;
  const name = typeof complaint.state === 'string' ? complaint.state : complaint.state.name;
  const staysOn = complaint.report === 'stays-on';
  return {
    id: JSON.stringify(check),
    title: staysOn
      ? `Is ${functionName(model, complaint.function)} off now?`
      : `Does ${functionName(model, complaint.function)} work now?`,
    why: 'Only the function itself proves the repair; if it still fails, the hunt goes on with what is left.',
    setUp: [`Set: ${name}.`],
    leads: null,
    unit: null,
    words: ['works', 'weak', 'dead'].map((id) => ({ id, words: id })),
    healthy: staysOn ? 'dead' : 'works',
    outcomes: [],
    cautions: [],
    canSkip: false,
  };
}

/** Once the complaint is gone: the next of the proofs that the verdict named and nobody has answered or left out. */
export function furtherCard(model: Model, log: readonly HuntEntry[], proof: readonly ProofStep[]): CheckCard | null {
  const since = log.slice(log.findLastIndex(({ kind }) => kind === 'repair') + 1);
  const complaint = complaintKeys(since);
  const step = proof.find(({ check }) => !complaint.has(checkKey(check)) && !isDealtWith(model, since, check));
  if (step === undefined) return null;
  const { check, instruction, expected, atMostVolts } = step;
  const words: readonly string[] = check.kind in CHECK_WORDS ? CHECK_WORDS[check.kind as keyof typeof CHECK_WORDS] : [];
  return {
    id: JSON.stringify(check),
    title: instruction,
    why:
      atMostVolts === null
        ? 'It shares what was mended: if the work there disturbed it, that shows now and not on the road.'
        : 'A joint can work and still be bad: what it drops under load tells whether it will last.',
    setUp: 'state' in check ? [`Set: ${typeof check.state === 'string' ? check.state : check.state.name}.`] : [],
    leads: 'red' in check ? { red: check.red, black: check.black } : null,
    unit: unitOf(check),
    words: words.map((id) => ({ id, words: id.replaceAll('-', ' ') })),
    healthy: expected,
    outcomes: [],
    cautions: cautions(cautionsOf(model, check)),
    canSkip: true,
  };
}

/** What a reading after the repair says of it; null for one that is no proof. */
export function proofWords(proof: readonly ProofStep[], check: Check, result: CheckResult): string | null {
  const step = proof.find((it) => checkKey(it.check) === checkKey(check));
  if (step === undefined) return null;
  const { atMostVolts } = step;
  if (result.kind === 'word') return result.word === 'works' ? 'As it should be.' : 'Not as it should be: report it.';
  if (atMostVolts === null || result.value === null) return null;
  return Math.abs(result.value) <= atMostVolts
    ? `Within ${atMostVolts.toFixed(2)} V: the joint is good.`
    : `Over ${atMostVolts.toFixed(2)} V: it works, and the joint is still bad. Make it again.`;
}

function isDealtWith(model: Model, since: readonly HuntEntry[], check: Check): boolean {
  const place = placeOf(check, model.graph.reference);
  return since.some(
    (entry) =>
      (entry.kind === 'reading' && checkKey(entry.check) === checkKey(check)) ||
      (entry.kind === 'cannot-reach' && entry.place === place),
  );
}

/** The complaint has been looked at already: that is the proof itself. */
function complaintKeys(since: readonly HuntEntry[]): Set<string> {
  return new Set(
    since.flatMap((entry) =>
      entry.kind !== 'proof'
        ? []
        : entry.symptoms.flatMap((seen) =>
            seen.kind === 'function' ? [checkKey({ kind: 'observe', function: seen.function, state: seen.state })] : [],
          ),
    ),
  );
}
