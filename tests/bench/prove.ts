// Proves the proof: counts of readings and hand moves, faults found by carrying plans out on simulated harnesses, sneak conduction and
// separation against brute force, times of plans. Ends with one line of JSON. Run it with: npm run bench:prove

import { spawnSync } from 'node:child_process';
import { buildModel, type Model } from '../../src/core/answers/model.js';
import { planContinuity } from '../../src/core/answers/plans/continuity.js';
import { leastReadings, planIsolation } from '../../src/core/answers/plans/isolation.js';
import { parseRecord } from '../../src/core/record/parse-record.js';
import type { HarnessRecord } from '../../src/core/record/record.js';
import { fixtureModel, fixtureRecord } from '../support/fixture-model.js';
import { generateHarness } from '../support/generate-harness.js';
import { hazardRadioModel } from '../support/hazard-radio.js';
import { ngspicePath } from '../support/outside-tools.js';
import { compareAssemblies, compareIsolation } from './prove/compare-separation.js';
import { compareSampled, compareWhole } from './prove/compare-sneaks.js';
import { disagreementsWithSpice, injectFaults } from './prove/inject-faults.js';
import { planTimes } from './prove/plan-times.js';

function generated(seed: number, wires: number): HarnessRecord {
  const parsed = parseRecord(generateHarness({ seed, wires }));
  if (!parsed.ok) throw new Error('the generated harness is refused');
  return parsed.record;
}

const began = performance.now();
const progress = (what: string): void =>
  console.error(`[${((performance.now() - began) / 1000).toFixed(0).padStart(3)} s] ${what}`);

const proved: readonly [string, Model][] = [
  ['bench board', fixtureModel('bench-board')],
  ['trailer', fixtureModel('trailer')],
  ['heron', fixtureModel('heron')],
  ['tern', fixtureModel('tern')],
  ['generated 200', buildModel(generated(1, 200))],
  ['generated 1000', buildModel(generated(1, 1000))],
];

progress('counts of readings and hand moves');
let continuityOverMinimum = 0;
let isolationOverMinimum = 0;
let moves = 0;
let recordMoves = 0;
console.log(
  'harness | terminals | nets | continuity readings (pairwise) | hand moves, in record order | isolation one bar, two bars (pairwise)',
);
for (const [name, model] of proved) {
  const { counts } = planContinuity(model);
  const bars = planIsolation(model, 'two-tie-bars').counts;
  const bar = planIsolation(model, 'one-tie-bar').counts;
  continuityOverMinimum += counts.readings - (counts.terminals - counts.nets);
  isolationOverMinimum += bars.readings - (leastReadings('two-tie-bars', bars.nets) ?? 0);
  isolationOverMinimum += bar.readings - (leastReadings('one-tie-bar', bar.nets) ?? 0);
  moves += counts.handMoves;
  recordMoves += counts.handMovesInRecordOrder;
  console.log(
    `${name} | ${counts.terminals} | ${counts.nets} | ${counts.readings} (${counts.pairwise}) | ` +
      `${counts.handMoves}, ${counts.handMovesInRecordOrder}: ${(counts.handMoves / counts.handMovesInRecordOrder).toFixed(2)} | ` +
      `${bar.readings}, ${bars.readings} (${bars.pairwise})`,
  );
}

/** Opens, shorts and swaps put in at most, of each kind. */
const MOST_FAULTS = 600;
let found = 0;
let injected = 0;
console.log('\nharness | opens | shorts of | swaps of | found | missed');
for (const [name, model] of proved) {
  progress(`faults in ${name}`);
  const done = injectFaults(model, MOST_FAULTS);
  found += done.found;
  injected += done.opens + done.shorts + done.swaps;
  console.log(
    `${name} | ${done.opens} | ${done.shorts} of ${done.shortsOf} | ${done.swaps} of ${done.swapsOf} | ${done.found} | ` +
      `${done.missed.length === 0 ? 'none' : done.missed.slice(0, 5).join('; ')}`,
  );
}

const ngspice = ngspicePath();
if (ngspice === undefined) console.log('\nngspice is not installed: its sample is skipped');
else {
  const version = /ngspice-\S+/.exec(spawnSync(ngspice, ['--version'], { encoding: 'utf8' }).stdout)?.[0];
  for (const [name, model, most] of [
    [...proved[1], 12],
    [...proved[2], 8],
    [...proved[3], 3],
  ] as const) {
    progress(`the same readings by ngspice, ${name}`);
    const { faults, readings, differ, worstOhms } = disagreementsWithSpice(model, ngspice, most);
    console.log(
      `${version ?? 'ngspice'}, ${name}: ${faults} faults, ${readings} readings, ${differ} judged differently, ohms within ${worstOhms.toExponential(1)}`,
    );
  }
}

let sneakMissed = 0;
let sneakFalse = 0;
console.log('\nsneak conduction against brute force: harness | states looked at | found | missed | false');
const whole: readonly [string, Model][] = [
  ['trailer', fixtureModel('trailer')],
  ['hazard, flasher and radio', hazardRadioModel()],
  ['generated 40', buildModel(generated(1, 40))],
  ['generated 60', buildModel(generated(3, 60))],
];
for (const [name, model] of whole) {
  progress(`sneak conduction in ${name}`);
  const { search, sneaks, missed, wrong } = compareWhole(model);
  sneakMissed += missed.length + Number(!search.complete);
  sneakFalse += wrong.length;
  console.log(`${name} | ${search.solved} | ${sneaks} | ${missed.length} | ${wrong.length}`);
}
progress('sneak conduction in tern, sampled');
const tern = compareSampled(fixtureModel('tern'), 400, 60, 60);
sneakFalse += tern.wrong.length;
console.log(
  `tern, ${tern.search.switches} settings, sampled: ${tern.search.solved} states looked at, ${tern.sneaks} found, ${tern.wrong.length} false of the worst 60; ` +
    `consumers of 60 other drawn states that it did not know: ${tern.missed.join(', ') || 'none'} (not counted: sampled search)`,
);

progress('separation');
const separations = [
  compareAssemblies(150),
  compareIsolation('trailer', fixtureModel('trailer')),
  compareIsolation('heron', fixtureModel('heron')),
  compareIsolation('generated 40', buildModel(generated(1, 40))),
];
const separationWrong = separations.flatMap(({ wrong }) => wrong);
console.log(
  `\nseparation against every set of detachments: ${separations.reduce((sum, { cases }) => sum + cases, 0)} cases, wrong: ${separationWrong.join(', ') || 'none'}`,
);

progress('times of plans');
planTimes(fixtureRecord('heron'));
let planMs5000 = 0;
for (const [name, record] of [
  ['tern', fixtureRecord('tern')],
  ['generated 5000', generated(2, 5_000)],
] as const) {
  console.log(`\n${name}: plan | ms | of which processor | steps`);
  for (const { plan, ms, cpuMs, steps } of planTimes(record)) {
    if (name === 'generated 5000') planMs5000 = Math.max(planMs5000, ms);
    console.log(`${plan} | ${ms.toFixed(0)} | ${cpuMs.toFixed(0)} | ${steps}`);
  }
}
progress('done');
console.log(
  JSON.stringify({
    continuityOverMinimum,
    isolationOverMinimum,
    found,
    injected,
    handMovesRatio: Number((moves / recordMoves).toFixed(3)),
    sneakMissed,
    sneakFalse,
    separationWrong: separationWrong.length,
    planMs5000: Math.round(planMs5000),
  }),
);
