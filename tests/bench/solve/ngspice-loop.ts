// The same linear network and faults in ngspice: one batch process with a loop of `alter` and `op`.
// It must not tune ngspice: this is the loop that anyone would write, and the ratio is against that loop alone.

import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { GROUND } from '../../../src/core/numeric/types.js';
import { ngspicePath } from '../../support/outside-tools.js';
import { median } from './processor-time.js';
import type { LinearFault, LinearHarness } from './subject.js';

/** An edge taken away, ohms: far above anything in the network. */
const ABSENT_OHMS = 1e15;
/**
 * The same for an edge that alone held a part: no current flows to that part whatever stands here, and beside so many ohms
 * its own joints of a milliohm would leave no digit in SPICE's matrix.
 */
const CUT_OFF_OHMS = 1e9;
const REPEATS = 5;
const LONGEST_MILLISECONDS = 180_000;

export interface SpiceLoop {
  readonly version: string;
  /** Per fault: a process with the loop less one without, so start and reading of the netlist are left out. */
  readonly loopMicros: number;
  /** Per fault of the whole process: start, reading and all. */
  readonly processMicros: number;
  /** Largest difference at saved nodes that are fed under the fault, volts: from ours, and from exact arithmetic. */
  readonly maxDeltaVolts: number;
  readonly maxErrorVolts: number;
  readonly faults: number;
}

/**
 * Null where ngspice is not installed or gives up. `ours` and `exact`: volts per fault, `exact` of the first few alone.
 * `saved`: nodes whose volts are kept; all when absent.
 */
export function ngspiceLoop(
  harness: LinearHarness,
  faults: readonly LinearFault[],
  ours: readonly Float64Array[],
  exact: readonly Float64Array[],
  saved?: Int32Array,
): SpiceLoop | null {
  const path = ngspicePath();
  if (path === undefined) return null;
  const folder = mkdtempSync(join(tmpdir(), 'lastgood-bench-'));
  try {
    const run = (name: string, loops: number, writes: boolean): number => {
      writeFileSync(
        join(folder, name),
        `${netlist(harness, faults)}${control({ harness, faults, ours, saved }, loops, writes)}`,
      );
      return processorMillisOf(path, name, folder);
    };
    run('check.cir', 1, true);
    const maxDeltaVolts = largestDifference(folder, ours, harness);
    const maxErrorVolts = largestDifference(folder, exact, harness);
    const start = median(Array.from({ length: 3 }, () => run('start.cir', 0, false)));
    const whole = median(Array.from({ length: REPEATS }, () => run('loop.cir', 1, false)));
    return {
      version: versionOf(path),
      loopMicros: (1e3 * (whole - start)) / faults.length,
      processMicros: (1e3 * whole) / faults.length,
      maxDeltaVolts,
      maxErrorVolts,
      faults: faults.length,
    };
  } catch (error) {
    console.error(`ngspice: ${error instanceof Error ? error.message : String(error)}`);
    return null;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Processor time of one run of ngspice, milliseconds: wall time would count what else the machine does. */
function processorMillisOf(path: string, netlistFile: string, cwd: string): number {
  const timed = 'TIMEFORMAT="%U %S"; time "$0" -b "$1" > run.log 2>&1';
  const { stderr, status } = spawnSync('bash', ['-c', timed, path, netlistFile], {
    cwd,
    encoding: 'utf8',
    timeout: LONGEST_MILLISECONDS,
  });
  const seconds = /([\d.]+) ([\d.]+)\s*$/.exec(stderr);
  if (status !== 0 || seconds === null) throw new Error(`a run ended with ${status ?? 'its time limit'}: ${stderr}`);
  return 1000 * (Number(seconds[1]) + Number(seconds[2]));
}

export function versionOf(path: string): string {
  const text = execFileSync(path, ['--version'], { encoding: 'utf8' });
  return /ngspice-\S+/.exec(text)?.[0] ?? 'ngspice of unknown version';
}

/** Resistors and current sources; for each short of `faults` a resistor that is absent at first. */
export function netlist({ factor, fed }: LinearHarness, faults: readonly LinearFault[]): string {
  const { from, to } = factor.analysis.pattern;
  const lines = ['linear harness'];
  factor.weights.forEach((siemens, edge) => {
    if (siemens > 0) lines.push(`r${edge} ${nodeName(from[edge])} ${nodeName(to[edge])} ${1 / siemens}`);
  });
  factor.rhs.forEach((amps, node) => {
    if (amps !== 0 && fed[node] === 1) lines.push(`i${node} 0 ${nodeName(node)} ${amps}`);
  });
  faults.forEach((fault, i) => {
    if (fault.kind === 'short') lines.push(`rs${i} ${nodeName(fault.from)} ${nodeName(fault.to)} ${ABSENT_OHMS}`);
  });
  return `${lines.join('\n')}\n`;
}

const nodeName = (node: number): string => (node === GROUND ? '0' : `n${node}`);

interface Loop {
  readonly harness: LinearHarness;
  readonly faults: readonly LinearFault[];
  readonly ours: readonly Float64Array[];
  readonly saved: Int32Array | undefined;
}

function control({ harness, faults, ours, saved }: Loop, loops: number, writes: boolean): string {
  const { factor, fed } = harness;
  const cutsOff = (i: number): boolean => ours[i].some((volts, node) => fed[node] === 1 && Number.isNaN(volts));
  const loop = faults.flatMap((fault, i) => {
    const resistor = fault.kind === 'short' ? `rs${i}` : `r${fault.edge}`;
    const before = fault.kind === 'short' ? ABSENT_OHMS : 1 / factor.weights[fault.edge];
    const after = fault.kind !== 'open' ? 1 / fault.siemens : cutsOff(i) ? CUT_OFF_OHMS : ABSENT_OHMS;
    const kept = writes ? [`write fault${i}.raw`] : [];
    return [`alter ${resistor} = ${after}`, 'op', ...kept, 'destroy all', `alter ${resistor} = ${before}`];
  });
  const save = saved === undefined ? ['all'] : [...new Set(saved)].map((node) => `v(n${node})`);
  const lines = [`save ${save.join(' ')}`, 'op', 'destroy all', ...Array.from({ length: loops }, () => loop).flat()];
  return `.control\nset filetype=ascii\n${lines.join('\n')}\nquit\n.endc\n.end\n`;
}

function largestDifference(folder: string, expected: readonly Float64Array[], { fed }: LinearHarness): number {
  let largest = 0;
  expected.forEach((volts, i) => {
    const [head = '', values = ''] = readFileSync(join(folder, `fault${i}.raw`), 'latin1').split(/^Values:/m);
    const names = [...head.matchAll(/^\t\d+\t(\S+)\t/gm)].map(([, name = '']) => name);
    const numbers = values.trim().split(/\s+/).slice(1).map(Number);
    names.forEach((name, place) => {
      const node = Number(/^v?\(?n(\d+)\)?$/.exec(name)?.[1] ?? Number.NaN);
      if (Number.isNaN(node) || fed[node] === 0 || Number.isNaN(volts[node])) return;
      largest = Math.max(largest, Math.abs(volts[node] - numbers[place]));
    });
  });
  return largest;
}
