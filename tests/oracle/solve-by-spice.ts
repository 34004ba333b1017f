// Lets the flags of a sketch come to rest on SPICE's own voltages: nothing of our solver is used but, as a start, its flags.
// It must not import anything of the graph or the circuit.

import type { Flags, Meter, Sketch } from './sketch.js';
import type { SpiceEngine } from './spice-engine.js';
import { islandsOf, type Writing, writeNet } from './spice-net.js';

export interface SpiceAnswer {
  /** Volts against the reference; null where the point floats. */
  readonly volts: ReadonlyMap<string, number | null>;
  readonly flags: Flags;
  readonly rounds: number;
}

const MOST_ROUNDS = 40;

/** A guess of the volts, null for points that float. */
export type Guess = (point: string) => number | null;

export interface SpiceStart {
  /** Without one nothing conducts at first: at dozens of kinks at once SPICE needs one to find its way. */
  readonly guess?: Guess | null;
  /** Flags that are set at first: what was pulled in, or charges, before. Those that SPICE's volts do not hold let go. */
  readonly held?: Flags;
  /** Flags that stay as they are, whatever the volts say. */
  readonly pinned?: ReadonlyMap<string, boolean>;
  readonly writing?: Writing;
}

/** Round after round until SPICE's voltages confirm every flag, also those that a start suggests. */
export async function solveBySpice(
  sketch: Sketch,
  reference: string,
  engine: SpiceEngine,
  { guess: first = null, held = new Set(), pinned = new Map(), writing = 'behavioural' }: SpiceStart = {},
): Promise<SpiceAnswer> {
  const follow = (now: Flags, meter: Meter): Flags => withPinned(sketch.next(now, meter), pinned);
  let flags = withPinned(held, pinned);
  let guess: ReadonlyMap<string, number> = new Map();
  let restless: readonly string[] = [];
  if (first !== null) {
    for (let pass = 0; pass < MOST_ROUNDS; pass++) flags = follow(flags, meterOf(first));
    guess = definite(sketch.points, first);
  }
  for (let rounds = 1; rounds <= MOST_ROUNDS; rounds++) {
    const net = { reference, branches: sketch.branches(flags) };
    // A guess upsets SPICE's choice of pivots by millivolts: only where it would not converge without one.
    const needsGuess =
      writing === 'chord' ||
      net.branches.some(({ device }) => device.kind === 'electronic' || device.kind === 'converter');
    const written = writeNet(net, needsGuess ? guess : new Map(), writing);
    const found = await engine.run(written.text);
    const islands = islandsOf(net);
    const inIsland = (point: string): number =>
      point === reference ? 0 : (found.get(String(written.nodes.get(point))) ?? Number.NaN);
    const at = (point: string): number | null => (islands.get(point) === 0 ? inIsland(point) : null);
    const meter: Meter = (plus, minus) =>
      islands.has(plus) && islands.get(plus) === islands.get(minus) ? inIsland(plus) - inIsland(minus) : null;
    const next = follow(flags, meter);
    const isRepeated = writing === 'behavioural' || isSame(guess, definite(islands.keys(), inIsland));
    if (isRepeated && next.size === flags.size && [...next].every((flag) => flags.has(flag))) {
      return { volts: new Map([...sketch.points].map((point) => [point, at(point)])), flags, rounds };
    }
    restless = [...new Set([...flags, ...next])].filter((flag) => flags.has(flag) !== next.has(flag));
    flags = next;
    guess = definite(islands.keys(), inIsland);
  }
  throw new Error(`flags do not rest in ${MOST_ROUNDS} rounds: ${restless.join(', ')}`);
}

/** Whether what came out is what went in, to a microvolt. */
function isSame(before: ReadonlyMap<string, number>, after: ReadonlyMap<string, number>): boolean {
  return [...after].every(([point, volts]) => Math.abs(volts - (before.get(point) ?? Number.NaN)) < 1e-6);
}

function withPinned(flags: Flags, pinned: ReadonlyMap<string, boolean>): Flags {
  if (pinned.size === 0) return flags;
  return new Set([...flags, ...pinned.keys()].filter((flag) => pinned.get(flag) ?? true));
}

export function meterOf(at: Guess): Meter {
  return (plus, minus) => {
    const [high, low] = [at(plus), at(minus)];
    return high === null || low === null ? null : high - low;
  };
}

function definite(points: Iterable<string>, at: Guess): ReadonlyMap<string, number> {
  return new Map(
    [...points].flatMap((point): [string, number][] => {
      const volts = at(point);
      return volts === null || !Number.isFinite(volts) ? [] : [[point, volts]];
    }),
  );
}
