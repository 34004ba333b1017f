// A map of bounded size that forgets the entry not asked for longest.
// It must not know what it keeps.

export class LeastRecent<K, V> {
  readonly #entries = new Map<K, V>();

  constructor(private readonly capacity: number) {}

  get(key: K): V | undefined {
    const value = this.#entries.get(key);
    if (value !== undefined) this.set(key, value);
    return value;
  }

  set(key: K, value: V): void {
    // Taken out first: a map keeps the order in which its keys came in.
    this.#entries.delete(key);
    this.#entries.set(key, value);
    for (const oldest of this.#entries.keys()) {
      if (this.#entries.size <= this.capacity) break;
      this.#entries.delete(oldest);
    }
  }

  forget(key: K): void {
    this.#entries.delete(key);
  }

  get size(): number {
    return this.#entries.size;
  }
}
