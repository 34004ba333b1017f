// Lets the flags of a sketch come to rest on SPICE's own voltages: nothing of our solver is used but, as a start, its flags.
// It must not import anything of the graph or the circuit.

import type { Flags, Meter, Sketch } from './sketch.js';
import type { SpiceEngine } from './spice-engine.js';
import { attachedPoints, type Writing, writeNet } from './spice-net.js';

export interface SpiceAnswer {
  /** Volts against the reference; null where the point floats. */
  readonly volts: ReadonlyMap<string, number | null>;
  readonly flags: Flags;
  readonly rounds: number;
}

const MOST_ROUNDS = 40;

/** Where to begin: a guess of the volts, null for points that float. */
export type Start = (point: string) => number | null;

/**
 * Round after round until SPICE's voltages confirm every flag. Begins with nothing pulled and nothing conducting, or with
 * the flags that a start suggests: at dozens of kinks at once SPICE needs one to find its way, and a wrong one is not
 * confirmed.
 */
export async function solveBySpice(
  sketch: Sketch,
  reference: string,
  engine: SpiceEngine,
  start: Start | null,
  writing: Writing = 'behavioural',
): Promise<SpiceAnswer> {
  let flags: Flags = new Set();
  let guess: ReadonlyMap<string, number> = new Map();
  let restless: readonly string[] = [];
  if (start !== null) {
    for (let pass = 0; pass < MOST_ROUNDS; pass++) flags = sketch.next(flags, meterOf(start));
    guess = definite(sketch.points, start);
  }
  for (let rounds = 1; rounds <= MOST_ROUNDS; rounds++) {
    const net = { reference, branches: sketch.branches(flags) };
    // A guess upsets SPICE's choice of pivots by millivolts: only where it would not converge without one.
    const needsGuess =
      writing === 'chord' ||
      net.branches.some(({ device }) => device.kind === 'electronic' || device.kind === 'converter');
    const written = writeNet(net, needsGuess ? guess : new Map(), writing);
    const found = await engine.run(written.text);
    const attached = attachedPoints(net);
    const at = (point: string): number | null => {
      if (!attached.has(point)) return null;
      return point === reference ? 0 : (found.get(String(written.nodes.get(point))) ?? Number.NaN);
    };
    const next = sketch.next(flags, meterOf(at));
    const isRepeated = writing === 'behavioural' || isSame(guess, definite(attached, at));
    if (isRepeated && next.size === flags.size && [...next].every((flag) => flags.has(flag))) {
      return { volts: new Map([...sketch.points].map((point) => [point, at(point)])), flags, rounds };
    }
    restless = [...new Set([...flags, ...next])].filter((flag) => flags.has(flag) !== next.has(flag));
    flags = next;
    guess = definite(attached, at);
  }
  throw new Error(`flags do not rest in ${MOST_ROUNDS} rounds: ${restless.join(', ')}`);
}

/** Whether what came out is what went in, to a microvolt. */
function isSame(before: ReadonlyMap<string, number>, after: ReadonlyMap<string, number>): boolean {
  return [...after].every(([point, volts]) => Math.abs(volts - (before.get(point) ?? Number.NaN)) < 1e-6);
}

function meterOf(at: Start): Meter {
  return (plus, minus) => {
    const [high, low] = [at(plus), at(minus)];
    return high === null || low === null ? null : high - low;
  };
}

function definite(points: Iterable<string>, at: Start): ReadonlyMap<string, number> {
  return new Map(
    [...points].flatMap((point): [string, number][] => {
      const volts = at(point);
      return volts === null || !Number.isFinite(volts) ? [] : [[point, volts]];
    }),
  );
}
