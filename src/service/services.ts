// All use cases over one set of ports: what the API is given.
// It must not choose the ports; main does.

import { type Backups, createBackups } from './backups.js';
import { createHarnesses, type Harnesses } from './harnesses.js';
import type { Clock, IdSource } from './ports/clock.js';
import type { HarnessStore } from './ports/harness-store.js';

export interface Ports {
  readonly store: HarnessStore;
  readonly clock: Clock;
  readonly newId: IdSource;
}

export interface Services {
  readonly harnesses: Harnesses;
  readonly backups: Backups;
  /** Whether requests can be answered just now. */
  ready(): Promise<boolean>;
}

export function createServices(ports: Ports): Services {
  return {
    harnesses: createHarnesses(ports),
    backups: createBackups(ports),
    ready: () => ports.store.ready(),
  };
}
