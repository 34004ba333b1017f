// All use cases over one set of ports: what the API is given.
// It must not choose the ports; main does.

import { type Backups, createBackups } from './backups.js';
import { createDemo, type Demo, type DemoDocument } from './demo.js';
import { createHarnesses, type Harnesses } from './harnesses.js';
import { createHunts, type Hunts } from './hunts.js';
import { createImports, type Imports } from './imports.js';
import { createModelCache } from './model-cache.js';
import type { Clock, IdSource, Stopwatch } from './ports/clock.js';
import type { HarnessStore } from './ports/harness-store.js';
import type { HuntStore } from './ports/hunt-store.js';
import type { ProofWork } from './ports/proof-work.js';
import type { RunStore } from './ports/run-store.js';
import { createPriors, type Priors } from './priors.js';
import { createProving, type Proving } from './proving.js';
import { createQuestions, type Questions } from './questions.js';
import { createRuns, type Runs } from './runs.js';

export interface ServiceOptions {
  readonly store: HarnessStore;
  readonly hunts: HuntStore;
  readonly runs: RunStore;
  readonly work: ProofWork;
  readonly clock: Clock;
  readonly newId: IdSource;
  readonly stopwatch: Stopwatch;
  readonly deadlineMs: number;
  readonly cachedModels: number;
  readonly demoDocuments: () => readonly DemoDocument[];
}

export interface Services {
  readonly harnesses: Harnesses;
  readonly questions: Questions;
  readonly imports: Imports;
  readonly backups: Backups;
  readonly hunts: Hunts;
  readonly priors: Priors;
  readonly proving: Proving;
  readonly runs: Runs;
  readonly demo: Demo;
  /** Whether requests can be answered just now. */
  ready(): Promise<boolean>;
}

export function createServices(options: ServiceOptions): Services {
  const harnesses = createHarnesses(options);
  const proving = createProving({ ...options, harnesses });
  const models = createModelCache(options.store, options.cachedModels);
  const priors = createPriors({ ...options, models });
  return {
    harnesses,
    imports: createImports(harnesses),
    questions: createQuestions(options),
    backups: createBackups(options),
    hunts: createHunts({ ...options, models, priors }),
    priors,
    proving,
    runs: createRuns({ ...options, harnesses, proving }),
    demo: createDemo(options),
    ready: () => options.store.ready(),
  };
}
