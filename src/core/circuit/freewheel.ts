/**
 * Which windings have a freewheel diode beside them: a way for their current to go on while nothing feeds them.
 * It must not solve; it follows conductors alone.
 */
import type { Network } from './network.js';

/** What joins a winding to its diode is a conductor: at most this, ohms (engineering judgement). */
const MOST_LOOP_OHMS = 1;

/**
 * Those of `windings` (edges) that form a loop with a diode, out of a fitted part or a module output, over conductors that
 * conduct in `throughout` (per edge, 1). Current that goes on by way of the supply does not count.
 */
export function freewheeled(
  network: Network,
  throughout: Uint8Array,
  windings: readonly number[],
): ReadonlySet<number> {
  const { from, to, laws, elements, ohmicSiemens } = network;
  const groups = new Groups(network.pointIds.length);
  for (let edge = 0; edge < from.length; edge++) {
    const isLoad = elements[edge].role === 'load' || elements[edge].role === 'coil';
    if (throughout[edge] === 1 && !isLoad && ohmicSiemens[edge] * MOST_LOOP_OHMS >= 1)
      groups.join(from[edge], to[edge]);
  }
  const sides = new Set<string>();
  for (let edge = 0; edge < from.length; edge++) {
    const isDiode = laws[edge].kind === 'diode' && elements[edge].role !== 'load' && throughout[edge] === 1;
    if (isDiode) sides.add(`${groups.of(from[edge])} ${groups.of(to[edge])}`);
  }
  return new Set(
    windings.filter((edge) => {
      const [a, b] = [groups.of(from[edge]), groups.of(to[edge])];
      return a !== b && (sides.has(`${b} ${a}`) || sides.has(`${a} ${b}`));
    }),
  );
}

/** Nodes that conductors join; GROUND, which is -1, stands in front. */
class Groups {
  private readonly parent: Int32Array;

  constructor(nodes: number) {
    this.parent = Int32Array.from({ length: nodes + 1 }, (_, i) => i);
  }

  of(node: number): number {
    let at = node + 1;
    while (this.parent[at] !== at) {
      this.parent[at] = this.parent[this.parent[at]];
      at = this.parent[at];
    }
    return at;
  }

  join(one: number, other: number): void {
    this.parent[this.of(one)] = this.of(other);
  }
}
