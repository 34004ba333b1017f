// Pulsed outputs against SPICE in time (switch, inductance, freewheel diode, a filament that warms up) and against the formulas of
// a buck converter. The netlist is written from the sketch of the record, which shares no code with the circuit.

import { beforeAll, describe, expect, it } from 'vitest';
import { compileCircuit } from '../../src/core/circuit/compile.js';
import { resolveState } from '../../src/core/circuit/resolve-state.js';
import type { Solution } from '../../src/core/circuit/solution.js';
import { buildHarnessGraph } from '../../src/core/graph/build-harness-graph.js';
import { fan, lamp, type PulsedLoad, pulsedBench, valve } from '../support/pulsed-bench.js';
import { solveAndVerify } from '../support/solve-and-verify.js';
import { sketchRecord } from './sketch-record.js';
import { type SpiceEngine, wasmEngine } from './spice-engine.js';

let engine: SpiceEngine;
beforeAll(async () => {
  engine = await wasmEngine();
});

function solve(
  load: PulsedLoad,
  hasDiode: boolean,
  duty: number,
): { solution: Solution; circuit: ReturnType<typeof compileCircuit> } {
  const circuit = compileCircuit(buildHarnessGraph(pulsedBench(load, hasDiode)));
  const resolution = resolveState(circuit.graph, { name: 'pulsed', commands: { 'M1/OUT1': duty } });
  if (!resolution.ok) throw new Error(JSON.stringify(resolution.issues));
  return { circuit, solution: solveAndVerify(circuit, resolution.state) };
}

const PERIOD_SECONDS = 1e-3;
/** Of the inductance over the resistance, and of the filament: long against a period. */
const SLOWNESS_SECONDS = 6e-3;
const PERIODS = 32;
const AVERAGED = 8;

/** Amps of a load with inductance, or of a filament with the heat it holds, as lines of SPICE between two nodes. */
type InTime = (plus: string, minus: string) => readonly string[];

/** A winding of so many ohms; begins with amps that are about right. */
const winding =
  (ohms: number, amps: number): InTime =>
  (plus, minus) => [`lw ${plus} w1 ${ohms * SLOWNESS_SECONDS} ic=${amps}`, `rw w1 w2 ${ohms}`, `vw w2 ${minus} 0`];

/**
 * Power goes in at once, the resistance follows the power of the last milliseconds. At rest I = Ir (V / Vr)^0.55 (the record's
 * law), so that P = V I gives V = Vr (P / Pr)^(1 / 1.55).
 */
const filament =
  (volts: number, watts: number, duty: number): InTime =>
  (plus, minus) => [
    `bp 0 p i=v(${plus},${minus})*i(vw)`,
    'rp p 0 1',
    `cp p 0 ${SLOWNESS_SECONDS} ic=${watts * duty}`,
    `bf ${plus} w2 i=v(${plus},w2)/(${volts ** 2 / watts}*pwr(max(v(p),1e-3)/${watts},${0.45 / 1.55}))`,
    `vw w2 ${minus} 0`,
  ];

/** Means over the last periods, by SPICE's own integration: volts over the load, their squares, amps of the load and of the fuse. */
async function inTime(load: PulsedLoad, hasDiode: boolean, duty: number, law: InTime) {
  const { sketch } = sketchRecord(pulsedBench(load, hasDiode), { name: 'on', commands: { 'M1/OUT1': true } });
  const nodes = new Map([['BAT1/neg', '0']]);
  const node = (point: string): string => {
    const known = nodes.get(point) ?? `n${nodes.size}`;
    nodes.set(point, known);
    return known;
  };
  const edge = PERIOD_SECONDS / 1e4;
  const seconds = AVERAGED * PERIOD_SECONDS;
  const end = PERIODS * PERIOD_SECONDS;
  const lines = [
    '* pulses in time',
    `vl late 0 pwl(0 0 ${end - seconds} 0 ${end - seconds + edge} 1)`,
    `vc gate 0 pulse(0 1 0 ${edge} ${edge} ${duty * PERIOD_SECONDS - edge} ${PERIOD_SECONDS})`,
  ];
  let across = '';
  [...sketch.flagged.values()].forEach(({ id, a, b, device }, i) => {
    const [plus, minus] = [node(a), node(b)];
    const volts = `v(${plus},${minus})`;
    if (/^E1:(motor|lamp|coil)$/.test(id)) {
      across = volts;
      lines.push(...law(plus, minus));
    } else if (id === 'M1:OUT1-driver') lines.push(`b${i} ${plus} ${minus} i=${volts}*v(gate)/0.03`);
    // Thresholds, ohms and leak as the defaults of the record have them.
    else if (id === 'V1:diode') lines.push(`b${i} ${plus} ${minus} i=${volts}/1e6+max(0,${volts}-0.7)/0.05`);
    else if (id === 'M1:OUT1-diode') lines.push(`b${i} ${plus} ${minus} i=${volts}/1e6+max(0,${volts}-0.8)/0.02`);
    else if (id === 'BAT1:emf') lines.push(`v${i} ${plus} e${i} 12.6`, `r${i} e${i} ${minus} 0.02`);
    else if (id === 'M1:30-idle') lines.push(`i${i} ${plus} ${minus} 0.01`);
    else {
      const made = device(new Set(['M1']));
      if (made?.kind !== 'resistor') return;
      const meter = id === 'F1:link' ? 'vf' : `v${i}`;
      lines.push(`${meter} ${plus} m${i} 0`, `r${i} m${i} ${minus} ${made.ohms}`);
    }
  });
  const averages = [across, `${across}*${across}`, 'i(vw)', 'i(vf)'];
  averages.forEach((what, i) => {
    lines.push(`ba${i} 0 mean${i} i=v(late)*(${what})/${seconds}`, `ca${i} mean${i} 0 1 ic=0`, `ra${i} mean${i} 0 1e9`);
  });
  lines.push(
    '.options reltol=1e-5 method=gear',
    `.tran ${PERIOD_SECONDS / 100} ${end} 0 ${PERIOD_SECONDS / 150} uic`,
    '.end',
  );
  const found = await engine.run(`${lines.join('\n')}\n`);
  const [volts = 0, squares = 0, amps = 0, fuseAmps = 0] = averages.map((_, i) => found.get(`mean${i}`));
  return { volts, rmsVolts: Math.sqrt(squares), amps, fuseAmps };
}

