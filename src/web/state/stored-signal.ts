// A signal that survives a reload, kept as JSON in this browser's own storage.
// It must not throw when storage is full, blocked or holds something else than expected.

import { effect, type Signal, signal } from '@preact/signals';

const prefix = 'lastgood.';

export function readStored<T>(key: string, fallback: T): T {
  try {
    const text = localStorage.getItem(prefix + key);
    return text === null ? fallback : (JSON.parse(text) as T);
  } catch {
    return fallback;
  }
}

/** False when the browser would not keep it. */
export function writeStored(key: string, value: unknown): boolean {
  try {
    localStorage.setItem(prefix + key, JSON.stringify(value));
    return true;
  } catch {
    return false;
  }
}

export function storedSignal<T>(key: string, fallback: T): Signal<T> {
  const held = signal(readStored(key, fallback));
  effect(() => {
    writeStored(key, held.value);
  });
  return held;
}
