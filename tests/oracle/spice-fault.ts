// A hidden fault of the tests and benchmarks in the words of the sketch: elements and branches have the record's names, and so do points.
// It must not import anything of the graph or the circuit but types.

import type { Change } from '../../src/core/circuit/solution.js';
import type { HiddenFault } from '../support/faulty-vehicle.js';
import type { Alteration } from './sketch.js';
import type { SpiceFault } from './spice-vehicle.js';

export function spiceFaultOf(hidden: HiddenFault): SpiceFault {
  return { ...hidden, alterations: hidden.changes.map(alterationOf) };
}

function alterationOf(change: Change): Alteration {
  switch (change.kind) {
    case 'open':
      return { kind: 'open', branch: change.element };
    case 'series':
      return { kind: 'series', branch: change.element, ohms: change.ohms };
    case 'stuck':
      return { kind: 'stuck', branch: change.element, isClosed: change.closed };
    case 'moved':
      return { kind: 'moved', branch: change.element, end: change.end, to: change.to };
    case 'bridge':
      return { kind: 'bridge', from: change.from, to: change.to, ohms: change.ohms };
    case 'law':
      if (change.law.kind === 'ohmic') return { kind: 'ohmic', branch: change.element, ohms: change.law.ohms };
      if (change.law.kind === 'battery') {
        const { volts, dischargeOhms } = change.law;
        return { kind: 'battery', branch: change.element, volts, dischargeOhms };
      }
      throw new Error(`no fault of the catalogue makes a ${change.law.kind} of ${change.element}`);
  }
}
