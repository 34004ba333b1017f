// How the vehicle stands just now, as the person set it: a named state of the record, and what differs from it.
// It must not settle anything: it only says what is asked for.

import { computed } from '@preact/signals';
import type { StateQuestion } from '../api/client.js';
import type { OperatingState } from '../api/types.js';
import { harness, index } from './harness.js';
import { storedSignal } from './stored-signal.js';

export interface ChosenState {
  /** Name in the record; null: everything at rest. */
  readonly base: string | null;
  readonly positions: Readonly<Record<string, string>>;
  readonly engine: 'stopped' | 'running' | null;
  /** Battery -> volts measured at its posts. */
  readonly measured: Readonly<Record<string, number>>;
}

export const atRest: ChosenState = { base: null, positions: {}, engine: null, measured: {} };

const chosenByHarness = storedSignal<Readonly<Record<string, ChosenState>>>('states', {});

export const chosen = computed<ChosenState>(() => {
  const id = harness.value?.harness;
  const states = harness.value?.record.states ?? [];
  if (id === undefined) return atRest;
  const kept = chosenByHarness.value[id];
  if (kept === undefined) return { ...atRest, base: states[0]?.name ?? null };
  return kept.base === null || states.some(({ name }) => name === kept.base) ? kept : { ...kept, base: null };
});

export function choose(next: ChosenState): void {
  const id = harness.value?.harness;
  if (id !== undefined) chosenByHarness.value = { ...chosenByHarness.value, [id]: next };
}

export const baseState = computed<OperatingState | null>(
  () => harness.value?.record.states?.find(({ name }) => name === chosen.value.base) ?? null,
);

const differs = computed(() => {
  const { positions, engine, measured } = chosen.value;
  return Object.keys(positions).length > 0 || engine !== null || Object.keys(measured).length > 0;
});

/** What to send with a question: a bare name where nothing differs from it. */
export const stateQuestion = computed<StateQuestion>(() => {
  const { base, positions, engine, measured } = chosen.value;
  if (!differs.value && base !== null) return base;
  const from = baseState.value;
  return {
    ...(from ?? {}),
    name: from === null ? 'as set' : `${from.name}, changed`,
    ...(engine === null ? {} : { engine }),
    positions: { ...from?.positions, ...positions },
    ...(Object.keys(measured).length === 0 ? {} : { measured: { ...from?.measured, ...measured } }),
  };
});

/** Key of the state for `useAnswer`. */
export const stateKey = computed(() => JSON.stringify(stateQuestion.value));

/** `Night drive` or `Night drive, S3 off, 12.31 V measured`. */
export const stateWords = computed(() => {
  const { base, positions, engine, measured } = chosen.value;
  const changes = [
    ...Object.entries(positions).map(([part, position]) => `${part} ${position}`),
    ...(engine === null ? [] : [`engine ${engine}`]),
    ...Object.entries(measured).map(([battery, volts]) => `${battery} at ${volts} V`),
  ];
  return [base ?? 'Everything at rest', ...changes].join(', ');
});

/** The position that a switch stands in, in the state chosen. */
export function positionOf(part: string): string | null {
  const found = index.value?.choices.positions.find((entry) => entry.part === part);
  if (found === undefined) return null;
  return chosen.value.positions[part] ?? baseState.value?.positions?.[part] ?? found.rest;
}
