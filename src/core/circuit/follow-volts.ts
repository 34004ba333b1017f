/**
 * What an element learns from each step of the solver: the volts at which its law is frozen, its source's offset.
 * Each rule is a fixed point that the solver reaches together with the network; it must not solve anything itself.
 */
import { GROUND } from '../numeric/types.js';
import type { LawMemory } from './laws.js';
import type { Network } from './network.js';

export interface StepResult {
  readonly volts: Float64Array;
  readonly ampsOf: (edge: number) => number;
  /** Volts measured at batteries: edge -> volts between its ends. */
  readonly measured: ReadonlyMap<number, number>;
}

/** A regulator adds at most so much for the drop to its sense point; beyond, the sense lead is taken as lost (from memory). */
const MOST_SENSE_VOLTS = 2;

/** Moves the memory of one conducting edge to what the step shows. */
export function followVolts(network: Network, edge: number, memory: LawMemory, step: StepResult): void {
  const law = network.laws[edge];
  const at = (node: number): number => (node === GROUND ? 0 : step.volts[node]);
  const volts = at(network.from[edge]) - at(network.to[edge]);
  switch (law.kind) {
    case 'ptc':
    case 'constant-power':
    case 'draw':
      assume(memory, volts);
      return;
    case 'converter-input':
      assume(memory, volts);
      memory.outputWatts = outputWatts(network, law.output, at, step.ampsOf);
      return;
    case 'battery': {
      const measured = step.measured.get(edge);
      if (measured === undefined) {
        // What a state before measured holds in that state alone.
        memory.offsetVolts = 0;
        return;
      }
      // E = V + I R, with I the current out of the battery: what the EMF must be for the terminals to show what was read.
      const amps = -step.ampsOf(edge);
      memory.offsetVolts = measured + amps * (amps >= 0 ? law.dischargeOhms : law.chargeOhms) - law.volts;
      return;
    }
    case 'regulated':
      if (law.sense === null) return;
      memory.offsetVolts = senseOffset(volts - (at(network.nodeOf.get(law.sense) ?? GROUND) - at(network.to[edge])));
      return;
    case 'ohmic':
    case 'driver':
    case 'filament':
    case 'diode':
    case 'motor':
      return;
  }
}

/**
 * The next volts to assume. What is found is nearly a straight line in what was assumed, found = c + slope * assumed, so
 * two steps tell where the two meet (Steffensen's method); a slope near 1 tells nothing.
 */
function assume(memory: LawMemory, found: number): void {
  const { assumedVolts: assumed, lastAssumedVolts, lastFoundVolts } = memory;
  const slope = (found - lastFoundVolts) / (assumed - lastAssumedVolts);
  memory.lastAssumedVolts = assumed;
  memory.lastFoundVolts = found;
  memory.assumedVolts = Math.abs(slope) < STEEPEST ? (found - slope * assumed) / (1 - slope) : found;
}

/** Slopes beyond this come from other elements that moved. */
const STEEPEST = 0.5;

/** Volts lost between the regulator and its sense point. */
const senseOffset = (lost: number): number => Math.min(MOST_SENSE_VOLTS, Math.max(0, lost));

/** Watts that the output of a converter delivers now. */
function outputWatts(
  network: Network,
  output: string,
  at: (node: number) => number,
  ampsOf: (edge: number) => number,
): number {
  const edge = network.edgeOf.get(output);
  if (edge === undefined) return 0;
  return Math.max(0, -(at(network.from[edge]) - at(network.to[edge])) * ampsOf(edge));
}
