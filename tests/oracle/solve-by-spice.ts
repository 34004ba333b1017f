// Lets the flags of a sketch come to rest on SPICE's own voltages: nothing of our solver is used but, as a start, its flags.
// It must not import anything of the graph or the circuit.

import type { Flags, Meter, Sketch } from './sketch.js';
import type { SpiceEngine } from './spice-engine.js';
import { attachedPoints, writeNet } from './spice-net.js';

export interface SpiceAnswer {
  /** Volts against the reference; null where the point floats. */
  readonly volts: ReadonlyMap<string, number | null>;
  readonly flags: Flags;
  readonly rounds: number;
}

const MOST_ROUNDS = 40;

/** From nothing pulled and nothing conducting, round after round, until SPICE's voltages confirm every flag. */
export async function solveBySpice(sketch: Sketch, reference: string, engine: SpiceEngine): Promise<SpiceAnswer> {
  let flags: Flags = new Set();
  let guess: ReadonlyMap<string, number> = new Map();
  for (let rounds = 1; rounds <= MOST_ROUNDS; rounds++) {
    const net = { reference, branches: sketch.branches(flags) };
    const written = writeNet(net, guess);
    const found = await engine.run(written.text);
    const attached = attachedPoints(net);
    const at = (point: string): number | null => {
      if (!attached.has(point)) return null;
      return point === reference ? 0 : (found.get(String(written.nodes.get(point))) ?? Number.NaN);
    };
    const meter: Meter = (plus, minus) => {
      const [high, low] = [at(plus), at(minus)];
      return high === null || low === null ? null : high - low;
    };
    const next = sketch.next(flags, meter);
    if (next.size === flags.size && [...next].every((flag) => flags.has(flag))) {
      return { volts: new Map([...sketch.points].map((point) => [point, at(point)])), flags, rounds };
    }
    flags = next;
    guess = new Map(
      [...attached].flatMap((point) => (Number.isFinite(at(point)) ? [[point, at(point) ?? 0] as const] : [])),
    );
  }
  throw new Error(`flags do not rest in ${MOST_ROUNDS} rounds`);
}
