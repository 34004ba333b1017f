// Harnesses in memory, for tests and for reading a description of the API; failures can be injected before any method.
// It must not be used where anything is to be kept.

import { refusal } from '../../service/errors.js';
import type {
  DeleteOutcome,
  HarnessHead,
  HarnessStore,
  NewRevision,
  RevisionInfo,
  SaveOutcome,
  StoredHarness,
  StoredRevision,
} from '../../service/ports/harness-store.js';
import { MemoryHuntStore } from './memory-hunt-store.js';
import { MemoryRunStore } from './memory-run-store.js';

/** Called before each method with its name; what it throws, the method throws. */
export type BeforeMethod = (method: keyof HarnessStore) => void;

export class MemoryHarnessStore implements HarnessStore {
  /** Runs and hunts go and come with their harness. */
  readonly runs = new MemoryRunStore();
  readonly hunts = new MemoryHuntStore();
  #harnesses = new Map<string, StoredHarness>();
  readonly #before: BeforeMethod;

  constructor(before: BeforeMethod = () => {}) {
    this.#before = before;
  }

  async create(id: string, first: NewRevision): Promise<HarnessHead | null> {
    this.#before('create');
    if (this.#harnesses.has(id)) return null;
    return this.#put({
      id,
      createdAt: first.savedAt,
      revisions: [stored(id, 1, first)],
      runs: [],
      hunts: [],
      priors: null,
    });
  }

  async list({ limit, after }: { limit: number; after: string | null }): Promise<readonly HarnessHead[]> {
    this.#before('list');
    return this.#sorted()
      .filter(({ id }) => after === null || id > after)
      .slice(0, limit)
      .map(headOf);
  }

  async head(id: string): Promise<HarnessHead | null> {
    this.#before('head');
    const harness = this.#harnesses.get(id);
    return harness === undefined ? null : headOf(harness);
  }

  async getRevision(id: string, revision?: number): Promise<StoredRevision | null> {
    this.#before('getRevision');
    const revisions = this.#harnesses.get(id)?.revisions ?? [];
    const found =
      revision === undefined ? revisions[revisions.length - 1] : revisions.find((it) => it.revision === revision);
    return found === undefined ? null : structuredClone(found);
  }

  async listRevisions(id: string): Promise<readonly RevisionInfo[]> {
    this.#before('listRevisions');
    return [...(this.#harnesses.get(id)?.revisions ?? [])]
      .reverse()
      .map(({ revision, savedAt, note, parts, wires }) => ({ revision, savedAt, note, parts, wires }));
  }

  async saveRevision(id: string, expected: number, next: NewRevision): Promise<SaveOutcome> {
    this.#before('saveRevision');
    const harness = this.#harnesses.get(id);
    if (harness === undefined) return { kind: 'missing' };
    const currentRevision = headOf(harness).revision;
    if (currentRevision !== expected) return { kind: 'stale', currentRevision };
    const revisions = [...harness.revisions, stored(id, expected + 1, next)];
    return { kind: 'saved', head: this.#put({ ...harness, revisions }) };
  }

  async delete(id: string, expected: number): Promise<DeleteOutcome> {
    this.#before('delete');
    const harness = this.#harnesses.get(id);
    if (harness === undefined) return { kind: 'missing' };
    const currentRevision = headOf(harness).revision;
    if (currentRevision !== expected) return { kind: 'stale', currentRevision };
    this.#harnesses.delete(id);
    this.runs.put(id, []);
    this.hunts.put(id, [], null);
    return { kind: 'deleted' };
  }

  async everything(): Promise<Iterable<StoredHarness>> {
    this.#before('everything');
    return structuredClone(
      this.#sorted().map((harness) => ({
        ...harness,
        runs: this.runs.of(harness.id),
        hunts: this.hunts.of(harness.id),
        priors: this.hunts.priorsOf(harness.id),
      })),
    );
  }

  async restore(
    harnesses: readonly StoredHarness[],
    { replace }: { replace: boolean },
  ): Promise<{ taken: readonly string[] }> {
    this.#before('restore');
    const next = new Map(replace ? [] : this.#harnesses);
    const taken = harnesses.filter(({ id }) => next.has(id)).map(({ id }) => id);
    if (taken.length > 0) return { taken };
    for (const harness of structuredClone(harnesses)) next.set(harness.id, harness);
    const emptied = [...(replace ? this.#harnesses.keys() : [])].map((id) => ({
      id,
      runs: [],
      hunts: [],
      priors: null,
    }));
    for (const { id, runs, hunts, priors } of [...emptied, ...harnesses]) {
      this.runs.put(id, runs);
      this.hunts.put(id, hunts, priors);
    }
    this.#harnesses = next;
    return { taken };
  }

  async ready(): Promise<boolean> {
    try {
      this.#before('ready');
      return true;
    } catch {
      return false;
    }
  }

  async close(): Promise<void> {
    this.#before('close');
  }

  #put(harness: StoredHarness): HarnessHead {
    this.#harnesses.set(harness.id, harness);
    return headOf(harness);
  }

  #sorted(): StoredHarness[] {
    return [...this.#harnesses.values()].sort((a, b) => (a.id < b.id ? -1 : 1));
  }
}

/** Fails each method named, as a full disk would. */
export const failingOn =
  (...methods: readonly (keyof HarnessStore)[]): BeforeMethod =>
  (method) => {
    if (methods.includes(method)) throw refusal('store-unavailable', { reason: 'the disk is full' });
  };

const stored = (harness: string, revision: number, { record, savedAt, note }: NewRevision): StoredRevision => ({
  harness,
  revision,
  savedAt,
  note,
  parts: record.parts.length,
  wires: record.wires.length,
  record: structuredClone(record),
});

function headOf({ id, createdAt, revisions }: StoredHarness): HarnessHead {
  const { record, revision, parts, wires, savedAt } = revisions[revisions.length - 1];
  return {
    id,
    name: record.name,
    vehicle: record.vehicle ?? null,
    invented: record.invented === true,
    revision,
    parts,
    wires,
    createdAt,
    updatedAt: savedAt,
  };
}
