/**
 * How likely a person's words are, given what the circuit would do. Soft throughout: people call a lamp at 92 % of its volts working.
 * It must not know faults or priors.
 */
import { voltsAcross } from '../answers/condition.js';
import type { Model } from '../answers/model.js';
import type { LoadFunction } from '../graph/element.js';
import type { Prediction } from './prediction.js';
import type { FunctionReport, Symptom } from './shapes/symptom.js';

/** Share of reports that are mistaken, whatever the circuit does (engineering judgement). */
export const MISTAKEN_SHARE = 0.02;
/**
 * Of what a hunt begins with there is less doubt: a fault that does not bring it about is not what was called for. That the whole
 * complaint is mistaken is the hypothesis `healthy` (engineering judgement).
 */
export const FIRST_MISTAKEN_SHARE = 0.001;
/** Width of the step from weak to works and from dead to weak, as a share of rated volts (engineering judgement). */
const SOFTNESS = 0.03;
/** Of things that come and go, so many are told as if they were always so, for each told as working (engineering judgement). */
const PLAINLY_TOLD = 0.2;
/** Draw at rest that empties a battery overnight, amperes (common practice: 50 mA is the most that is left alone). */
const OVERNIGHT_AMPS = 0.15;
/** Heat that a hand notices in a joint or a wire, watts (engineering judgement). */
const HOT_WATTS = 3;

/** How a function looks to a person: shares that add up to 1. */
export interface Looks {
  readonly works: number;
  readonly weak: number;
  readonly dead: number;
  readonly reversed: number;
}

/** Soft version of the condition of a function. */
export function looksOf(fn: LoadFunction, prediction: Prediction): Looks {
  const condition = prediction.condition(fn);
  if (condition === 'reversed') return { works: 0.05, weak: 0, dead: 0, reversed: 0.95 };
  if (condition === 'undefined') return { works: 0.25, weak: 0.25, dead: 0.5, reversed: 0 };
  if (!prediction.conducts(fn.element)) return { works: 0, weak: 0, dead: 1, reversed: 0 };
  const signed = voltsAcross(fn, prediction) ?? 0;
  const volts = signed < 0 && fn.law === 'diode' ? 0 : Math.abs(signed);
  const width = SOFTNESS * fn.ratedVolts;
  const alive = logistic((volts - fn.deadBelowVolts) / width);
  const works = alive * logistic((volts - fn.weakBelowVolts) / width + 1);
  return { works, weak: alive - works, dead: 1 - alive, reversed: 0 };
}

/**
 * Probability of the report if the circuit is as predicted; `healthy` is the same state without any fault. Never 0 nor 1.
 * Throws a RangeError for a function that the harness lacks.
 */
export function symptomLikelihood(
  model: Model,
  symptom: Symptom,
  prediction: Prediction,
  healthy: Prediction,
  mistakenShare: number = MISTAKEN_SHARE,
): number {
  return softened(plainLikelihood(model, symptom, prediction, healthy), mistakenShare);
}

function softened(probability: number, mistakenShare: number): number {
  return mistakenShare / 2 + (1 - mistakenShare) * Math.min(1, Math.max(0, probability));
}

function plainLikelihood(model: Model, symptom: Symptom, prediction: Prediction, healthy: Prediction): number {
  switch (symptom.kind) {
    case 'function': {
      const fn = model.graph.functions.get(symptom.function);
      if (fn === undefined) throw new RangeError(`no function ${symptom.function}`);
      return reportLikelihood(model, fn, symptom.report, prediction, healthy);
    }
    case 'fuse-found-blown':
      // A blown fuse that the circuit does not blow can still have been blown by what went before.
      return anyOf(fuseElements(model, symptom.fuse), (id) => !prediction.conducts(id) && healthy.conducts(id))
        ? 1
        : 0.02;
    case 'fuse-blows': {
      const ids = fuseElements(model, symptom.fuse);
      const blows = anyOf(ids, (id) => prediction.lists.blown.has(id));
      const slowly = anyOf(ids, (id) => prediction.lists.mayBlow.has(id));
      return symptom.when === 'at-once' ? (blows ? 0.95 : 0) : slowly ? 0.9 : blows ? 0.3 : 0.02;
    }
    case 'relay': {
      const coils = [...model.graph.elements.values()].filter(
        ({ owner, role }) => owner === symptom.relay && role === 'coil',
      );
      const pulls = anyOf(
        coils.map(({ id }) => id),
        (id) => prediction.lists.pulledCoils.has(id),
      );
      return pulls === symptom.clicks ? 0.95 : 0.05;
    }
    case 'battery-flat':
      return batteryDrain(model, symptom.battery, prediction, healthy);
    case 'hot':
      return logistic((heatWatts(model, symptom.part, prediction) - HOT_WATTS) / 1) * 0.9;
  }
}