/** What ripple of the current and SPICE's steps leave. */
const SHARE = 5e-3;

const near = (ours: number, theirs: number): void =>
  expect(Math.abs(ours - theirs), `${ours} against ${theirs}`).toBeLessThanOrEqual(SHARE * Math.abs(theirs) + 2e-3);

describe('pulses in time, by SPICE', () => {
  it.each([
    ['motor', fan, true, 'E1:motor', 0.3, winding(1.2, 3)],
    ['motor', fan, true, 'E1:motor', 0.7, winding(1.2, 7)],
    ['valve coil', valve, true, 'E1:coil', 0.4, winding(12, 0.4)],
    ['lamp', lamp, false, 'E1:lamp', 0.25, filament(12, 55, 0.25)],
  ] as const)(
    '%s: volts, amps, and what the supply gives',
    async (_what, load, hasDiode, element, duty, law) => {
      const { solution, circuit } = solve(load, hasDiode, duty);
      const theirs = await inTime(load, hasDiode, duty, law);
      const { a = '', b = '' } = circuit.graph.elements.get(element) ?? {};
      near(solution.voltsBetween(a, b) ?? 0, theirs.volts);
      near(solution.rmsVolts(element) ?? 0, theirs.rmsVolts);
      near(solution.amps(element), theirs.amps);
      near(solution.amps('F1:link'), theirs.fuseAmps);
    },
    60_000,
  );
});

describe('a motor with a freewheel diode is a buck converter', () => {
  // R. W. Erickson, D. Maksimovic, Fundamentals of Power Electronics: V = D Vg and Ig = D I (ch. 2); with the drops of switch and
  // diode I = (D Vg - D' VD) / (R + D Ron + D' RD) (ch. 3, from memory).
  it.each([0.2, 0.5, 0.8])('duty %f', (duty) => {
    const { solution, circuit } = solve(fan, true, duty);
    const ohmsOf = (id: string): number => {
      const law = circuit.graph.elements.get(id)?.law;
      return law?.kind === 'ohmic' ? law.ohms : Number.NaN;
    };
    const wire = (label: string): number =>
      [...circuit.graph.elements.values()]
        .filter(({ owner, role }) => owner === label && (role === 'conductor' || role === 'termination'))
        .reduce((sum, { id }) => sum + ohmsOf(id), 0);
    const shared = wire('L1') + ohmsOf('F1:link') + wire('L2') + 0.02;
    const onOhms = shared + 0.03 + wire('L4') + wire('L5');
    const offOhms = wire('L6') + wire('L7') + 0.05;
    const supply = 12.6 - 0.01 * shared;
    const amps = (duty * supply - (1 - duty) * 0.7) / (1.2 + duty * onOhms + (1 - duty) * offOhms);
    // The leaks of the diodes, and of the idle module's line, are not in the formula.
    expect(solution.amps('E1:motor')).toBeCloseTo(amps, 3);
    expect(solution.amps('M1:OUT1-driver')).toBeCloseTo(duty * amps, 3);
    expect(solution.isMean).toBe(true);
  });
});
