// Turns one function in flat WebAssembly text into the bytes of a module.
// It must stay small: it knows the instructions that sweep-kernel.ts uses and no others.

/*
 * WebAssembly Core Specification 2.0, section 5 (binary format). One instruction per line, `;;` starts a comment, locals
 * are `$names`, labels are depths, memory instructions take `offset=`. The module imports its memory as env.memory and
 * exports the function as run.
 */

export interface WasmFunction {
  /** All i32; the function returns one i32. */
  readonly parameters: readonly string[];
  readonly locals: readonly { readonly name: string; readonly type: keyof typeof TYPES }[];
  readonly text: string;
}

const TYPES = { i32: 0x7f, v128: 0x7b } as const;
const FUNCTION_TYPE = 0x60;
const NO_RESULT = 0x40;
const SIMD = 0xfd;

type Operand = 'none' | 'block' | 'label' | 'local' | 'constant' | 'memory';
interface Instruction {
  readonly opcode: readonly number[];
  readonly operand: Operand;
  /** Alignment that memory instructions promise, as a power of two. */
  readonly alignment?: number;
}

const INSTRUCTIONS = new Map<string, Instruction>([
  ['unreachable', { opcode: [0x00], operand: 'none' }],
  ['block', { opcode: [0x02], operand: 'block' }],
  ['loop', { opcode: [0x03], operand: 'block' }],
  ['if', { opcode: [0x04], operand: 'block' }],
  ['end', { opcode: [0x0b], operand: 'none' }],
  ['br', { opcode: [0x0c], operand: 'label' }],
  ['br_if', { opcode: [0x0d], operand: 'label' }],
  ['return', { opcode: [0x0f], operand: 'none' }],
  ['local.get', { opcode: [0x20], operand: 'local' }],
  ['local.set', { opcode: [0x21], operand: 'local' }],
  ['local.tee', { opcode: [0x22], operand: 'local' }],
  ['i32.load', { opcode: [0x28], operand: 'memory', alignment: 2 }],
  ['i32.load8_u', { opcode: [0x2d], operand: 'memory', alignment: 0 }],
  ['i32.const', { opcode: [0x41], operand: 'constant' }],
  ['i32.eqz', { opcode: [0x45], operand: 'none' }],
  ['i32.eq', { opcode: [0x46], operand: 'none' }],
  ['i32.add', { opcode: [0x6a], operand: 'none' }],
  ['i32.sub', { opcode: [0x6b], operand: 'none' }],
  ['i32.or', { opcode: [0x72], operand: 'none' }],
  ['v128.load', { opcode: [SIMD, 0x00], operand: 'memory', alignment: 4 }],
  ['v128.load64_splat', { opcode: [SIMD, 0x0a], operand: 'memory', alignment: 3 }],
  ['v128.store', { opcode: [SIMD, 0x0b], operand: 'memory', alignment: 4 }],
  ['f64x2.add', { opcode: [SIMD, 0xf0, 0x01], operand: 'none' }],
  ['f64x2.mul', { opcode: [SIMD, 0xf2, 0x01], operand: 'none' }],
]);

/** Bytes of a module with this one function. Throws for an instruction or local that is not known. */
export function assembleWasm({ parameters, locals, text }: WasmFunction): Uint8Array<ArrayBuffer> {
  const names = [...parameters, ...locals.map(({ name }) => name)];
  const code = text
    .split('\n')
    .map((line) => line.replace(/;;.*/, '').trim())
    .filter((line) => line !== '')
    .flatMap((line) => instructionBytes(line, names));
  const declared = [...unsigned(locals.length), ...locals.flatMap(({ type }) => [1, TYPES[type]])];
  const body = [...declared, ...code, 0x0b];
  const type = [FUNCTION_TYPE, ...vector(parameters.map(() => [TYPES.i32])), ...vector([[TYPES.i32]])];
  const memoryOfAnySize = [0x02, 0x00, 0x00];
  return Uint8Array.from([
    ...[0x00, 0x61, 0x73, 0x6d, 0x01, 0x00, 0x00, 0x00],
    ...section(1, vector([type])),
    ...section(2, vector([[...name('env'), ...name('memory'), ...memoryOfAnySize]])),
    ...section(3, vector([[0]])),
    ...section(7, vector([[...name('run'), 0x00, 0]])),
    ...section(10, vector([[...unsigned(body.length), ...body]])),
  ]);
}

function instructionBytes(line: string, names: readonly string[]): number[] {
  const [mnemonic, argument = ''] = line.split(/\s+/);
  const instruction = INSTRUCTIONS.get(mnemonic);
  if (instruction === undefined) throw new Error(`wasm: no instruction ${mnemonic}`);
  return [...instruction.opcode, ...operandBytes(instruction, argument, names)];
}

function operandBytes({ operand, alignment = 0 }: Instruction, argument: string, names: readonly string[]): number[] {
  switch (operand) {
    case 'none':
      return [];
    case 'block':
      return [NO_RESULT];
    case 'label':
      return unsigned(Number(argument));
    case 'local': {
      const index = names.indexOf(argument);
      if (index === -1) throw new Error(`wasm: no local ${argument}`);
      return unsigned(index);
    }
    case 'constant':
      return signed(Number(argument));
    case 'memory':
      return [alignment, ...unsigned(Number(argument.replace('offset=', '')))];
    default:
      return operand satisfies never;
  }
}

function section(id: number, content: readonly number[]): number[] {
  return [id, ...unsigned(content.length), ...content];
}

function vector(items: readonly (readonly number[])[]): number[] {
  return [...unsigned(items.length), ...items.flat()];
}

function name(text: string): number[] {
  return [...unsigned(text.length), ...Array.from(text, (character) => character.charCodeAt(0))];
}

/** LEB128 of a whole number >= 0. */
function unsigned(value: number): number[] {
  return value < 0x80 ? [value] : [(value & 0x7f) | 0x80, ...unsigned(value >>> 7)];
}

/** Signed LEB128. */
function signed(value: number): number[] {
  return value >= -0x40 && value < 0x40 ? [value & 0x7f] : [(value & 0x7f) | 0x80, ...signed(value >> 7)];
}
