// SPICE engines: ngspice as WebAssembly from npm, and Debian's ngspice where it is installed.
// It must not interpret netlists; it runs one and hands back node voltages, or throws with what the engine said.

import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Simulation } from 'eecircuit-engine';
import { ngspicePath } from '../support/outside-tools.js';

/** SPICE node name -> volts. */
export type NodeVolts = ReadonlyMap<string, number>;

export interface SpiceEngine {
  readonly name: string;
  run(netlist: string): Promise<NodeVolts>;
}

/** A run that fails never ends: it is given up after so long. */
const LONGEST_RUN_MILLISECONDS = 15_000;

/**
 * ngspice as WebAssembly. Started once, and again after a run that never ended; a failed run leaves the data of the one before,
 * so errors are looked at first.
 */
export async function wasmEngine(): Promise<SpiceEngine> {
  let simulation = await started();
  return {
    name: 'ngspice (WebAssembly)',
    async run(netlist) {
      simulation.setNetList(netlist);
      let timer: NodeJS.Timeout | undefined;
      const tooLong = new Promise<never>((_resolve, reject) => {
        timer = setTimeout(() => reject(new Error('SPICE found no operating point')), LONGEST_RUN_MILLISECONDS);
      });
      const result = await Promise.race([simulation.runSim(), tooLong]).catch(async (error: unknown) => {
        simulation = await started();
        throw error;
      });
      clearTimeout(timer);
      const errors = simulation.getError().filter((line) => /error|fatal|aborted/i.test(line));
      if (errors.length > 0) throw new Error(`SPICE: ${errors.join('; ')}`);
      if (result.dataType !== 'real') throw new Error('SPICE gave no operating point');
      const nodes = result.data.filter(({ type }) => type === 'voltage');
      return new Map(nodes.map(({ name, values }) => [nodeName(name), Number(values.at(-1))]));
    },
  };
}

async function started(): Promise<Simulation> {
  const simulation = new Simulation();
  await simulation.start();
  return simulation;
}

/** Debian's ngspice, or null where there is none. */
export function installedEngine(): SpiceEngine | null {
  const path = ngspicePath();
  if (path === undefined) return null;
  return {
    name: 'ngspice (installed)',
    async run(netlist) {
      const folder = mkdtempSync(join(tmpdir(), 'lastgood-spice-'));
      try {
        writeFileSync(join(folder, 'net.cir'), netlist);
        const env = { ...process.env, SPICE_ASCIIRAWFILE: '1' };
        execFileSync(path, ['-b', '-r', 'net.raw', 'net.cir'], { cwd: folder, env, timeout: 60_000, stdio: 'pipe' });
        return readAsciiRaw(readFileSync(join(folder, 'net.raw'), 'latin1'));
      } finally {
        rmSync(folder, { recursive: true, force: true });
      }
    },
  };
}

/** The raw file of one operating point: a list of variables, then one value each. */
function readAsciiRaw(text: string): NodeVolts {
  const [head = '', values = ''] = text.split(/^Values:/m);
  const names = [...head.matchAll(/^\t(\d+)\t(\S+)\t(\S+)/gm)].map(([, , name = '', type]) => ({ name, type }));
  const numbers = values.trim().split(/\s+/).slice(1).map(Number);
  return new Map(
    names.flatMap(({ name, type }, i) =>
      type === 'voltage' ? [[nodeName(name), numbers[i] ?? Number.NaN] as const] : [],
    ),
  );
}

const nodeName = (name: string): string => name.toLowerCase().replace(/^v\((.*)\)$/, '$1');
