/**
 * A solution kept small: for those who hold thousands of them side by side and read few numbers of each.
 * It must not compute anything; single precision is a hundred times finer than the last digit of a hand-held meter.
 */
import { GROUND } from '../numeric/types.js';
import type { Circuit } from './compile.js';
import { edgeNumber, type Network, nodeNumber } from './network.js';
import { REFERENCE_ISLAND } from './picture.js';
import { carryOf } from './settled-solution.js';
import type { Solution } from './solution.js';

/** As the methods of the same names of `Solution`, to seven digits. All throw a RangeError on a name that the harness lacks. */
export class CompactSolution {
  private constructor(
    private readonly network: Network,
    private readonly nodeVolts: Float32Array,
    private readonly islandOf: Int32Array,
    private readonly edgeAmps: Float32Array,
    private readonly closed: Uint8Array,
    /** Null where nothing is pulsed. */
    private readonly rms: Float32Array | null,
  ) {}

  /** `solution` must come from `settle` or a prober of the circuit. What is the same in `alike` is shared with it. */
  static of({ network }: Circuit, solution: Solution, alike: CompactSolution | null): CompactSolution {
    const { nodeVolts, islandOf, edgeAmps, closed, rmsVolts } = carryOf(solution).picture;
    const [nodes, edges] = [network.pointIds.length, network.elements.length];
    // Links, bridges and points that a change added stand behind those of the harness.
    return new CompactSolution(
      network,
      Float32Array.from(nodeVolts.subarray(0, nodes)),
      shared(islandOf.subarray(0, nodes), alike?.islandOf),
      Float32Array.from(edgeAmps.subarray(0, edges)),
      shared(closed.subarray(0, edges), alike?.closed),
      rmsVolts === null ? null : Float32Array.from(rmsVolts.subarray(0, edges)),
    );
  }

  /** Volts against the reference or, on a floating island, against any one of its points. */
  potential(point: string): number {
    const node = nodeNumber(this.network.nodeOf, point);
    return node === GROUND ? 0 : this.nodeVolts[node];
  }

  island(point: string): number {
    const node = nodeNumber(this.network.nodeOf, point);
    return node === GROUND ? REFERENCE_ISLAND : this.islandOf[node];
  }

  amps(element: string): number {
    return this.edgeAmps[edgeNumber(this.network, element)];
  }

  /** Null where nothing is pulsed: then it is the size of the volts. */
  rmsVolts(element: string): number | null {
    return this.rms === null ? null : this.rms[edgeNumber(this.network, element)];
  }

  conducts(element: string): boolean {
    return this.closed[edgeNumber(this.network, element)] === 1;
  }
}

/** The other array where it says the same, so that only one of them is kept. */
function shared<T extends Int32Array | Uint8Array>(own: T, other: T | undefined): T {
  if (other === undefined) return own.slice() as T;
  for (let i = 0; i < own.length; i++) if (own[i] !== other[i]) return own.slice() as T;
  return other;
}
