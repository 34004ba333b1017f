// Adds up the cases of all harnesses: the figures of the targets, tables for people, losers by name.
// It must not leave out a case that went wrong.

import type { CaseKind } from './draw-case.js';
import type { CaseResult } from './lead-case.js';
import type { HarnessResults } from './run-harness.js';
import type { SeriesFigures } from './series-set.js';
import { spiceLines } from './spice-sample.js';
import { bootstrap, mean, percentile, share, shown } from './statistics.js';
import type { StepTimes } from './step-time.js';

const HALF_SPLIT = 'feed-path half-split';
/** Nothing there is behind a cover, so nothing is to be won there by minding covers. */
const WITHOUT_ACCESS_COSTS = 'bench-board';
const MOST_LOSERS = 40;

interface Paired {
  readonly ours: CaseResult;
  readonly other: CaseResult;
}

const of = (results: readonly HarnessResults[], kind: CaseKind): CaseResult[] =>
  results.flatMap(({ ours }) => ours.filter((it) => it.kind === kind));

/** The line that the run ends with; a figure that could not be measured is null. */
export function summarise(
  results: readonly HarnessResults[],
  times: StepTimes | null,
  series: ReadonlyMap<string, SeriesFigures>,
) {
  const ratios = results.flatMap((it) => it.ratios.map(({ rollout }) => rollout));
  const all = results.flatMap(({ ours }) => ours);
  const [singles, doubles] = [of(results, 'single'), of(results, 'double')];
  const slips = results.flatMap(({ withSlips }) => withSlips);
  const cost = (list: readonly CaseResult[]): number | null => mean(list.map(({ minutes }) => minutes));
  const [one, two] = [cost(singles.filter(({ isRight }) => isRight)), cost(doubles.filter(({ isRight }) => isRight))];
  return rounded({
    costVsOptimumMean: mean(ratios),
    costVsOptimumWorst: ratios.length === 0 ? null : Math.max(...ratios),
    costVsHalfSplit: costRatio(paired(results, HALF_SPLIT)),
    checksAboveHuffman: series.get('rollout')?.aboveHuffman ?? null,
    rightGroup: share(singles.map(({ isRight }) => isRight)),
    rightGroupWithSlips: share(slips.map(({ isRight }) => isRight)),
    falseClearance: share(singles.map(({ clearedFalsely }) => clearedFalsely)),
    doubleBoth: share(doubles.map(({ isRight }) => isRight)),
    doubleCostRatio: one === null || two === null ? null : two / one,
    outOfCatalogue: share(beyondUnplaced(results).map(({ isRight }) => isRight)),
    healthyConvicted: share(all.map(({ endsOnHealthyPart }) => endsOnHealthyPart)),
    noFault: share(of(results, 'none').map(({ isRight }) => isRight)),
    stated90Right: share(statedCases(results).map((it) => it.stated?.isRight === true)),
    nextCheckMs: times?.nextCheckMs ?? null,
    nextCheckPairsMs: times?.nextCheckPairsMs ?? null,
    cases: all.length,
  });
}

/** Cases beyond the catalogue but those in which the person was led to the very wire end that sits wrong, and saw it. */
function beyondUnplaced(results: readonly HarnessResults[]): CaseResult[] {
  return of(results, 'beyond').filter(({ isRight, ended }) => !(isRight && ended === 'cured'));
}

/** Cases as often as the prior has them: all single ones, and of the rest as many as its shares say. */
function statedCases(results: readonly HarnessResults[]): CaseResult[] {
  const singles = of(results, 'single');
  const some = (kind: CaseKind, part: number): CaseResult[] =>
    of(results, kind).slice(0, Math.round((part / 0.92) * singles.length));
  return [...singles, ...some('none', 0.04), ...some('beyond', 0.04)].filter(({ stated }) => stated !== null);
}

