// Nodes waiting by degree, first in first out within one degree.
// It must not know where a degree comes from.

const NONE = -1;

/**
 * Doubly linked queues, one for each degree. First in, first out: a node whose degree has just changed goes to the back,
 * so neighbours are not eliminated one after the other along a chain and the elimination tree stays low.
 */
export class DegreeQueues {
  private readonly first: Int32Array;
  private readonly last: Int32Array;
  private readonly next: Int32Array;
  private readonly previous: Int32Array;
  private readonly degree: Int32Array;
  private lowest = 0;

  /** Degrees may go up to `nodeCount`. */
  constructor(nodeCount: number) {
    this.first = new Int32Array(nodeCount + 1).fill(NONE);
    this.last = new Int32Array(nodeCount + 1).fill(NONE);
    this.next = new Int32Array(nodeCount).fill(NONE);
    this.previous = new Int32Array(nodeCount).fill(NONE);
    this.degree = new Int32Array(nodeCount).fill(NONE);
  }

  /** The degree under which `node` waits. */
  degreeOf(node: number): number {
    return this.degree[node];
  }

  /** Puts a node that does not wait yet at the back of the queue of its degree. */
  add(node: number, degree: number): void {
    const behind = this.last[degree];
    this.degree[node] = degree;
    this.previous[node] = behind;
    this.next[node] = NONE;
    if (behind === NONE) this.first[degree] = node;
    else this.next[behind] = node;
    this.last[degree] = node;
    if (degree < this.lowest) this.lowest = degree;
  }

  /** Takes a waiting node out. */
  remove(node: number): void {
    const degree = this.degree[node];
    const before = this.previous[node];
    const after = this.next[node];
    if (before === NONE) this.first[degree] = after;
    else this.next[before] = after;
    if (after === NONE) this.last[degree] = before;
    else this.previous[after] = before;
    this.degree[node] = NONE;
  }

  /** Takes out the node that has waited longest among those of lowest degree; at least one must wait. */
  takeLowest(): number {
    while (this.first[this.lowest] === NONE) this.lowest++;
    const node = this.first[this.lowest];
    this.remove(node);
    return node;
  }
}
