// Runs the cases of one harness in a process of its own, our way and by the other policies, and sends the results to its parent.
// It must not judge; the parent adds up.

import { createPredictor } from '../../../src/core/diagnosis/predictor.js';
import type { Workings } from '../../../src/core/diagnosis/workings.js';
import { type CaseKind, CaseMaker } from './draw-case.js';
import { cutToExact, ratiosToExact } from './frozen-tables.js';
import { subjectModel } from './harnesses.js';
import { FaultUrn } from './hide-fault.js';
import { type CaseResult, leadCase } from './lead-case.js';
import { policies } from './policies.js';
import { type SpiceComparison, SpiceSample } from './spice-sample.js';

export interface HarnessJob {
  readonly name: string;
  readonly cases: number;
  /** First seed; other seeds, other cases. */
  readonly seed: number;
  /** No case is begun after so long. */
  readonly mostSeconds: number;
  /** Every how many single faults the other policies are run as well. */
  readonly compareEvery: number;
  /** Longest for asking SPICE about a sample, after the cases. */
  readonly spiceSeconds: number;
}

export interface HarnessResults {
  readonly name: string;
  readonly points: number;
  readonly seconds: number;
  readonly ours: readonly CaseResult[];
  readonly withSlips: readonly CaseResult[];
  /** By policy, on the same cases. */
  readonly others: Readonly<Record<string, readonly CaseResult[]>>;
  readonly notDrawn: number;
  /** Ratios to the exact plan, by chooser, one entry per frozen table. */
  readonly ratios: readonly Readonly<Record<string, number>>[];
  readonly spice: SpiceComparison;
}

/** 60 % single, 20 % double, 10 % beyond the catalogue, 10 % nothing wrong (benchmark protocol). */
const KINDS: readonly CaseKind[] = [
  'single',
  'double',
  'single',
  'beyond',
  'single',
  'single',
  'none',
  'single',
  'double',
  'single',
];
const TABLES_PER_CASE = 2;

export async function runHarness(job: HarnessJob): Promise<HarnessResults> {
  const { name, cases, seed, mostSeconds, compareEvery, spiceSeconds } = job;
  const started = performance.now();
  const seconds = (): number => (performance.now() - started) / 1000;
  const model = subjectModel(name);
  const maker = new CaseMaker(model, new FaultUrn(model));
  const predictor = createPredictor(model);
  const [ours, withSlips]: CaseResult[][] = [[], []];
  const others: Record<string, CaseResult[]> = Object.fromEntries(Object.keys(policies).map((key) => [key, []]));
  const ratios: Record<string, number>[] = [];
  const sample = new SpiceSample();
  let [notDrawn, singles] = [0, 0];
  for (let i = 0; i < cases && seconds() < mostSeconds; i++) {
    const given = maker.draw(KINDS[i % KINDS.length], (seed + i) * 1_009);
    if (given === null) {
      notDrawn += 1;
      continue;
    }
    let tables = 0;
    const onWorkings = ({ plan }: Workings): void => {
      if (tables >= TABLES_PER_CASE) return;
      const cut = cutToExact(plan);
      if (cut === null) return;
      tables += 1;
      ratios.push(Object.fromEntries(ratiosToExact(cut)));
    };
    ours.push(
      leadCase(name, maker, given, {
        predictor,
        withSlips: false,
        onWorkings,
        onAnswer: (check, vehicle) => sample.note(check, vehicle),
      }),
    );
    if (given.kind === 'single') {
      singles += 1;
      if (singles % 2 === 0) withSlips.push(leadCase(name, maker, given, { predictor, withSlips: true }));
      if (singles % compareEvery === 0) {
        for (const [key, chooseBy] of Object.entries(policies))
          others[key].push(leadCase(name, maker, given, { predictor, withSlips: false, chooseBy }));
      }
    }
    if ((i + 1) % 10 === 0) console.error(`${name}: ${i + 1} of ${cases} cases, ${seconds().toFixed(0)} s`);
  }
  const spice = await sample.compare(model.graph.record, spiceSeconds);
  return {
    name,
    points: model.graph.points.size,
    seconds: seconds(),
    ours,
    withSlips,
    others,
    notDrawn,
    ratios,
    spice,
  };
}

if (process.send !== undefined) process.send(await runHarness(JSON.parse(process.argv[2]) as HarnessJob));