/** Cases that both finish right, on harnesses with covers to take off. */
function paired(results: readonly HarnessResults[], policy: string): Paired[] {
  return results.flatMap(({ name, ours, others }) => {
    if (name === WITHOUT_ACCESS_COSTS) return [];
    return others[policy].flatMap((other) => {
      const own = ours.find(({ seed, kind }) => seed === other.seed && kind === other.kind);
      return own === undefined || !own.isRight || !other.isRight ? [] : [{ ours: own, other }];
    });
  });
}

function costRatio(pairs: readonly Paired[]): number | null {
  const theirs = pairs.reduce((sum, { other }) => sum + other.minutes, 0);
  return theirs === 0 ? null : pairs.reduce((sum, { ours }) => sum + ours.minutes, 0) / theirs;
}

function rounded<T extends Record<string, number | null>>(figures: T): T {
  return Object.fromEntries(
    Object.entries(figures).map(([key, value]) => [key, value === null ? null : Number(value.toPrecision(4))]),
  ) as T;
}

export function printReport(
  results: readonly HarnessResults[],
  times: StepTimes | null,
  series: ReadonlyMap<string, SeriesFigures>,
  minutes: number,
): void {
  console.log(`\n## Cases by kind, our choice of checks (${minutes.toFixed(1)} minutes for the whole run)`);
  for (const kind of ['single', 'double', 'beyond', 'none'] as const) printKind(kind, of(results, kind));
  printKind(
    'single, with slips',
    results.flatMap(({ withSlips }) => withSlips),
  );
  console.log('\n## By harness, single faults');
  for (const it of results) {
    printKind(
      `${it.name} (${it.points} points)`,
      it.ours.filter(({ kind }) => kind === 'single'),
    );
    if (it.notDrawn > 0) console.log(`${' '.repeat(30)}${it.notDrawn} cases drew nothing that anybody would notice`);
  }
  const beyond = of(results, 'beyond');
  console.log(
    `\nbeyond the catalogue: led to the wire end that sits wrong ${beyond.length - beyondUnplaced(results).length} of ${beyond.length}; of the others says record or unknown ${beyondUnplaced(results).filter(({ isRight }) => isRight).length}`,
  );
  printPolicies(results);
  printCalibration(results);
  printFrozen(results);
  console.log('\n## Series chains, equal cost, binary checks');
  for (const [name, { checks, aboveHuffman, aboveEntropy }] of series)
    console.log(
      `${name.padEnd(28)}checks ${shown(checks)}, above Huffman ${shown(aboveHuffman)}, above entropy ${shown(aboveEntropy)}`,
    );
  const steps = results.flatMap(({ ours }) => ours.flatMap(({ stepMillis }) => stepMillis));
  console.log('\n## Time per step, ms');
  console.log(
    `all hunts                   median ${shown(percentile(steps, 0.5), null, 1)}, 95 % ${shown(percentile(steps, 0.95), null, 1)}`,
  );
  if (times !== null)
    console.log(
      `${times.nets} nets, ${times.hypotheses} single hypotheses: 95 % ${shown(times.nextCheckMs, null, 1)} warm, ${times.coldMs.toFixed(0)} cold; with ${times.pairs} pairs: ${shown(times.nextCheckPairsMs, null, 1)} warm`,
    );
  printLosers(results);
  console.log('\n## The vehicles’ answers against SPICE, every tenth, before any error of the meter');
  for (const line of spiceLines(results.map(({ spice }) => spice))) console.log(line);
}

function printKind(name: string, cases: readonly CaseResult[]): void {
  const checks = cases.map((it) => it.checks);
  const cost = cases.map((it) => it.minutes);
  const right = (list: readonly CaseResult[]): number | null => share(list.map(({ isRight }) => isRight));
  const average = (list: readonly CaseResult[]): number | null => mean(list.map((it) => it.minutes));
  console.log(
    `${name.padEnd(30)}n ${String(cases.length).padStart(4)}  right ${shown(right(cases), bootstrap(cases, right))}  checks ${shown(mean(checks), null, 1)}, 90 % ${shown(percentile(checks, 0.9), null, 0)}  minutes ${shown(average(cases), bootstrap(cases, average), 1)}, 90 % ${shown(percentile(cost, 0.9), null, 1)}  wrong repairs ${shown(mean(cases.map((it) => it.wrongRepairs)), null, 2)}  cleared falsely ${cases.filter((it) => it.clearedFalsely).length}  ends on a healthy part ${cases.filter((it) => it.endsOnHealthyPart).length}`,
  );
}

