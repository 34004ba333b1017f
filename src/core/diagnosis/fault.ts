/**
 * What can be wrong: one fault is one way in which one thing behaves other than recorded, with its prior weight and repair.
 * Types only. Built by `catalogue`, ranked by `suspects`.
 */
import type { Change } from '../circuit/solution.js';

export type FaultMode =
  | 'open'
  | 'intermittent'
  | 'high-resistance'
  | 'short-to-body'
  | 'short-to-neighbour'
  | 'swapped-cavities'
  | 'missing'
  | 'wrong-rating'
  | 'premature-open'
  | 'coil-open'
  | 'stuck-open'
  | 'stuck-closed'
  | 'burnt-contact'
  | 'load-open'
  | 'load-shorted'
  | 'load-part-shorted'
  | 'diode-open'
  | 'diode-shorted'
  | 'diode-reversed'
  | 'output-dead'
  | 'output-stuck-on'
  | 'module-dead'
  | 'battery-flat'
  | 'battery-weak'
  | 'not-charging'
  | 'record-wrong'
  | 'unknown';

export interface Fault {
  /** `W7:open`, `W7@X1.plug/1:high-resistance 5`. Unique in a catalogue. */
  readonly id: string;
  readonly mode: FaultMode;
  /** Element at fault; null where no element is (record wrong, unknown). */
  readonly element: string | null;
  /** Part address or wire label: where the hand goes. */
  readonly owner: string;
  readonly changes: readonly Change[];
  /** Added ohms where the mode is a matter of degree: one point of a grid over decades; else null. */
  readonly ohms: number | null;
  /** Relative to the other faults of the catalogue; not a probability. */
  readonly weight: number;
  /** Faults with the same key are mended by the same act at the same place. */
  readonly repair: string;
  /** What a wrong wire, pin or part would be called on the bench. */
  readonly description: string;
}

/** Faults whose effect no circuit can show. They always keep probability. */
export const OUT_OF_CATALOGUE: ReadonlySet<FaultMode> = new Set(['record-wrong', 'unknown']);
