// Measures one size in a process of its own, so that memory and warm-up of other sizes do not count. Sends one message.
// It must not be run by hand; solve.ts starts it.

import { factorise } from '../../../src/core/numeric/factor.js';
import { refine } from '../../../src/core/numeric/refine.js';
import { solve } from '../../../src/core/numeric/solve.js';
import { javascriptPeers } from './javascript-peers.js';
import { ngspiceLoop } from './ngspice-loop.js';
import {
  answerTimes,
  exactVoltsUnder,
  kernelTimes,
  settledFaults,
  settleMillis,
  sweepTimes,
  sweptFaults,
  voltsUnder,
} from './own-times.js';
import { processorMillis } from './processor-time.js';
import { linearHarness, type Subject, sampleOf, settledSubject, unsettledSubject } from './subject.js';

/** Faults in one loop of ngspice: many where one takes less than its clock shows. */
const SPICE_FAULTS = new Map([
  [200, 200],
  [1000, 48],
  [5000, 12],
]);
const LEAST_SPICE_FAULTS = 8;
/** Faults that are solved in exact arithmetic as well, to tell whose error a difference is. */
const EXACT_FAULTS = 48;

export type SizeResult = Awaited<ReturnType<typeof measure>>;

async function measure(wires: number) {
  const say = (what: string): void => console.error(`${wires} wires: ${what}`);
  say('harness');
  const unsettled = unsettledSubject(wires);
  const begin = processorMillis();
  const subject = settledSubject(unsettled);
  const settleColdMs = processorMillis() - begin;
  const harness = linearHarness(subject);
  say('factor and solve');
  const kernel = kernelTimes(harness);
  say('fault sweep');
  const fullVector = sweepTimes(harness);
  const points200 = sweepTimes(harness, harness.points);
  say('settling');
  const settleMs = settleMillis(subject);
  const settled = settledFaults(subject);
  const swept = sweptFaults(subject);
  say('answers');
  const answers = answerTimes(subject);
  say('ngspice');
  const faults = sampleOf(harness.faults, SPICE_FAULTS.get(wires) ?? LEAST_SPICE_FAULTS);
  const ours = faults.map((fault) => voltsUnder(harness, fault));
  const exact = faults.slice(0, EXACT_FAULTS).map((fault, i) => exactVoltsUnder(harness, fault, ours[i]));
  const maxErrorVolts = Math.max(...exact.map((volts, i) => largestError(ours[i], volts)));
  const spice = ngspiceLoop(harness, faults, ours, exact);
  const spice200 = ngspiceLoop(harness, faults, ours, exact, harness.points);
  say('other solvers');
  const peers = await javascriptPeers(harness, baseVolts(subject));
  const { nodes, edges } = harness.factor.analysis.counts;
  return {
    wires,
    nodes,
    edges,
    kernel,
    fullVector,
    points200,
    settleMs,
    settleColdMs,
    settled,
    swept,
    answers,
    maxErrorVolts,
    spice,
    spice200,
    peers,
  };
}

/** Over the nodes that are fed. */
function largestError(ours: Float64Array, exact: Float64Array): number {
  return ours.reduce((most, volts, node) => Math.max(most, Math.abs(volts - exact[node]) || 0), 0);
}

function baseVolts(subject: Subject): Float64Array {
  const { factor } = linearHarness(subject);
  factorise(factor, 'undetermined');
  const x = new Float64Array(factor.rhs.length);
  solve(factor, x);
  refine(factor, x, new Float64Array(x.length));
  return x;
}

process.send?.(await measure(Number(process.argv[2])), () => process.exit(0));
