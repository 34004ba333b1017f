// Times of one assessment on a harness of some 400 nets: with thousands of single hypotheses, and with pairs.
// A hunt is led twice. The first time nothing is known yet: its first assessment is `coldMs`. The second time what the circuit shows was
// worked out before, as for the second vehicle or the second hunt of a day; its checks after the first are the next checks that are timed.

import type { Model } from '../../../src/core/answers/model.js';
import { Hunt } from '../../../src/core/diagnosis/hunt.js';
import { createPredictor, type Predictor } from '../../../src/core/diagnosis/predictor.js';
import { isComplaint } from '../../../src/core/diagnosis/scope.js';
import type { HuntEntry } from '../../../src/core/diagnosis/shapes/hunt.js';
import type { Symptom } from '../../../src/core/diagnosis/shapes/symptom.js';
import type { Workings } from '../../../src/core/diagnosis/workings.js';
import { FaultyVehicle, noFault } from '../../support/faulty-vehicle.js';
import { seededRandom } from '../../support/random.js';
import { subjectModel } from './harnesses.js';
import { percentile } from './statistics.js';

export interface StepTimes {
  readonly nets: number;
  readonly hypotheses: number;
  readonly pairs: number;
  /** 95th percentiles, warm; null where no such step came up. */
  readonly nextCheckMs: number | null;
  readonly nextCheckPairsMs: number | null;
  /** First assessment: nothing worked out yet, and with what the circuit shows known. */
  readonly coldMs: number;
  readonly firstMs: number;
}

const HARNESS = 'generated 500 11';
const STEPS = 36;
const MOST_REPAIRS = 5;
const STATE = 'Everything on, engine stopped';
/** Hunts that go on after a repair in vain, one after another, until so many steps with pairs were timed. */
const MOST_VAIN = 3;
const PAIR_STEPS = 20;

interface TimedStep {
  readonly millis: number;
  readonly step: number;
  readonly faults: number;
  readonly pairs: number;
}

export function stepTimes(): StepTimes {
  const model = subjectModel(HARNESS);
  const predictor = createPredictor(model);
  // All of it dead: everything on every way is suspected.
  const lugs = ['BAT1/pos', 'BAT1/neg'].map((post) => crimpAt(model, post) ?? '');
  const [cold] = lugs.map((lug) => ledHunt(model, predictor, lug));
  const warm = [1, 2].flatMap(() => lugs.flatMap((lug) => ledHunt(model, predictor, lug)));
  const doubles = pairSteps(model, predictor);
  const millis = (steps: readonly TimedStep[]): number[] => steps.map((it) => it.millis);
  return {
    nets: netsOf(model),
    hypotheses: Math.max(...cold.map(({ faults }) => faults)),
    pairs: Math.max(0, ...doubles.map(({ pairs }) => pairs)),
    nextCheckMs: percentile(millis(warm.filter(({ step }) => step > 0)), 0.95),
    nextCheckPairsMs: percentile(millis(doubles), 0.95),
    coldMs: cold[0].millis,
    firstMs: percentile(millis(warm.filter(({ step }) => step === 0)), 0.5) ?? Number.NaN,
  };
}

/** Steps in which pairs were in play: what was mended changed nothing, so that one fault alone no longer explains what was read. */
function pairSteps(model: Model, predictor: Predictor): TimedStep[] {
  const feeds = [...model.graph.functions.values()].flatMap(({ feed }) => crimpAt(model, feed) ?? []);
  const steps: TimedStep[] = [];
  const inVain = { isSaid: isComplained, mostRepairs: MOST_REPAIRS };
  for (const feed of feeds.slice(0, MOST_VAIN)) {
    if (steps.length >= PAIR_STEPS) break;
    ledHunt(model, predictor, feed, inVain);
    const again = ledHunt(model, predictor, feed, inVain);
    steps.push(...again.filter(({ pairs }) => pairs > 0));
  }
  return steps;
}

