// The union of the paths from some nodes of a tree to its roots.
// It must not know what the tree is: columns and fronts use it alike.

/** Reused from one question to the next, so that a sweep allocates nothing. */
export class PathUnion {
  /** nodes[0 .. length - 1], ascending after `sort`, so children before parents. */
  readonly nodes: Int32Array;
  length = 0;
  private readonly seen: Uint8Array;
  private starts = 0;

  /** A tree whose parents have higher numbers than their children; -1 above a root. */
  constructor(private readonly parent: Int32Array) {
    this.nodes = new Int32Array(parent.length);
    this.seen = new Uint8Array(parent.length);
  }

  /** Adds the path from `start` to its root. */
  add(start: number): void {
    const { parent, nodes, seen } = this;
    let length = this.length;
    for (let t = start; t !== -1 && seen[t] === 0; t = parent[t]) {
      seen[t] = 1;
      nodes[length++] = t;
    }
    if (length > this.length) this.starts++;
    this.length = length;
  }

  has(node: number): boolean {
    return this.seen[node] === 1;
  }

  /** To be called after the last `add`. One path alone is in order as it stands. */
  sort(): void {
    if (this.starts > 1) this.nodes.subarray(0, this.length).sort();
  }

  clear(): void {
    for (let t = 0; t < this.length; t++) this.seen[this.nodes[t]] = 0;
    this.length = 0;
    this.starts = 0;
  }
}
