// Hunts in memory, for tests.
// It must not be used where anything is to be kept.

import type { HuntStore, LoggedEntry, StoredHunt } from '../../service/ports/hunt-store.js';

export class MemoryHuntStore implements HuntStore {
  readonly #hunts = new Map<string, StoredHunt>();

  /** All of one harness, oldest first. */
  of(harness: string): readonly StoredHunt[] {
    return [...this.#hunts.values()].filter((hunt) => hunt.harness === harness);
  }

  /** Puts these in place of what the harness has. */
  put(harness: string, hunts: readonly StoredHunt[]): void {
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

  async append(harness: string, id: string, entries: readonly LoggedEntry[]): Promise<StoredHunt | null> {
    const hunt = await this.get(harness, id);
    if (hunt === null) return null;
    const known = new Set(hunt.log.map(({ entry }) => entry.id));
    const next = { ...hunt, log: [...hunt.log, ...entries.filter(({ entry }) => !known.has(entry.id))] };
    this.#hunts.set(id, next);
    return next;
  }
}
