// A sample of the answers that the benchmark's vehicles gave, asked again of SPICE: netlist from the record, same hidden fault, same drawn figures.
// It must not touch the run itself: answers are compared after it, before any error of the meter.

import type { Check } from '../../../src/core/diagnosis/shapes/check.js';
import type { HarnessRecord } from '../../../src/core/record/record.js';
import type { SpiceStart } from '../../oracle/solve-by-spice.js';
import { type SpiceEngine, wasmEngine } from '../../oracle/spice-engine.js';
import { spiceFaultOf } from '../../oracle/spice-fault.js';
import { SpiceVehicle } from '../../oracle/spice-vehicle.js';
import type { FaultyVehicle, HiddenFault } from '../../support/faulty-vehicle.js';
import type { SeenCondition } from '../../support/person-with-meter.js';
import { seededRandom } from '../../support/random.js';

export interface SpiceComparison {
  readonly agreed: number;
  readonly compared: number;
  /** Of volts alone. */
  readonly worstMillivolts: number;
  /** Asked, and SPICE found no rest: an electronic load about its cut-off, or fuses one after the other. */
  readonly withoutRest: number;
  /** Of the sample, not asked for want of time. */
  readonly notAsked: number;
  readonly differences: readonly string[];
  /** Why nothing was compared; null: it was. */
  readonly absent: string | null;
}

interface Sampled {
  readonly faults: readonly HiddenFault[];
  readonly factors: ReadonlyMap<string, number>;
  readonly check: Check;
  readonly truth: number | SeenCondition;
  readonly start: SpiceStart;
}

const EVERY = 10;
/** PRECISIONS of the circuit: 1 mV. Amperes: as much over a milliohm of joint, but at least a thousandth. */
const MOST_VOLTS = 1e-3;
const MOST_AMPS = 5e-3;
const MOST_AMPS_SHARE = 1e-3;

export class SpiceSample {
  private readonly sampled: Sampled[] = [];
  private asked = 0;

  /** Every tenth answer in volts, amperes or by looking; what comes and goes has no one answer. */
  note(check: Check, vehicle: FaultyVehicle): void {
    if (check.kind !== 'volts' && check.kind !== 'clamp' && check.kind !== 'observe') return;
    if (vehicle.left.some(({ isIntermittent }) => isIntermittent)) return;
    this.asked += 1;
    if (this.asked % EVERY !== 1) return;
    const truth = vehicle.truly(check);
    if (truth === null) return;
    const { left: faults, factors } = vehicle;
    this.sampled.push({ faults, factors, check, truth, start: vehicle.stand(check.state) });
  }

  async compare(record: HarnessRecord, mostSeconds: number): Promise<SpiceComparison> {
    let engine: SpiceEngine;
    try {
      engine = await wasmEngine();
    } catch (error) {
      return {
        ...NOTHING,
        notAsked: this.sampled.length,
        absent: error instanceof Error ? error.message : 'no engine',
      };
    }
    const started = performance.now();
    let [agreed, compared, worstVolts, withoutRest, asked] = [0, 0, 0, 0, 0];
    const differences: string[] = [];
    for (const { faults, factors, check, truth, start } of this.sampled) {
      if (performance.now() - started > 1_000 * mostSeconds) break;
      asked += 1;
      const vehicle = new SpiceVehicle(record, faults.map(spiceFaultOf), factors, engine, seededRandom(1));
      vehicle.startIn = () => start;
      try {
        const theirs = await vehicle.truly(check);
        compared += 1;
        if (check.kind === 'volts') worstVolts = Math.max(worstVolts, Math.abs(Number(truth) - Number(theirs)));
        if (isSame(check, truth, theirs)) agreed += 1;
        else
          differences.push(
            `${JSON.stringify(check)}: ${truth}, SPICE ${theirs}, ${faults.map(({ repair }) => repair)}`,
          );
      } catch (error) {
        withoutRest += 1;
        differences.push(`${JSON.stringify(check)}: ${error instanceof Error ? error.message : 'no answer'}`);
      }
    }
    const notAsked = this.sampled.length - asked;
    return { agreed, compared, worstMillivolts: 1_000 * worstVolts, withoutRest, notAsked, differences, absent: null };
  }
}

const NOTHING = { agreed: 0, compared: 0, worstMillivolts: 0, withoutRest: 0, differences: [] } as const;

function isSame(check: Check, ours: number | SeenCondition, theirs: number | SeenCondition | null): boolean {
  if (typeof ours === 'string' || typeof theirs !== 'number') return ours === theirs;
  const most = check.kind === 'volts' ? MOST_VOLTS : MOST_AMPS + MOST_AMPS_SHARE * Math.abs(ours);
  return Math.abs(ours - theirs) <= most;
}

/** One line for all harnesses, then each difference. */
export function spiceLines(comparisons: readonly SpiceComparison[]): string[] {
  const sum = (of: (it: SpiceComparison) => number): number => comparisons.reduce((total, it) => total + of(it), 0);
  const absent = comparisons.find((it) => it.absent !== null);
  if (absent !== undefined) return [`SPICE is not there (${absent.absent}): no answer was compared`];
  const worst = Math.max(0, ...comparisons.map(({ worstMillivolts }) => worstMillivolts));
  return [
    `SPICE agrees on ${sum((it) => it.agreed)} of ${sum((it) => it.compared)} answers, largest difference ${worst.toPrecision(2)} mV; it found no rest in ${sum((it) => it.withoutRest)} more, and ${sum((it) => it.notAsked)} of the sample were left out for want of time`,
    ...comparisons.flatMap(({ differences }) => differences),
  ];
}