function crimpAt(model: Model, point: string): string | undefined {
  return model.graph.graph.edges(point).find((id) => model.graph.elements.get(id)?.role === 'termination');
}

interface LeadOptions {
  /** What of all that the person sees is told at the beginning. */
  readonly isSaid: (entry: HuntEntry) => boolean;
  /** What is named is mended, in vain, and the hunt goes on, so many times. */
  readonly mostRepairs: number;
}

function ledHunt(
  model: Model,
  predictor: Predictor,
  open: string,
  { isSaid, mostRepairs }: LeadOptions = { isSaid: () => true, mostRepairs: 0 },
): TimedStep[] {
  const vehicle = new FaultyVehicle(
    model,
    [{ ...noFault, changes: [{ kind: 'open', element: open }] }],
    seededRandom(5),
  );
  const hunt = new Hunt(model, { profile: 'in-service', instruments: { breakOutLeads: true } }, predictor);
  const complaints = allComplaints(model, vehicle).filter(isSaid);
  const log = [...complaints];
  const steps: TimedStep[] = [];
  for (let step = 0; step < STEPS; step++) {
    const started = performance.now();
    const { view, workings } = hunt.assess(log);
    const millis = performance.now() - started;
    steps.push({ millis, step, faults: countOf(workings, 'fault'), pairs: countOf(workings, 'pair') });
    if (view.next !== null) {
      log.push({ id: `e${step}`, kind: 'reading', check: view.next.check, result: vehicle.answer(view.next.check) });
      continue;
    }
    if (workings === null || log.filter(({ kind }) => kind === 'repair').length >= mostRepairs) break;
    const repairs = workings.groups[0].sites.flatMap(({ repair }) => repair.split(' + '));
    log.push({ id: `r${step}`, kind: 'repair', repairs: repairs.slice(0, 40) });
    log.push({ id: `p${step}`, kind: 'proof', symptoms: complaintsOf(complaints).slice(0, 40) });
  }
  return steps;
}

function allComplaints(model: Model, vehicle: FaultyVehicle): HuntEntry[] {
  const healthy = new FaultyVehicle(model, [noFault], seededRandom(1), false).conditions(STATE);
  const now = vehicle.conditions(STATE);
  return [...now].flatMap(([id, seen], i): HuntEntry[] => {
    if (seen === 'reversed' || (healthy.get(id) !== 'works' && seen === healthy.get(id))) return [];
    const report = healthy.get(id) === 'dead' ? 'stays-on' : seen;
    return [{ id: `s${i}`, kind: 'symptom', symptom: { kind: 'function', function: id, state: STATE, report } }];
  });
}

const isComplained = (entry: HuntEntry): boolean => entry.kind === 'symptom' && isComplaint(entry.symptom);

/** What is still wrong; what works need not be said again. */
function complaintsOf(log: readonly HuntEntry[]): Symptom[] {
  return log.filter(isComplained).flatMap((entry) => (entry.kind === 'symptom' ? entry.symptom : []));
}

function countOf(workings: Workings | null, kind: 'fault' | 'pair'): number {
  return workings?.posterior.inquiry.hypotheses.filter((it) => it.kind === kind).length ?? 0;
}

/** Points joined by what has no switch, fuse or load in it. */
function netsOf(model: Model): number {
  const parent = new Map<string, string>([...model.graph.points.keys()].map((id) => [id, id]));
  const find = (id: string): string => {
    let at = id;
    while (parent.get(at) !== at) at = parent.get(at) ?? at;
    return at;
  };
  for (const { a, b, role } of model.graph.elements.values()) {
    if (role === 'conductor' || role === 'termination' || role === 'mating' || role === 'double-crimp')
      parent.set(find(a), find(b));
  }
  return new Set([...model.graph.points.keys()].map(find)).size;
}

if (process.send !== undefined) process.send(stepTimes());
else console.log(stepTimes());
