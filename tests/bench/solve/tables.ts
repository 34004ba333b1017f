// The figures of a run as text tables.
// It must not measure or round away what differs.

import type { BandCoverage } from './band-coverage.js';
import type { MemoryResult } from './measure-memory.js';
import type { SizeResult } from './measure-size.js';

type Result = SizeResult & { readonly memory: MemoryResult | null };
type Column = readonly [head: string, cell: (result: Result) => string];

const micros = (value: number): string => (value < 100 ? value.toFixed(1) : value.toFixed(0));
const percent = (share: number): string => `${(100 * share).toFixed(share < 0.1 ? 1 : 0)} %`;
const volts = (value: number | undefined): string => (value === undefined ? '-' : value.toExponential(1));

const OWN: readonly Column[] = [
  ['wires', ({ wires }) => String(wires)],
  ['nodes', ({ nodes }) => String(nodes)],
  ['edges', ({ edges }) => String(edges)],
  ['factor us', ({ kernel }) => micros(kernel.factorMicros)],
  ['solve us', ({ kernel }) => micros(kernel.solveMicros)],
  ['residual', ({ kernel }) => kernel.residualComponentwise.toExponential(1)],
  ['settle ms', ({ settleMs }) => settleMs.toFixed(1)],
  ['cold', ({ settleColdMs }) => settleColdMs.toFixed(1)],
  ['probe us', ({ settled }) => micros(settled.micros)],
  ['cold', ({ settled }) => micros(settled.coldMicros)],
  ['of them in full', ({ settled }) => `${settled.settledInFull}/${settled.faults}`],
  ['feeds ms', ({ answers }) => answers.feedsMillis.toFixed(0)],
  ['unplug ms', ({ answers }) => answers.unplugMillis.toFixed(0)],
  ['reading ms', ({ answers }) => answers.readingMillis.toFixed(1)],
];

const SWEEP: readonly Column[] = [
  ['wires', ({ wires }) => String(wires)],
  ['faults', ({ fullVector }) => String(fullVector.faults)],
  ['full vector us', ({ fullVector }) => micros(fullVector.micros)],
  ['cold', ({ fullVector }) => micros(fullVector.coldMicros)],
  ['whole sweep s', ({ fullVector }) => ((fullVector.micros * fullVector.faults) / 1e6).toFixed(2)],
  ['timed share', ({ fullVector }) => percent(fullVector.share)],
  ['200 points us', ({ points200 }) => micros(points200.micros)],
  ['settled fault us', ({ swept }) => micros(swept.micros)],
  ['of them in full', ({ swept }) => percent(swept.inFull)],
  ['faults', ({ swept }) => String(swept.faults)],
  ['whole sweep s', ({ swept }) => ((swept.micros * swept.faults) / 1e6).toFixed(1)],
  ['timed share', ({ swept }) => percent(swept.share)],
  ['memory MB', ({ memory }) => memory?.rssMb.toFixed(0) ?? '-'],
  ['peak', ({ memory }) => memory?.peakMb.toFixed(0) ?? '-'],
  ['before', ({ memory }) => memory?.emptyMb.toFixed(0) ?? '-'],
  ['ngspice us', ({ spice }) => (spice === null ? '-' : micros(spice.loopMicros))],
  ['with start', ({ spice }) => (spice === null ? '-' : micros(spice.processMicros))],
  ['ratio', ({ spice, fullVector }) => (spice === null ? '-' : (spice.loopMicros / fullVector.micros).toFixed(0))],
  ['max dV', ({ spice }) => volts(spice?.maxDeltaVolts)],
  ['ours off', ({ maxErrorVolts }) => volts(maxErrorVolts)],
  ['ngspice off', ({ spice }) => volts(spice?.maxErrorVolts)],
  ['ngspice 200 us', ({ spice200 }) => (spice200 === null ? '-' : micros(spice200.loopMicros))],
  [
    'ratio',
    ({ spice200, points200 }) => (spice200 === null ? '-' : (spice200.loopMicros / points200.micros).toFixed(0)),
  ],
  ['max dV', ({ spice200 }) => volts(spice200?.maxDeltaVolts)],
];

export function printTables(results: readonly Result[], coverage: BandCoverage | null): void {
  console.log(
    '\nTimes are processor time, warm: after two seconds of the same work. Cold: the first in a fresh process.',
  );
  print('One harness, everything on', OWN, results);
  print('Single faults of the linear harness, per fault', SWEEP, results);
  for (const spice of results.flatMap((result) => result.spice ?? []).slice(0, 1)) {
    console.log(`${spice.version}: processor time of a batch process with an alter and op loop, median of 5`);
  }
  console.log('\nBase solve by others: milliseconds, and the largest difference in volts');
  for (const { wires, peers, kernel } of results) {
    const own = `ours, factor and solve ${((kernel.factorMicros + kernel.solveMicros) / 1000).toFixed(3)}`;
    const others = peers.map(
      ({ peer, millis, maxDeltaVolts }) => `${peer} ${millis.toFixed(1)} (${volts(maxDeltaVolts)} V)`,
    );
    console.log(`${wires} wires: ${[own, ...others].join('; ')}`);
  }
  console.log('');
  for (const { name, inside, readings } of coverage?.strata ?? []) {
    console.log(`bands, ${name}: ${percent(inside / readings)} of ${readings} readings inside`);
  }
}

function print(title: string, columns: readonly Column[], results: readonly Result[]): void {
  const rows = [columns.map(([head]) => head), ...results.map((result) => columns.map(([, cell]) => cell(result)))];
  const widths = columns.map((_, i) => Math.max(...rows.map((row) => row[i].length)));
  console.log(`\n${title}`);
  for (const row of rows) console.log(row.map((cell, i) => cell.padStart(widths[i])).join('  '));
}
