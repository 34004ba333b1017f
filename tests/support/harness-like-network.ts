// Seeded networks with the shape of a vehicle's harness, as bare weighted graphs, to test and time the solver.
// It must not be taken for a harness: it has no parts, no states, and its values are from memory.

import { GROUND, type Pattern } from '../../src/core/numeric/types.js';
import { type Random, seededRandom } from './random.js';

export interface HarnessLikeNetwork {
  readonly wires: number;
  readonly pattern: Pattern;
  /** Per edge, siemens; the bridges have 0. */
  readonly weights: Float64Array;
  /** Per node, amperes. */
  readonly rhs: Float64Array;
  /** Edges that a short from a wire to the body would close. */
  readonly bridges: readonly number[];
  /** The body that most grounds lead to. */
  readonly body: number;
}

/** What the fixed reference is: the battery's negative post, or the body with the most neighbours. */
export type Reference = 'negativePost' | 'body';

/**
 * About `wires` wires: battery, bus bars, fuses; from each fuse a tree of wires with crimps at both ends, plugs, splices
 * and switches down to loads; from each load a wire to a stud on one of three bodies. About 3.3 nodes and 3.5 edges a wire.
 */
export function harnessLikeNetwork(
  wires: number,
  seed: number,
  reference: Reference = 'negativePost',
): HarnessLikeNetwork {
  const builder = new Builder(seededRandom(seed), reference);
  while (builder.wires < wires) builder.addFusedCircuit(wires);
  return builder.network();
}

class Builder {
  wires = 0;
  private nodeCount = 0;
  private readonly from: number[] = [];
  private readonly to: number[] = [];
  private readonly weights: number[] = [];
  private readonly sources: { node: number; amperes: number }[] = [];
  private readonly wireEnds: number[] = [];
  private readonly bodies: number[];
  private readonly buses: number[] = [];
  private readonly studs: { node: number; left: number }[] = [];
  private readonly splices: number[] = [];

  constructor(
    private readonly random: Random,
    reference: Reference,
  ) {
    const mainBody = reference === 'body' ? GROUND : this.node();
    const negative = reference === 'negativePost' ? GROUND : this.node();
    this.bodies = [mainBody, this.node(), this.node()];
    const positive = this.node();
    this.edge(this.bodies[0], this.bodies[1], 2e-4);
    this.edge(this.bodies[0], this.bodies[2], 2e-4);
    this.edge(negative, this.bodies[1], 5e-4);
    // EMF 12.6 V behind 8 mOhm as a current source.
    this.edge(positive, negative, 8e-3);
    this.sources.push({ node: positive, amperes: 12.6 / 8e-3 }, { node: negative, amperes: -12.6 / 8e-3 });
    this.buses.push(positive);
  }

  /** One fuse and what it feeds. */
  addFusedCircuit(wiresWanted: number): void {
    const { random } = this;
    if (this.buses.length * 250 < this.wires + 250) this.buses.push(this.wire(this.buses[0], 5e-4));
    const bus = this.buses[this.buses.length - 1];
    const fuseIn = this.joint(bus);
    const fuseOut = this.node();
    this.edge(fuseIn, fuseOut, random.logarithmic(2e-3, 5e-2));
    const open = [fuseOut];
    const size = random.whole(2, 14);
    const before = this.wires;
    while (open.length > 0 && this.wires - before < size && this.wires < wiresWanted) {
      const point = this.addSegment(open.shift()!);
      const branches = random.chance(0.3) ? random.whole(2, 4) : 1;
      if (branches > 1) this.splices.push(point);
      for (let b = 0; b < branches; b++) {
        if (random.chance(0.45)) this.addLoad(point);
        else if (!open.includes(point)) open.push(point);
      }
    }
    for (const point of open) this.addLoad(point);
  }

  /** A wire, and sometimes a plug or a switch behind it. */
  private addSegment(start: number): number {
    const { random } = this;
    const end = this.wire(start, random.logarithmic(2e-3, 1e-1));
    const kind = random.next();
    if (kind < 0.35) return this.joint(end);
    if (kind < 0.45) {
      const other = this.node();
      // Switches and relay contacts; one in four is open now.
      this.edge(end, other, random.logarithmic(2e-3, 3e-2), random.chance(0.25) ? 0 : 1);
      return other;
    }
    return end;
  }

  private addLoad(point: number): void {
    const { random } = this;
    const ground = this.node();
    this.edge(point, ground, random.logarithmic(0.5, 5e3));
    this.wire(ground, random.logarithmic(2e-3, 5e-2), this.stud());
    // Sometimes a load has a second feed from a circuit nearby: a loop that backfeeds.
    if (random.chance(0.03) && this.splices.length > 0) {
      const last = this.splices.length - 1;
      this.edge(this.splices[random.whole(Math.max(0, last - 10), last)], point, random.logarithmic(1e-2, 1));
    }
  }

  /** A ground stud with a few lugs on it, or a new one. */
  private stud(): number {
    const { random } = this;
    let stud = this.studs[this.studs.length - 1];
    if (stud === undefined || stud.left === 0) {
      const which = random.next();
      const body = this.bodies[which < 0.8 ? 0 : which < 0.95 ? 1 : 2];
      stud = { node: this.node(), left: random.whole(1, 8) };
      this.edge(stud.node, body, random.logarithmic(2e-4, 2e-3));
      this.studs.push(stud);
    }
    stud.left--;
    return stud.node;
  }

  /** A wire from `start`: crimp, conductor, crimp. Returns the point at its far end, new unless given. */
  private wire(start: number, ohms: number, end = this.node()): number {
    const near = this.joint(start);
    const far = this.joint(end);
    this.edge(near, far, ohms);
    this.wireEnds.push(near);
    this.wires++;
    return end;
  }

  private joint(start: number): number {
    const next = this.node();
    this.edge(start, next, this.random.logarithmic(2e-4, 5e-3));
    return next;
  }

  private node(): number {
    return this.nodeCount++;
  }

  private edge(a: number, b: number, ohms: number, present = 1): void {
    this.from.push(a);
    this.to.push(b);
    this.weights.push(present / ohms);
  }

  network(): HarnessLikeNetwork {
    const bridges: number[] = [];
    for (const end of this.wireEnds) {
      bridges.push(this.from.push(end) - 1);
      this.to.push(this.bodies[0]);
    }
    const weights = new Float64Array(this.from.length);
    weights.set(this.weights);
    const rhs = new Float64Array(this.nodeCount);
    for (const { node, amperes } of this.sources) if (node !== GROUND) rhs[node] += amperes;
    const pattern = { nodeCount: this.nodeCount, from: Int32Array.from(this.from), to: Int32Array.from(this.to) };
    return { wires: this.wires, pattern, weights, rhs, bridges, body: this.bodies[0] };
  }
}
