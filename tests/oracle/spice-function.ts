// What a function of a load or a starter hangs between, and below which volts it is weak or dead: from the words of the record.
// It must not import anything of the graph or the circuit.

import { figure } from '../../src/core/record/figure.js';
import { isPlugIn } from '../../src/core/record/points.js';
import type { HarnessRecord } from '../../src/core/record/record.js';
import * as loads from '../../src/core/record/resolve-loads.js';
import { systemVolts } from '../../src/core/record/resolve-sources.js';

export interface SpiceFunction {
  readonly branch: string;
  readonly feed: string;
  readonly return: string;
  readonly law: string;
  readonly weakBelowVolts: number;
  readonly deadBelowVolts: number;
}

/** A part with one function gives it its own address; else it is `part:name`. A starter's is its motor. */
export function functionOf(record: HarnessRecord, id: string): SpiceFunction {
  const system = systemVolts(record).value;
  for (const part of record.parts) {
    const { address } = part;
    if (part.kind === 'starter' && address === id) {
      const rated = loads.ratedVolts(part, system);
      return {
        branch: `${address}:motor`,
        feed: `${address}:inner`,
        return: `${address}/${part.caseOn === undefined ? '31' : 'case'}`,
        law: 'motor',
        weakBelowVolts: figure(undefined, 'load.motor.weakRatio', rated).value,
        deadBelowVolts: figure(undefined, 'load.motor.startRatio', rated).value,
      };
    }
    if (part.kind !== 'load') continue;
    const fn = part.functions.find(
      ({ name }) => id === `${address}:${name}` || (part.functions.length === 1 && id === address),
    );
    if (fn === undefined) continue;
    const at = (terminal: string): string =>
      isPlugIn(part) && terminal !== 'case' ? `${address}.body/${terminal}` : `${address}/${terminal}`;
    return {
      branch: `${address}:${fn.name}`,
      feed: at(fn.feed ?? 'feed'),
      return: at(fn.return ?? 'return'),
      law: fn.law,
      weakBelowVolts: loads.weakBelowVolts(fn, system).value,
      deadBelowVolts: loads.deadBelowVolts(fn, system).value,
    };
  }
  throw new Error(`no function ${id}`);
}
