/**
 * Everything that may be the matter, with prior probabilities that add up to 1: faults, nothing, a wrong record, something unknown.
 * It must not weigh evidence.
 */
import type { Model } from '../answers/model.js';
import { faultCatalogue, type Profile } from './catalogue.js';
import type { Fault, FaultMode } from './fault.js';
import { HEALTHY_SHARE, RECORD_WRONG_SHARE, UNKNOWN_SHARE } from './priors.js';
import type { Scope } from './scope.js';

export interface Hypothesis {
  readonly id: string;
  readonly kind: 'fault' | 'pair' | 'healthy' | 'record-wrong' | 'unknown';
  /** One fault, two of a pair, none else. */
  readonly faults: readonly Fault[];
  readonly prior: number;
  /** Where the circuit with the fault can rest in two ways, what came before decides, and nobody knows that: true for the second. */
  readonly restsOtherwise?: boolean;
  /** The single ones that it joins; none for those. */
  readonly joins?: readonly Hypothesis[];
}

export interface PriorOptions {
  readonly profile: Profile;
  /** Factors by prior row id, learned from closed hunts. */
  readonly learned?: ReadonlyMap<string, number>;
}

/** Faults that can blow a fuse or load a rail from beside the way to the function itself. */
const SHORTS: ReadonlySet<FaultMode> = new Set([
  'short-to-body',
  'short-to-neighbour',
  'load-shorted',
  'load-part-shorted',
  'diode-shorted',
]);

/** All single faults of the scope, then healthy, record-wrong and unknown. */
export function hypothesesOf(model: Model, scope: Scope, { profile, learned }: PriorOptions): Hypothesis[] {
  const within = new Set([...scope.own, ...scope.beside]);
  const faults = faultCatalogue(model, { profile, within, ...(learned === undefined ? {} : { learned }) }).filter(
    (fault) => fault.element === null || SHORTS.has(fault.mode) || touches(fault, scope.own),
  );
  const rest = HEALTHY_SHARE + RECORD_WRONG_SHARE[profile] + UNKNOWN_SHARE;
  const whole = faults.reduce((sum, fault) => sum + fault.weight, 0);
  const singles = faults.map(
    (fault): Hypothesis => ({
      id: fault.id,
      kind: 'fault',
      faults: [fault],
      prior: ((1 - rest) * fault.weight) / whole,
    }),
  );
  return [...singles, ...others(profile, singles.length > 0 ? 1 : 1 / rest)];
}

/** Two swapped wires are of one place, and either may be the one that matters; a dead module is of all of its outputs. */
function touches({ element, changes }: Fault, own: ReadonlySet<string>): boolean {
  return own.has(element ?? '') || changes.some((change) => change.kind !== 'bridge' && own.has(change.element));
}

function others(profile: Profile, factor: number): Hypothesis[] {
  const bare = (kind: 'healthy' | 'record-wrong' | 'unknown', prior: number): Hypothesis => ({
    id: kind,
    kind,
    faults: [],
    prior: prior * factor,
  });
  return [
    bare('healthy', HEALTHY_SHARE),
    bare('record-wrong', RECORD_WRONG_SHARE[profile]),
    bare('unknown', UNKNOWN_SHARE),
  ];
}

/** One for each way in which the circuit may have come to rest; all its readings are then of the same one. */
export function byRest(hypothesis: Hypothesis): readonly Hypothesis[] {
  const half = { ...hypothesis, prior: hypothesis.prior / 2 };
  return [half, { ...half, id: `${hypothesis.id}, resting otherwise`, restsOtherwise: true }];
}

/** Both at once. `factor` is how much likelier than by chance: common cause in one connector or bundle. */
export function pairOf(one: Hypothesis, other: Hypothesis, factor: number): Hypothesis {
  return {
    id: `${one.id} + ${other.id}`,
    kind: 'pair',
    faults: [...one.faults, ...other.faults],
    prior: one.prior * other.prior * factor,
    joins: [...singlesOf(one), ...singlesOf(other)],
  };
}

/** The single hypotheses in it: itself, or those that it joins. */
export function singlesOf(hypothesis: Hypothesis): readonly Hypothesis[] {
  return hypothesis.joins ?? [hypothesis];
}

/** The harness as recorded, as something to compare with. */
export const nothingWrong: Hypothesis = { id: 'healthy', kind: 'healthy', faults: [], prior: 0 };

/** All of them at once, those without a fault left out. No prior of its own: it stands for one state of the vehicle. */
export function together(all: readonly Hypothesis[]): Hypothesis {
  const joins = all.filter(({ faults }) => faults.length > 0).flatMap(singlesOf);
  if (joins.length < 2) return joins[0] ?? nothingWrong;
  return {
    id: joins.map(({ id }) => id).join(' + '),
    kind: 'pair',
    faults: joins.flatMap(({ faults }) => faults),
    prior: 0,
    joins,
  };
}

/** What is left of it while all that comes and goes is gone. */
export function whileGone(hypothesis: Hypothesis): Hypothesis {
  return together(singlesOf(hypothesis).filter((single) => !isIntermittent(single)));
}

/** Whether any of its faults is there only for a part of the time. */
export function isIntermittent(hypothesis: Hypothesis): boolean {
  return hypothesis.faults.some(({ mode }) => mode === 'intermittent');
}
