// The vector kernel against the plain loop, and the assembler against bytes fixed by the WebAssembly specification.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createSweep, LANES, runSweep } from '../../../src/core/numeric/sweep.js';
import { assembleWasm } from '../../../src/core/numeric/wasm-assembler.js';

/** Visits that depend on up to five earlier ones, with any numbers, and some that are known beforehand. */
const sweeps = fc
  .array(
    fc.record({
      own: fc.double({ noDefaultInfinity: true, noNaN: true, min: -1e9, max: 1e9 }),
      multipliers: fc.array(fc.tuple(fc.nat(1000), fc.double({ min: 0, max: 1, noNaN: true })), { maxLength: 5 }),
      known: fc.oneof({ weight: 4, arbitrary: fc.constant(0) }, { weight: 1, arbitrary: fc.nat(255) }),
    }),
    { maxLength: 40 },
  )
  .map((visits) => visits.map((visit, t) => (t === 0 ? { ...visit, multipliers: [] } : visit)));

describe('the vector sweep', () => {
  it('equals the plain sweep, bit for bit, and leaves known lanes alone', () => {
    fc.assert(
      fc.property(sweeps, (visits) => {
        const start = new Int32Array(visits.length + 1);
        visits.forEach(({ multipliers }, t) => {
          start[t + 1] = start[t] + multipliers.length;
        });
        const dependsOn = Int32Array.from(visits.flatMap(({ multipliers }, t) => multipliers.map(([at]) => at % t)));
        const results = [true, false].map((plain) => {
          const sweep = createSweep(start, dependsOn, plain);
          visits.forEach(({ own, multipliers, known }, t) => {
            sweep.stream.set([own, ...multipliers.map(([, value]) => value)], sweep.start[t]);
            sweep.known[t] = known;
            for (let lane = 0; lane < LANES; lane++) sweep.values[LANES * t + lane] = 1000 * t + lane;
          });
          runSweep(sweep);
          expect(sweep.known.every((value) => value === 0)).toBe(true);
          return sweep.values;
        });
        expect(results[1]).toEqual(results[0]);
        visits.forEach(({ known }, t) => {
          for (let lane = 0; lane < LANES; lane++) {
            if (known & (1 << lane)) expect(results[0][LANES * t + lane]).toBe(1000 * t + lane);
          }
        });
      }),
    );
  });

  it('is really taken here, or the test above compares nothing', () => {
    const sweep = createSweep(Int32Array.of(0, 0), new Int32Array(0));
    // A memory of WebAssembly comes in pages of 64 KiB; plain arrays are as long as their values.
    expect(sweep.values.buffer.byteLength).toBe(65_536);
  });
});

describe('assembleWasm', () => {
  it('writes numbers in LEB128 as in the worked examples of the DWARF standard, section 7.6', () => {
    // Unsigned 2, 127, 128, 129, 130, 12857 and signed 2, -2, 127, -127, 128, -128, 129, -129.
    const constant = (value: number) => {
      const bytes = assembleWasm({ parameters: [], locals: [], text: `i32.const ${value}` });
      const at = bytes.lastIndexOf(0x41);
      return [...bytes.subarray(at + 1, -1)];
    };
    expect([2, -2, 127, -127, 128, -128, 129, -129].map(constant)).toEqual([
      [2],
      [0x7e],
      [0xff, 0],
      [0x81, 0x7f],
      [0x80, 1],
      [0x80, 0x7f],
      [0x81, 1],
      [0xff, 0x7e],
    ]);
    const offset = (value: number) => {
      const bytes = assembleWasm({ parameters: ['$a'], locals: [], text: `local.get $a\ni32.load offset=${value}` });
      return [...bytes.subarray(bytes.lastIndexOf(0x28) + 2, -1)];
    };
    expect([2, 127, 128, 129, 130, 12857].map(offset)).toEqual([
      [2],
      [127],
      [0x80, 1],
      [0x81, 1],
      [0x82, 1],
      [0xb9, 0x64],
    ]);
  });

  it('begins with the magic number and version 1', () => {
    const bytes = assembleWasm({ parameters: [], locals: [], text: 'i32.const 0 ;; a comment' });
    expect([...bytes.subarray(0, 8)]).toEqual([0x00, 0x61, 0x73, 0x6d, 1, 0, 0, 0]);
  });

  it('names what it does not know', () => {
    expect(() => assembleWasm({ parameters: [], locals: [], text: 'f32.sqrt' })).toThrow('no instruction f32.sqrt');
    expect(() => assembleWasm({ parameters: [], locals: [], text: 'local.get $a' })).toThrow('no local $a');
  });
});
