// The inner loop of sweep.ts in WebAssembly vector instructions, two lanes in each.
// It must compute exactly what sweepPlain does, in the same order.

import { assembleWasm } from './wasm-assembler.js';

/** Arrays of a sweep in a memory that the kernel can reach, and the kernel. */
export interface VectorSweep {
  readonly values: Float64Array;
  readonly stream: Float64Array;
  readonly places: Int32Array;
  readonly known: Uint8Array;
  /** Sweeps from a visit, of which the stream begins at `q`, to the first with a known lane or the end; returns it. */
  readonly run: (visit: number, q: number) => number;
}

/*
 * Pointers are byte addresses. $x: the visit's own values; $q: its stream; $p: its places, parallel to $q but of half
 * the width. Offsets 0, 16, 32, 48 are lanes 0-1, 2-3, 4-5, 6-7. The stream begins at address 0 and the values right after it.
 */
const KERNEL = {
  parameters: ['$visit', '$end', '$values', '$x', '$q', '$p', '$known'],
  locals: [
    { name: '$left', type: 'i32' },
    { name: '$other', type: 'i32' },
    { name: '$x01', type: 'v128' },
    { name: '$x23', type: 'v128' },
    { name: '$x45', type: 'v128' },
    { name: '$x67', type: 'v128' },
    { name: '$multiplier', type: 'v128' },
  ],
  text: `
  loop ;; over visits
    ;; if (visit === end || known[visit] !== 0) return visit
    local.get $visit
    local.get $end
    i32.eq
    if
      local.get $visit
      return
    end
    local.get $known
    local.get $visit
    i32.add
    i32.load8_u offset=0
    if
      local.get $visit
      return
    end

    ;; x = J / total in every lane; left = number of multipliers
    local.get $q
    v128.load64_splat offset=0
    local.tee $x01
    local.tee $x23
    local.tee $x45
    local.set $x67
    local.get $p
    i32.load offset=0
    local.set $left

    block
      local.get $left
      i32.eqz
      br_if 0
      loop ;; over multipliers
        local.get $q
        v128.load64_splat offset=8
        local.set $multiplier
        local.get $values
        local.get $p
        i32.load offset=4
        i32.add
        local.set $other
        ${['$x01', '$x23', '$x45', '$x67'].map(multiplyAdd).join('')}
        ${step('$q', 8)}
        ${step('$p', 4)}
        local.get $left
        i32.const 1
        i32.sub
        local.tee $left
        br_if 0
      end
    end

    ${['$x01', '$x23', '$x45', '$x67'].map(store).join('')}
    ${step('$q', 8)}
    ${step('$p', 4)}
    ${step('$x', 64)}
    ${step('$visit', 1)}
    br 0
  end
  unreachable
`,
} as const;

function multiplyAdd(lanes: string, pair: number): string {
  return `
        local.get ${lanes}
        local.get $multiplier
        local.get $other
        v128.load offset=${16 * pair}
        f64x2.mul
        f64x2.add
        local.set ${lanes}`;
}

function store(lanes: string, pair: number): string {
  return `
    local.get $x
    local.get ${lanes}
    v128.store offset=${16 * pair}`;
}

function step(pointer: string, bytes: number): string {
  return `
    local.get ${pointer}
    i32.const ${bytes}
    i32.add
    local.set ${pointer}`;
}

/** What is used of the host's WebAssembly; the compiler's own types for it belong to browsers. */
interface WasmHost {
  validate(bytes: Uint8Array<ArrayBuffer>): boolean;
  Memory: new (descriptor: { initial: number }) => { readonly buffer: ArrayBuffer };
  Module: new (bytes: Uint8Array<ArrayBuffer>) => object;
  Instance: new (
    module: object,
    imports: object,
  ) => { readonly exports: { readonly run: (...args: number[]) => number } };
}

const PAGE_BYTES = 65_536;
const VISIT_BYTES = 64;

/** Undefined where the host has no WebAssembly with vector instructions. */
export function vectorSweep(sizes: { visits: number; stream: number }): VectorSweep | undefined {
  const host = (globalThis as { WebAssembly?: WasmHost }).WebAssembly;
  const bytes = assembleWasm(KERNEL);
  if (host?.validate(bytes) !== true) return undefined;

  // Values first, so that they stand at multiples of 16 bytes and a visit within one cache line.
  const streamAt = VISIT_BYTES * sizes.visits;
  const placesAt = streamAt + 8 * sizes.stream;
  const knownAt = placesAt + 4 * sizes.stream;
  const memory = new host.Memory({ initial: Math.ceil((knownAt + sizes.visits) / PAGE_BYTES) });
  const { run } = new host.Instance(new host.Module(bytes), { env: { memory } }).exports;
  return {
    values: new Float64Array(memory.buffer, 0, 8 * sizes.visits),
    stream: new Float64Array(memory.buffer, streamAt, sizes.stream),
    places: new Int32Array(memory.buffer, placesAt, sizes.stream),
    known: new Uint8Array(memory.buffer, knownAt, sizes.visits),
    run: (visit, q) => run(visit, sizes.visits, 0, VISIT_BYTES * visit, streamAt + 8 * q, placesAt + 4 * q, knownAt),
  };
}
