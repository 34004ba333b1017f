// Memory of one size: a process that has only the core loaded builds a harness, settles it and sweeps its faults. Sends one message.
// It must not import anything that the work does not need. Run by solve.ts: measure-memory.js <record.json> <state>

import { readFileSync } from 'node:fs';
import { compileCircuit } from '../../../src/core/circuit/compile.js';
import { electricalFaults } from '../../../src/core/circuit/electrical-faults.js';
import { sweepFaults } from '../../../src/core/circuit/fault-sweep.js';
import { namedState } from '../../../src/core/circuit/resolve-state.js';
import { settle } from '../../../src/core/circuit/settle.js';
import { solutionsOf } from '../../../src/core/circuit/solution.js';
import { buildHarnessGraph } from '../../../src/core/graph/build-harness-graph.js';
import { parseRecord } from '../../../src/core/record/parse-record.js';

const SWEEP_MILLISECONDS = 10_000;
const PAIRS = 200;

export interface MemoryResult {
  /** Resident at the end of the sweep, and the most it ever was, MB. */
  readonly rssMb: number;
  readonly peakMb: number;
  /** Resident before the first line of the harness was read: Node and the compiled core. */
  readonly emptyMb: number;
  readonly faults: number;
}

function measure(file: string, stateName: string): MemoryResult {
  const emptyMb = residentMb();
  const parsed = parseRecord(JSON.parse(readFileSync(file, 'utf8')));
  if (!parsed.ok) throw new Error('the generated harness is no valid record');
  const graph = buildHarnessGraph(parsed.record);
  const circuit = compileCircuit(graph);
  const resolved = namedState(graph, stateName);
  if (!resolved.ok) throw new Error(`no state ${stateName}`);
  const [base] = solutionsOf(settle(circuit, resolved.state));
  if (base === undefined) throw new Error('the harness does not settle');
  const points = [...graph.points.keys()];
  const pairs = Array.from({ length: PAIRS }, (_, i) => ({
    red: points[Math.floor((i * points.length) / PAIRS)],
    black: graph.reference,
  }));
  const end = performance.now() + SWEEP_MILLISECONDS;
  const question = { pairs, functions: [...graph.functions.values()], isCancelled: () => performance.now() > end };
  let faults = 0;
  for (const { index } of sweepFaults(circuit, resolved.state, base, electricalFaults(graph), question)) {
    faults = index + 1;
  }
  return { rssMb: residentMb(), peakMb: process.resourceUsage().maxRSS / 1024, emptyMb, faults };
}

function residentMb(): number {
  return process.memoryUsage().rss / 2 ** 20;
}

process.send?.(measure(process.argv[2], process.argv[3]), () => process.exit(0));
