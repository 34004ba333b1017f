// Runs of plans in memory, for tests.
// It must not be used where anything is to be kept.

import type { KeptReading, NewRun, RunHead, RunStore, StoredRun } from '../../service/ports/run-store.js';

const isLike = (one: RunHead, other: Pick<RunHead, 'harness' | 'kind' | 'kit'>): boolean =>
  one.harness === other.harness && one.kind === other.kind && one.kit === other.kit;

export class MemoryRunStore implements RunStore {
  #runs: StoredRun[] = [];

  async create(run: NewRun): Promise<StoredRun> {
    const known = await this.get(run.harness, run.id);
    if (known !== null) return known;
    const { kind, kit, title, steps } = run.plan;
    const head = { kind, kit, title, steps: steps.length, readings: [] };
    const isBaseline = !this.#runs.some((other) => isLike(other, { ...run, kind, kit }));
    const stored: StoredRun = structuredClone({ ...run, ...head, isBaseline });
    this.#runs.push(stored);
    return stored;
  }

  async list(harness: string): Promise<readonly RunHead[]> {
    return this.of(harness)
      .reverse()
      .map(({ plan: _, ...head }) => head);
  }

  async get(harness: string, id: string): Promise<StoredRun | null> {
    return this.#runs.find((run) => run.harness === harness && run.id === id) ?? null;
  }

  async append(harness: string, id: string, reading: KeptReading): Promise<StoredRun | null> {
    const run = await this.get(harness, id);
    if (run === null || run.readings.some((kept) => kept.id === reading.id)) return run;
    return this.#replace(run, { ...run, readings: [...run.readings, reading] });
  }

  async makeBaseline(harness: string, id: string): Promise<StoredRun | null> {
    const run = await this.get(harness, id);
    if (run === null) return null;
    this.#runs = this.#runs.map((other) => (isLike(other, run) ? { ...other, isBaseline: other.id === id } : other));
    return this.get(harness, id);
  }

  /** Oldest first, with their plans: what a backup holds. */
  of(harness: string): StoredRun[] {
    return this.#runs
      .filter((run) => run.harness === harness)
      .sort((a, b) => (a.startedAt === b.startedAt ? (a.id < b.id ? -1 : 1) : a.startedAt < b.startedAt ? -1 : 1));
  }

  /** In place of all runs of this harness. */
  put(harness: string, runs: readonly StoredRun[]): void {
    this.#runs = [...this.#runs.filter((run) => run.harness !== harness), ...structuredClone(runs)];
  }

  #replace(run: StoredRun, next: StoredRun): StoredRun {
    this.#runs = this.#runs.map((other) => (other === run ? next : other));
    return next;
  }
}
