// Whether the server can be reached, and the worker that lets the page open without it.
// It must not assume a worker: over plain http on a local network browsers refuse one, and all else still works.

import { signal } from '@preact/signals';
import { sendWaiting, waiting } from './outbox.js';

export const isOnline = signal(true);

const knockEveryMillis = 5_000;

export function startOffline(): void {
  addEventListener('offline', () => {
    isOnline.value = false;
  });
  addEventListener('online', () => void knock());
  setInterval(() => {
    if (!isOnline.value || waiting.value.length > 0) void knock();
  }, knockEveryMillis);
  void knock();
  if ('serviceWorker' in navigator) {
    navigator.serviceWorker.register('service-worker.js').catch(() => undefined);
  }
}

/** Asks the server whether it is there; sends what waits when it is. */
export async function knock(): Promise<void> {
  try {
    const response = await fetch('api/v1/health', { cache: 'no-store' });
    isOnline.value = response.ok;
  } catch {
    isOnline.value = false;
  }
  if (isOnline.value) await sendWaiting();
}
