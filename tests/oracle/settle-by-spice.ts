// A state of a record brought to rest by SPICE alone: what is overloaded opens one at a time, what was open or pulled in before stays so.
// It must not import anything of the graph or the circuit.

import type { HarnessRecord } from '../../src/core/record/record.js';
import type { OperatingState } from '../../src/core/record/state.js';
import type { Alteration, Sketch } from './sketch.js';
import { sketchRecord } from './sketch-record.js';
import { type SpiceAnswer, type SpiceStart, solveBySpice } from './solve-by-spice.js';
import type { SpiceEngine } from './spice-engine.js';

/** Where a state left off: the state after it begins with this. */
export interface SpiceRest extends SpiceAnswer {
  readonly sketch: Sketch;
  /** Branches of fuses, breakers and outputs that opened, in the order in which they went. */
  readonly opened: readonly string[];
}

export interface SpiceSettling extends SpiceStart {
  readonly alterations?: readonly Alteration[];
  /** By branch: its main figure over the recorded one. */
  readonly factors?: ReadonlyMap<string, number>;
  /** What is open from the start. */
  readonly opened?: readonly string[];
}

const MOST_OPENED = 12;

/** Across its open contacts a heater holds a breaker open above this, volts: as the project documents it. */
const HOLDS_ABOVE_VOLTS = 1;

/** Throws when SPICE finds no rest, or when more opens than a vehicle has fuses to lose. */
export async function settleBySpice(
  record: HarnessRecord,
  state: OperatingState,
  engine: SpiceEngine,
  settling: SpiceSettling = {},
): Promise<SpiceRest> {
  const { alterations = [], factors = new Map(), ...start } = settling;
  const restored = new Set(state.restored ?? []);
  let opened = (settling.opened ?? []).filter((branch) => !restored.has(partOf(branch)));
  let holding: readonly string[] = opened;
  let from: SpiceStart = start;
  for (;;) {
    const open = opened.map((branch): Alteration => ({ kind: 'open', branch }));
    const { sketch, reference } = sketchRecord(record, state, [...alterations, ...open], factors);
    const answer = await solveBySpice(sketch, reference, engine, from);
    const rest: SpiceRest = { ...answer, sketch, opened };
    from = { ...start, held: answer.flags, guess: (point) => answer.volts.get(point) ?? null };
    const next = overloaded(rest);
    if (next !== null) {
      if (opened.length >= MOST_OPENED) throw new Error(`opens one after the other: ${opened.join(', ')}`);
      opened = [...opened, next];
      continue;
    }
    const released = holding.filter((branch) => letsGo(rest, branch));
    if (released.length === 0) return rest;
    holding = holding.filter((branch) => !released.includes(branch));
    opened = opened.filter((branch) => !released.includes(branch));
  }
}

/** Electronics first, then whatever is furthest over what it holds. */
function overloaded(rest: SpiceRest): string | null {
  const [worst] = [...rest.sketch.protections]
    .map(([branch, it]) => ({ branch, it, ratio: Math.abs(ampsOf(rest, branch)) / it.opensAtAmps }))
    .filter(({ ratio }) => ratio >= 1)
    .sort((a, b) => Number(b.it.isElectronic) - Number(a.it.isElectronic) || b.ratio - a.ratio);
  return worst?.branch ?? null;
}

function letsGo(rest: SpiceRest, branch: string): boolean {
  if (rest.sketch.protections.get(branch)?.letsGo !== true) return false;
  const ends = rest.sketch.flagged.get(branch);
  const volts = ends === undefined ? null : voltsBetween(rest, ends.a, ends.b);
  return volts === null || Math.abs(volts) < HOLDS_ABOVE_VOLTS;
}

export function voltsBetween({ volts }: Pick<SpiceRest, 'volts'>, red: string, black: string): number | null {
  const [plus, minus] = [volts.get(red) ?? null, volts.get(black) ?? null];
  return plus === null || minus === null ? null : plus - minus;
}

/** From a to b through a resistance, or a driver at its limit; 0 where it is open. */
export function ampsOf(rest: SpiceRest, id: string): number {
  const branch = rest.sketch.flagged.get(id);
  const device = branch?.device(rest.flags) ?? null;
  if (device?.kind === 'current') return -device.amps;
  if (branch === undefined || device?.kind !== 'resistor') return 0;
  return (voltsBetween(rest, branch.a, branch.b) ?? 0) / device.ohms;
}

const partOf = (branch: string): string => branch.split(':')[0] ?? branch;
