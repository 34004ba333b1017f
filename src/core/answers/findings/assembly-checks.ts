/**
 * Check of assemblies: one that cannot come out without cutting a wire.
 * It must not find the cut itself; `free-assembly` does, exactly.
 */
import { freeAssembly } from '../free-assembly.js';
import type { Check } from './check.js';

export const tiedAssembly: Check = {
  code: 'assembly-without-plug',
  severity: 'warning',
  remedy: 'Put a connector into these wires where the assembly meets the rest.',
  *find({ model }) {
    for (const { address, name } of model.graph.record.assemblies ?? []) {
      const { tiedWithoutPlug } = freeAssembly(model, address);
      if (tiedWithoutPlug.length === 0) continue;
      yield {
        at: [address],
        points: tiedWithoutPlug,
        numbers: [{ what: 'wires to cut', value: tiedWithoutPlug.length, unit: 'wires' }],
        text: `Assembly ${address}${name === undefined ? '' : ` (${name})`} cannot be taken out without cutting ${tiedWithoutPlug.join(', ')}.`,
      };
    }
  },
};
