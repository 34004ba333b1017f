// Readings that a person laid onto a profile, kept in this browser per harness, function and state.
// It must not mix readings of two states: the same point reads differently.

import { harness } from './harness.js';
import { stateKey } from './operating-state.js';
import { storedSignal } from './stored-signal.js';

interface Kept {
  readonly point: string;
  readonly volts: number;
}

const kept = storedSignal<Readonly<Record<string, readonly Kept[]>>>('taken', {});

const keyOf = (target: string): string => `${harness.value?.harness} ${target} ${stateKey.value}`;

export function takenReadings(target: string): ReadonlyMap<string, number> {
  return new Map((kept.value[keyOf(target)] ?? []).map(({ point, volts }) => [point, volts]));
}

export function takeReading(target: string, point: string, volts: number): void {
  const key = keyOf(target);
  const others = (kept.value[key] ?? []).filter((reading) => reading.point !== point);
  kept.value = { ...kept.value, [key]: [...others, { point, volts }] };
}

export function dropReading(target: string, point: string): void {
  const key = keyOf(target);
  kept.value = { ...kept.value, [key]: (kept.value[key] ?? []).filter((reading) => reading.point !== point) };
}

/** Takes the last one back. */
export function undoReading(target: string): void {
  const key = keyOf(target);
  kept.value = { ...kept.value, [key]: (kept.value[key] ?? []).slice(0, -1) };
}

export function dropAllReadings(target: string): void {
  kept.value = { ...kept.value, [keyOf(target)]: [] };
}
