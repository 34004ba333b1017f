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

/** Elimination order: `order[k]` is the node to eliminate k-th. */
export function minimumDegreeOrder(graph: Adjacency): Int32Array {
  const { nodeCount } = graph;
  const dense = denseNodes(graph);
  const order = new Int32Array(nodeCount);
  // Dense nodes come last whatever else happens, so the others are ordered as if they were not there.
  order.set(dense, nodeCount - dense.length);
  const quotient = new QuotientGraph(graph, new Set(dense));
  const sparseCount = nodeCount - dense.length;
  let done = 0;
  while (done < sparseCount) {
    for (const node of quotient.eliminateLowest(sparseCount - done)) order[done++] = node;
  }
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

  constructor(graph: Adjacency, leftOut: ReadonlySet<number>) {
    const { nodeCount, start, neighbours } = graph;
    this.members = new Array<number[] | undefined>(nodeCount).fill(undefined);
    this.queues = new DegreeQueues(nodeCount);
    this.inPivot = new Int32Array(nodeCount).fill(-1);
    this.outside = new Int32Array(nodeCount);
    this.outsideOf = new Int32Array(nodeCount).fill(-1);
    for (let i = 0; i < nodeCount; i++) {
      const list: number[] = [];
      this.neighbours.push(list);
      this.elements.push([]);
      if (leftOut.has(i)) continue;
      for (let p = start[i]; p < start[i + 1]; p++) if (!leftOut.has(neighbours[p])) list.push(neighbours[p]);
      this.queues.add(i, list.length);
    }
  }

  /** Eliminates a node of lowest degree and those that can follow without further fill; `waiting` nodes are left. */
  eliminateLowest(waiting: number): number[] {
    const pivot = this.queues.takeLowest();
    const element = this.formElement(pivot);
    this.measureOutside(pivot, element);
    const eliminated = [pivot];
    const kept: number[] = [];
    for (const i of element) {
      this.cover(i, pivot);
      if (this.neighbours[i].length === 0 && this.elements[i].length === 1) {
        // All neighbours of i are in the new element, so i can go at once: mass elimination.
        this.queues.remove(i);
        eliminated.push(i);
      } else {
        kept.push(i);
      }
    }
    this.members[pivot] = kept;
    this.updateDegrees(pivot, kept, waiting - eliminated.length);
    return eliminated;
  }

  /** The nodes that eliminating `pivot` joins to each other; the elements it belonged to are absorbed. */
  private formElement(pivot: number): number[] {
    const element: number[] = [];
    const take = (i: number) => {
      if (i === pivot || this.inPivot[i] === pivot) return;
      this.inPivot[i] = pivot;
      element.push(i);
    };
    for (const i of this.neighbours[pivot]) take(i);
    for (const e of this.elements[pivot]) {
      for (const i of this.members[e] ?? []) take(i);
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
    this.neighbours[i] = this.neighbours[i].filter((j) => j !== pivot && this.inPivot[j] !== pivot);
    // An older element that lies wholly inside the new one says nothing more (aggressive absorption).
    const elements = this.elements[i].filter((e) => this.members[e] !== undefined && this.outside[e] > 0);
    elements.push(pivot);
    this.elements[i] = elements;
  }

  /** Upper bounds of the degrees of the new element's nodes, which then go to the back of their queues. */
  private updateDegrees(pivot: number, nodes: readonly number[], waiting: number): void {
    for (const i of nodes) {
      let degree = this.neighbours[i].length + nodes.length - 1;
      for (const e of this.elements[i]) if (e !== pivot) degree += this.outside[e];
      const before = this.queues.degreeOf(i) + nodes.length - 1;
      this.queues.remove(i);
      this.queues.add(i, Math.min(degree, before, waiting - 1));
    }
  }
}
