// Hunts in memory, for tests.
// It must not be used where anything is to be kept.

import type { HuntStore, LoggedEntry, StoredHunt, StoredPriors } from '../../service/ports/hunt-store.js';

export class MemoryHuntStore implements HuntStore {
  readonly #hunts = new Map<string, StoredHunt>();
  readonly #priors = new Map<string, StoredPriors>();

  /** All of one harness, oldest first. */
  of(harness: string): readonly StoredHunt[] {
    return [...this.#hunts.values()].filter((hunt) => hunt.harness === harness);
  }

  /** Puts these in place of what the harness has. */
  put(harness: string, hunts: readonly StoredHunt[], priors: StoredPriors | null): void {
    this.#priors.delete(harness);
    if (priors !== null) this.#priors.set(harness, structuredClone(priors));
    for (const { id } of this.of(harness)) this.#hunts.delete(id);
    for (const hunt of hunts) this.#hunts.set(hunt.id, structuredClone(hunt));
  }

  async create(hunt: StoredHunt): Promise<void> {
    this.#hunts.set(hunt.id, structuredClone(hunt));
  }

  async list(harness: string): Promise<readonly StoredHunt[]> {
    return [...this.of(harness)].reverse();
  }

  async get(harness: string, id: string): Promise<StoredHunt | null> {
    const hunt = this.#hunts.get(id);
    return hunt === undefined || hunt.harness !== harness ? null : hunt;
  }

  async priors(harness: string): Promise<StoredPriors | null> {
    return this.priorsOf(harness);
  }

  priorsOf(harness: string): StoredPriors | null {
    return this.#priors.get(harness) ?? null;
  }

  async savePriors(harness: string, expected: number, next: Omit<StoredPriors, 'version'>): Promise<boolean> {
    if ((this.priorsOf(harness)?.version ?? 1) !== expected) return false;
    this.#priors.set(harness, structuredClone({ ...next, version: expected + 1 }));
    return true;
  }

  async append(harness: string, id: string, entries: readonly LoggedEntry[]): Promise<StoredHunt | null> {
    const hunt = await this.get(harness, id);
    if (hunt === null) return null;
    const known = new Set(hunt.log.map(({ entry }) => entry.id));
    const next = { ...hunt, log: [...hunt.log, ...entries.filter(({ entry }) => !known.has(entry.id))] };
    this.#hunts.set(id, next);
    return next;
  }
}
