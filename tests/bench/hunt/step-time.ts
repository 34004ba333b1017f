// Times of one assessment on a harness of some 400 nets: with thousands of single hypotheses, and with pairs.
// Warm: the same log was assessed before by another hunt that shares its predictions, as a service does between two answers.

import type { Model } from '../../../src/core/answers/model.js';
import { Hunt } from '../../../src/core/diagnosis/hunt.js';
import { createPredictor } from '../../../src/core/diagnosis/predictor.js';
import type { HuntEntry } from '../../../src/core/diagnosis/shapes/hunt.js';
import type { Workings } from '../../../src/core/diagnosis/workings.js';
import { FaultyVehicle, noFault } from '../../support/faulty-vehicle.js';
import { seededRandom } from '../../support/random.js';
import { subjectModel } from './harnesses.js';
import { percentile } from './statistics.js';

export interface StepTimes {
  readonly nets: number;
  readonly hypotheses: number;
  readonly pairs: number;
  /** 95th percentiles, warm. */
  readonly nextCheckMs: number | null;
  readonly nextCheckPairsMs: number | null;
  /** The very first assessment, nothing worked out yet. */
  readonly coldMs: number;
}

const HARNESS = 'generated 500 11';
const STEPS = 8;
const STATE = 'Everything on, engine stopped';

export function stepTimes(): StepTimes {
  const model = subjectModel(HARNESS);
  const predictor = createPredictor(model);
  const options = { profile: 'in-service', instruments: { breakOutLeads: true } } as const;
  // All of it dead: everything on every way is suspected.
  const lead = [...model.graph.elements.values()].find(
    ({ role, a, b }) => role === 'termination' && (a === 'BAT1/pos' || b === 'BAT1/pos'),
  );
  const open = { ...noFault, changes: [{ kind: 'open', element: lead?.id ?? '' } as const] };
  const vehicle = new FaultyVehicle(model, [open], seededRandom(5));
  const symptoms = allComplaints(model, vehicle);
  const warm: number[] = [];
  let [coldMs, hypotheses] = [0, 0];
  for (const isWarm of [false, true]) {
    const hunt = new Hunt(model, options, predictor);
    const log: HuntEntry[] = [...symptoms];
    for (let step = 0; step < STEPS; step++) {
      const started = performance.now();
      const { view, workings } = hunt.assess(log);
      const millis = performance.now() - started;
      if (isWarm) warm.push(millis);
      else if (step === 0) coldMs = millis;
      hypotheses = Math.max(hypotheses, countOf(workings, 'fault'));
      if (view.next === null) break;
      log.push({ id: `e${step}`, kind: 'reading', check: view.next.check, result: vehicle.answer(view.next.check) });
    }
  }
  const pairs = pairTimes(model, predictor);
  return {
    nets: netsOf(model),
    hypotheses,
    pairs: pairs.count,
    nextCheckMs: percentile(warm, 0.95),
    nextCheckPairsMs: percentile(pairs.millis, 0.95),
    coldMs,
  };
}

/** Complaints that no single fault explains: functions of different circuits dead, others fine. */
function pairTimes(model: Model, predictor: ReturnType<typeof createPredictor>) {
  const fuses = [...model.graph.elements.values()].filter(({ role }) => role === 'fuse').slice(3, 9);
  const changes = [fuses[0], fuses[fuses.length - 1]].map(({ id }) => ({ kind: 'open', element: id }) as const);
  const vehicle = new FaultyVehicle(model, [{ ...noFault, changes }], seededRandom(6));
  const log = allComplaints(model, vehicle);
  const options = { profile: 'in-service', instruments: { breakOutLeads: true } } as const;
  const millis: number[] = [];
  let count = 0;
  for (const isWarm of [false, true]) {
    const hunt = new Hunt(model, options, predictor);
    const entries: HuntEntry[] = [...log];
    for (let step = 0; step < STEPS; step++) {
      const started = performance.now();
      const { view, workings } = hunt.assess(entries);
      count = Math.max(count, countOf(workings, 'pair'));
      if (isWarm && countOf(workings, 'pair') > 0) millis.push(performance.now() - started);
      if (view.next === null) break;
      const result = vehicle.answer(view.next.check);
      entries.push({ id: `e${step}`, kind: 'reading', check: view.next.check, result });
    }
  }
  return { count, millis };
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
