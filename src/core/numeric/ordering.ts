// Fill-reducing elimination order by approximate minimum degree on the quotient graph.
// It must not look at weights: one order serves every set of values.

/*
 * Amestoy, Davis, Duff: An approximate minimum degree ordering algorithm, SIAM J. Matrix Anal. Appl. 17 (1996).
 * An eliminated node p leaves an *element*: the set of its neighbours, which are now all joined to each other. The
 * quotient graph keeps that set instead of its edges, so it never grows. Elements that p touched are absorbed in p's.
 * Of the published refinements element absorption and mass elimination are used; supervariables are not: harnesses have
 * almost none.
 */

import type { Adjacency } from './adjacency.js';
import { DegreeQueues } from './degree-queues.js';

/**
 * Elimination order: `order[k]` is the node to eliminate k-th. Nodes with `late[i]` = 1 wait as if they had one neighbour
 * more, so that of two alike the other goes first. On harnesses this halves what has to be visited for the late nodes and
 * costs one part in a hundred of fill; two neighbours more would gain little and make the tree higher.
 */
export function minimumDegreeOrder(graph: Adjacency, late: Uint8Array = new Uint8Array(graph.nodeCount)): Int32Array {
  const { nodeCount } = graph;
  const dense = denseNodes(graph);
  const order = new Int32Array(nodeCount);
  // Dense nodes come last whatever else happens, so the others are ordered as if they were not there.
  order.set(dense, nodeCount - dense.length);
  const quotient = new QuotientGraph(graph, new Set(dense), late, order);
  while (quotient.done < nodeCount - dense.length) quotient.eliminateLowest();
  return order;
}

/**
 * Nodes with so many neighbours that each step of the ordering would scan a long list for them, lowest degree first.
 * The bound, 10 sqrt(n) and at least 16, is the one of the paper's authors in their AMD package.
 */
function denseNodes({ nodeCount, start }: Adjacency): number[] {
  const bound = Math.max(16, 10 * Math.sqrt(nodeCount));
  const degree = (i: number) => start[i + 1] - start[i];
  const nodes: number[] = [];
  for (let i = 0; i < nodeCount; i++) if (degree(i) > bound) nodes.push(i);
  return nodes.sort((a, b) => degree(a) - degree(b) || a - b);
}

class QuotientGraph {
  /** Per waiting node: neighbours that no element covers yet, and the elements it belongs to. */
  private readonly neighbours: number[][] = [];
  private readonly elements: number[][] = [];
  /** Per element, under the number of the node that made it: its waiting nodes. */
  private readonly members: (number[] | undefined)[];
  private readonly queues: DegreeQueues;
  /** inPivot[i] === p: node i belongs to the element being made by p. */
  private readonly inPivot: Int32Array;
  /** Size of element e outside the new element; valid while outsideOf[e] === p. */
  private readonly outside: Int32Array;
  private readonly outsideOf: Int32Array;

  /** Nodes eliminated so far: order[0] .. order[done - 1]. */
  done = 0;
  private readonly sparseCount: number;

  constructor(
    graph: Adjacency,
    leftOut: ReadonlySet<number>,
    private readonly late: Uint8Array,
    private readonly order: Int32Array,
  ) {
    const { nodeCount, start, neighbours } = graph;
    this.sparseCount = nodeCount - leftOut.size;
    this.members = new Array<number[] | undefined>(nodeCount).fill(undefined);
    this.queues = new DegreeQueues(nodeCount + 1);
    this.inPivot = new Int32Array(nodeCount).fill(-1);
    this.outside = new Int32Array(nodeCount);
    this.outsideOf = new Int32Array(nodeCount).fill(-1);
    for (let i = 0; i < nodeCount; i++) {
      const list: number[] = [];
      this.neighbours.push(list);
      this.elements.push([]);
      if (leftOut.has(i)) continue;
      for (let p = start[i]; p < start[i + 1]; p++) if (!leftOut.has(neighbours[p])) list.push(neighbours[p]);
      this.queues.add(i, list.length + this.late[i]);
    }
  }

  /** Eliminates a node of lowest degree and those that can follow it without further fill. */
  eliminateLowest(): void {
    const pivot = this.queues.takeLowest();
    this.order[this.done++] = pivot;
    const element = this.formElement(pivot);
    this.measureOutside(pivot, element);
    let kept = 0;
    for (const i of element) {
      this.cover(i, pivot);
      if (this.neighbours[i].length === 0 && this.elements[i].length === 1) {
        // All neighbours of i are in the new element, so i can go at once: mass elimination.
        this.queues.remove(i);
        this.order[this.done++] = i;
      } else {
        element[kept++] = i;
      }
    }
    element.length = kept;
    this.members[pivot] = element;
    this.updateDegrees(pivot, element);
  }

  /** The nodes that eliminating `pivot` joins to each other; the elements it belonged to are absorbed. */
  private formElement(pivot: number): number[] {
    const { inPivot } = this;
    const element: number[] = [];
    inPivot[pivot] = pivot;
    for (const i of this.neighbours[pivot]) {
      inPivot[i] = pivot;
      element.push(i);
    }
    for (const e of this.elements[pivot]) {
      for (const i of this.members[e] ?? []) {
        if (inPivot[i] === pivot) continue;
        inPivot[i] = pivot;
        element.push(i);
      }
      this.members[e] = undefined;
    }
    this.neighbours[pivot] = [];
    this.elements[pivot] = [];
    return element;
  }

  /** For every older element that the new one touches: how many of its nodes lie outside the new one. */
  private measureOutside(pivot: number, element: readonly number[]): void {
    for (const i of element) {
      for (const e of this.elements[i]) {
        const members = this.members[e];
        if (members === undefined) continue;
        if (this.outsideOf[e] !== pivot) {
          this.outsideOf[e] = pivot;
          this.outside[e] = members.length;
        }
        this.outside[e]--;
      }
    }
  }

  /** Lets the new element stand for what it covers in the lists of node i. */
  private cover(i: number, pivot: number): void {
    const neighbours = this.neighbours[i];
    let kept = 0;
    for (const j of neighbours) if (this.inPivot[j] !== pivot) neighbours[kept++] = j;
    neighbours.length = kept;

    // An older element that lies wholly inside the new one says nothing more (aggressive absorption).
    const elements = this.elements[i];
    kept = 0;
    for (const e of elements) if (this.members[e] !== undefined && this.outside[e] > 0) elements[kept++] = e;
    elements.length = kept;
    elements.push(pivot);
  }

  /** Upper bounds of the degrees of the new element's nodes, which then go to the back of their queues. */
  private updateDegrees(pivot: number, element: readonly number[]): void {
    const waiting = this.sparseCount - this.done;
    for (const i of element) {
      let degree = this.neighbours[i].length + element.length - 1;
      for (const e of this.elements[i]) if (e !== pivot) degree += this.outside[e];
      const before = this.queues.degreeOf(i) - this.late[i] + element.length - 1;
      this.queues.remove(i);
      this.queues.add(i, Math.min(degree, before, waiting - 1) + this.late[i]);
    }
  }
}
