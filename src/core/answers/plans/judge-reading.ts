/**
 * A reading as typed, against the step that it was taken for: refused with a reason, or passed or failed at once.
 * It must not store anything.
 */
import type { Plan, PlanStep } from '../shapes/plans.js';

export interface TypedReading {
  readonly step: string;
  /** `OL`: over the meter's range. */
  readonly value: number | 'OL';
  readonly unit: string;
}

export interface ReadingIssue {
  readonly code: 'unknown-step' | 'wrong-unit' | 'impossible-value';
  readonly field: 'step' | 'value' | 'unit';
  readonly value: unknown;
  readonly reason: string;
  readonly accepted: string;
}

export interface Judged {
  /** In Ω, V or A; null: over the range. */
  readonly value: number | null;
  readonly passes: boolean | null;
  /** Over the predicted band though inside the limit. */
  readonly isAbovePrediction: boolean;
}

export type Judgement =
  | { readonly ok: true; readonly judged: Judged }
  | { readonly ok: false; readonly issue: ReadingIssue };

const SCALES: ReadonlyMap<string, { readonly unit: 'Ω' | 'V' | 'A'; readonly factor: number }> = new Map([
  ['Ω', { unit: 'Ω', factor: 1 }],
  ['Ω'.normalize('NFKC'), { unit: 'Ω', factor: 1 }],
  ['ohm', { unit: 'Ω', factor: 1 }],
  ['mΩ', { unit: 'Ω', factor: 1e-3 }],
  ['kΩ', { unit: 'Ω', factor: 1e3 }],
  ['MΩ', { unit: 'Ω', factor: 1e6 }],
  ['V', { unit: 'V', factor: 1 }],
  ['mV', { unit: 'V', factor: 1e-3 }],
  ['A', { unit: 'A', factor: 1 }],
  ['mA', { unit: 'A', factor: 1e-3 }],
]);

/** No vehicle of the record's voltages shows more: 48 V charged, short circuit of a large battery, end of a meter's scale. */
const MOST: Readonly<Record<'Ω' | 'V' | 'A', number>> = { Ω: 1e9, V: 100, A: 5_000 };
/** A meter's zero may lie so far below nothing, ohms. */
const ZERO_OHMS = -0.5;

export function judgeReading(plan: Plan, { step: id, value, unit }: TypedReading): Judgement {
  const step = plan.steps.find((it) => it.id === id);
  if (step === undefined)
    return refuse('unknown-step', 'step', id, 'the plan has no such step', 'the id of a step of this plan');
  const scale = SCALES.get(unit.trim().replace('\u2126', 'Ω'));
  if (step.unit === null || scale === undefined || scale.unit !== step.unit) {
    return refuse('wrong-unit', 'unit', unit, `the step is read in ${step.unit ?? 'words'}`, unitsOf(step));
  }
  if (value === 'OL') {
    if (step.unit !== 'Ω')
      return refuse('impossible-value', 'value', value, 'only ohms can be over the range here', 'a number');
    return { ok: true, judged: { value: null, passes: step.most === null, isAbovePrediction: false } };
  }
  const read = value * scale.factor;
  if (!Number.isFinite(read) || Math.abs(read) > MOST[step.unit] || (step.unit === 'Ω' && read < ZERO_OHMS)) {
    const least = step.unit === 'Ω' ? 0 : -MOST[step.unit];
    return refuse(
      'impossible-value',
      'value',
      value,
      'no meter shows this here',
      `${least} to ${MOST[step.unit]} ${step.unit}`,
    );
  }
  const judgeable = step.least !== null || step.most !== null;
  const passes = judgeable
    ? (step.least === null || read >= step.least || (step.unit === 'Ω' && step.least === 0)) &&
      (step.most === null || read <= step.most)
    : null;
  const high = step.expected.high;
  return {
    ok: true,
    judged: {
      value: read,
      passes,
      isAbovePrediction: passes === true && high !== null && read > high * 1.5 && step.unit === 'V',
    },
  };
}

function unitsOf(step: PlanStep): string {
  return [...SCALES]
    .filter(([, scale]) => scale.unit === step.unit)
    .map(([unit]) => unit)
    .join(', ');
}

function refuse(
  code: ReadingIssue['code'],
  field: ReadingIssue['field'],
  value: unknown,
  reason: string,
  accepted: string,
): Judgement {
  return { ok: false, issue: { code, field, value, reason, accepted } };
}
