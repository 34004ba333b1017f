// Hunts in memory, for tests.
// It must not be used where anything is to be kept.

import type { HuntStore, LoggedEntry, StoredHunt } from '../../service/ports/hunt-store.js';

export class MemoryHuntStore implements HuntStore {
  readonly #hunts = new Map<string, StoredHunt>();

  async create(hunt: StoredHunt): Promise<void> {
    this.#hunts.set(hunt.id, structuredClone(hunt));
  }

  async list(harness: string): Promise<readonly StoredHunt[]> {
    return [...this.#hunts.values()].filter((hunt) => hunt.harness === harness).reverse();
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
