// Light, dark or full sunlight, as the person chose or as the phone is set.
// It must not touch anything but one attribute of the document.

import { effect } from '@preact/signals';
import { storedSignal } from './stored-signal.js';

export type Theme = 'phone' | 'light' | 'dark' | 'sun';

export const themes: readonly { readonly id: Theme; readonly words: string }[] = [
  { id: 'phone', words: 'As this device' },
  { id: 'light', words: 'Light' },
  { id: 'dark', words: 'Dark' },
  { id: 'sun', words: 'Full sun' },
];

export const theme = storedSignal<Theme>('theme', 'phone');

export function startTheme(): void {
  effect(() => {
    document.documentElement.dataset.theme = theme.value;
  });
}