function reportLikelihood(
  model: Model,
  fn: LoadFunction,
  report: FunctionReport,
  prediction: Prediction,
  healthy: Prediction,
): number {
  const looks = looksOf(fn, prediction);
  // Across one that is open inside stand all the volts there are; it shows none of them.
  const volts = prediction.conducts(fn.element) ? Math.abs(voltsAcross(fn, prediction) ?? 0) : 0;
  const healthyVolts = Math.abs(voltsAcross(fn, healthy) ?? 0);
  switch (report) {
    case 'works':
      // A weak lamp is often taken for a good one.
      return looks.works + 0.15 * looks.weak;
    case 'weak':
      return 0.9 * looks.weak + 0.03 * looks.works + 0.05 * looks.dead;
    case 'dead':
      return looks.dead + 0.1 * looks.weak;
    case 'stays-on':
      return looks.works + looks.weak + looks.reversed;
    case 'runs-backwards':
      return looks.reversed;
    case 'comes-and-goes':
      // Only a thing that moves by itself does that; `intermittentLikelihood` speaks for those.
      return 0.03 + 0.05 * looks.weak;
    case 'too-bright':
      return logistic((volts / Math.max(1, fn.ratedVolts) - 1.18) / 0.03);
    case 'flashes-fast':
      return flasherShare(model, prediction, healthy) < 0.8 ? 0.85 : 0.02;
    case 'flashes-slow':
      return flasherShare(model, prediction, healthy) > 1.2 ? 0.7 : 0.05 + 0.2 * looks.weak;
    case 'does-not-flash':
      return 0.9 * looks.dead + 0.05 * looks.works;
    case 'reads-high':
      return logistic((volts - 1.15 * healthyVolts) / Math.max(0.1, 0.04 * healthyVolts));
    case 'reads-low':
      return logistic((0.85 * healthyVolts - volts) / Math.max(0.1, 0.04 * healthyVolts));
    case 'reads-stuck':
      return 0.8 * looks.dead + 0.1 * looks.works;
  }
}

/** A fault that comes and goes, faulty for half of the time: what a report is worth. `between` is what shows while it is gone. */
export function intermittentLikelihood(
  model: Model,
  symptom: Symptom,
  faulty: Prediction,
  healthy: Prediction,
  mistakenShare: number = MISTAKEN_SHARE,
  between: Prediction = healthy,
): number {
  const shown =
    symptom.kind === 'function' && symptom.report === 'comes-and-goes'
      ? changesOver(model, symptom.function, faulty, between)
      : null;
  if (shown !== null) return softened(shown ? 0.85 : 0.03, mistakenShare);
  // Who has seen it work in between says that it comes and goes; a plain complaint is rarely one of those.
  const asFaulty = symptomLikelihood(model, symptom, faulty, healthy, mistakenShare);
  const asBetween = symptomLikelihood(model, symptom, between, healthy, mistakenShare);
  return (PLAINLY_TOLD * asFaulty + asBetween) / (1 + PLAINLY_TOLD);
}

function changesOver(model: Model, id: string, faulty: Prediction, between: Prediction): boolean {
  const fn = model.graph.functions.get(id);
  if (fn === undefined) throw new RangeError(`no function ${id}`);
  return faulty.condition(fn) !== between.condition(fn);
}

/** Current of all flashers' contacts against the healthy one: too little and they flash fast. */
function flasherShare(model: Model, prediction: Prediction, healthy: Prediction): number {
  const contacts = [...model.graph.elements.values()].filter(({ gates }) => gates.some((gate) => gate.kind === 'lit'));
  const total = (view: Prediction): number => contacts.reduce((sum, { id }) => sum + Math.abs(view.amps(id)), 0);
  const right = total(healthy);
  return right === 0 ? 1 : total(prediction) / right;
}

function batteryDrain(model: Model, battery: string, prediction: Prediction, healthy: Prediction): number {
  const sources = [...model.graph.elements.values()].filter(
    ({ owner, law }) => owner === battery && law.kind === 'battery',
  );
  const more = sources.reduce((sum, { id }) => sum + Math.abs(prediction.amps(id)) - Math.abs(healthy.amps(id)), 0);
  return logistic((more - OVERNIGHT_AMPS) / 0.05) * 0.9;
}

function heatWatts(model: Model, part: string, prediction: Prediction): number {
  return [...model.graph.elements.values()]
    .filter(({ owner, role }) => owner === part && role !== 'load')
    .reduce((sum, { id, a, b }) => {
      const volts = prediction.voltsBetween(a, b) ?? 0;
      return sum + Math.abs(volts * prediction.amps(id));
    }, 0);
}

function fuseElements(model: Model, part: string): string[] {
  return [...model.graph.elements.values()]
    .filter(({ owner, protection }) => owner === part && protection !== null)
    .map(({ id }) => id);
}

function anyOf(ids: readonly string[], test: (id: string) => boolean): boolean {
  return ids.some(test);
}

function logistic(x: number): number {
  return 1 / (1 + Math.exp(-x));
}
