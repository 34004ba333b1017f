// The load that the person was looking at when saying that it is not as it should be: handed over to the hunt once.
// It must not outlive that one step.

import { signal } from '@preact/signals';

export const wrongLoad = signal<string | null>(null);