function printPolicies(results: readonly HarnessResults[]): void {
  console.log('\n## Other policies on the same single faults (cost of ours over theirs, cases that both end right)');
  const [first] = results;
  if (first === undefined) return;
  for (const policy of Object.keys(first.others)) {
    const theirs = results.flatMap(({ others }) => others[policy]);
    const pairs = paired(results, policy);
    const checks = mean(pairs.map(({ other }) => other.checks));
    const ratio = shown(costRatio(pairs), bootstrap(pairs, costRatio));
    const failed = theirs.filter(({ isRight }) => !isRight).length;
    console.log(
      `${policy.padEnd(30)}n ${pairs.length}  checks ${shown(checks, null, 1)} (ours ${shown(mean(pairs.map(({ ours }) => ours.checks)), null, 1)})  minutes ${shown(mean(pairs.map(({ other }) => other.minutes)), null, 1)} (ours ${shown(mean(pairs.map(({ ours }) => ours.minutes)), null, 1)})  ratio ${ratio}  theirs not right ${failed} of ${theirs.length}`,
    );
  }
}

function printCalibration(results: readonly HarnessResults[]): void {
  console.log('\n## Stated and true');
  const stated = statedCases(results);
  const rate = (list: readonly CaseResult[]): number | null => share(list.map((it) => it.stated?.isRight === true));
  const said = mean(stated.map((it) => it.stated?.probability ?? 0));
  console.log(
    `cases with a step at 85 to 95 %: ${stated.length}; said ${shown(said)} on average, right ${shown(rate(stated), bootstrap(stated, rate))}`,
  );
  const singles = of(results, 'single');
  console.log(
    `Brier of the leading group, one random step per single fault: ${shown(mean(singles.map(({ brier }) => brier)))}`,
  );
  console.log(
    `sites in the last leading group, mean: ${shown(mean(singles.map(({ groupSize }) => groupSize)), null, 2)}`,
  );
}

function printFrozen(results: readonly HarnessResults[]): void {
  const all = results.flatMap(({ ratios }) => ratios);
  console.log(`\n## Expected cost over the exact optimum, ${all.length} frozen tables, exact branch off`);
  for (const name of Object.keys(all[0] ?? {})) {
    const list = all.map((it) => it[name]);
    console.log(
      `${name.padEnd(30)}mean ${shown(mean(list), bootstrap(list, mean))}  worst ${shown(list.length === 0 ? null : Math.max(...list))}`,
    );
  }
}

/** What went wrong, by harness, kind and seed, so that it can be run again. */
function printLosers(results: readonly HarnessResults[]): void {
  const losers = results.flatMap(({ ours, withSlips }) => [
    ...ours.filter(({ isRight, clearedFalsely }) => !isRight || clearedFalsely),
    ...withSlips.filter(({ isRight }) => !isRight).map((it) => ({ ...it, ended: `${it.ended}, with slips` })),
  ]);
  console.log(`\n## Losers: ${losers.length}`);
  for (const { harness, kind, seed, ended, checks, wrongRepairs, clearedFalsely } of losers.slice(0, MOST_LOSERS))
    console.log(
      `${harness}, ${kind}, seed ${seed}: ${ended} after ${checks} checks, ${wrongRepairs} wrong repairs${clearedFalsely ? ', true fault below one in a thousand on the way' : ''}`,
    );
  if (losers.length > MOST_LOSERS) console.log(`and ${losers.length - MOST_LOSERS} more`);
}
