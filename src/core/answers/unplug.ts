/**
 * What breaks if these plugs are pulled: loads that die, weaken, start or stay, relays and modules that change, pins still live.
 * Compares two settled states; the open halves are read point by point.
 */
import type { ResolvedState } from '../circuit/resolved-state.js';
import { type Solution, solutionsOf } from '../circuit/solution.js';
import { naturalSort } from '../graph/natural-compare.js';
import { basisOf } from './basis.js';
import { type CautionCode, cautions, isForbidden } from './cautions.js';
import { conditionOf, isActive, voltsAcross } from './condition.js';
import { livePinsOf } from './live-pins.js';
import type { Model } from './model.js';
import { settledState } from './settled-state.js';
import type { ChangedFunction, LivePin, UnplugAnswer } from './shapes/unplug.js';
import { type IsCancelled, never, settleUnlessStopped } from './stopped.js';

export interface UnplugQuestion {
  /** Connectors and plug-in parts, canonical addresses. */
  readonly plugs: readonly string[];
  readonly state: ResolvedState;
}

/** Empty lists and the settling in `basis` when either state has no solution. */
export function answerUnplug(
  model: Model,
  { plugs, state }: UnplugQuestion,
  isCancelled: IsCancelled = never,
): UnplugAnswer {
  const pulledState: ResolvedState = { ...state, unplugged: new Set([...state.unplugged, ...plugs]) };
  const before = settledState(model, state, isCancelled).bench?.settled;
  const outcome = settleUnlessStopped(model.circuit, pulledState, [], isCancelled);
  const after = solutionsOf(outcome)[0];
  const livePins = after === undefined ? [] : livePinsOf(model, after, plugs);
  const matings = plugs.flatMap((plug) => matingsOf(model, plug));
  const answer: UnplugAnswer = {
    plugs: [...plugs],
    die: [],
    weaken: [],
    start: [],
    stay: [],
    relays: [],
    modules: [],
    livePins,
    floating: before === undefined || after === undefined ? [] : newlyFloating(model, before, after),
    basis: basisOf(model, state.source.name, outcome, matings),
    cautions: cautions(cautionsFor(model, plugs, livePins)),
  };
  if (before !== undefined && after !== undefined) {
    sortFunctions(model, before, after, answer);
    compareControllers(model, before, after, answer);
  }
  return answer;
}

function matingsOf(model: Model, plug: string): string[] {
  return [...model.graph.elements.values()]
    .filter((element) => element.role === 'mating' && element.owner === plug)
    .map((element) => element.id);
}

function sortFunctions(model: Model, before: Solution, after: Solution, answer: UnplugAnswer): void {
  for (const id of naturalSort(model.graph.functions.keys())) {
    const fn = model.graph.functions.get(id);
    if (fn === undefined) continue;
    const change: ChangedFunction = {
      function: id,
      before: conditionOf(fn, before),
      after: conditionOf(fn, after),
      voltsBefore: voltsAcross(fn, before),
      voltsAfter: voltsAcross(fn, after),
    };
    const ran = isActive(change.before);
    const runs = isActive(change.after);
    if (ran && !runs) answer.die.push(change);
    else if (!ran && runs) answer.start.push(change);
    else if (ran && change.before !== change.after) answer.weaken.push(change);
    else if (ran) answer.stay.push(id);
  }
}

function compareControllers(model: Model, before: Solution, after: Solution, answer: UnplugAnswer): void {
  const coils = [...model.graph.elements.values()]
    .filter((element) => element.coil !== null)
    .map((element) => element.id);
  for (const coil of naturalSort(coils)) {
    const was = before.pulledCoils.has(coil) ? 'pulled' : 'released';
    const is = after.pulledCoils.has(coil) ? 'pulled' : 'released';
    if (was !== is) answer.relays.push({ coil, before: was, after: is });
  }
  for (const module of naturalSort(model.graph.modules.keys())) {
    const was = before.awakeModules.has(module) ? 'awake' : 'asleep';
    const is = after.awakeModules.has(module) ? 'awake' : 'asleep';
    if (was !== is) answer.modules.push({ module, before: was, after: is });
  }
}

function newlyFloating(model: Model, before: Solution, after: Solution): string[] {
  const lost = [...model.graph.points.values()].filter(
    (point) => point.probeable && before.volts(point.id) !== null && after.volts(point.id) === null,
  );
  return naturalSort(lost.map((point) => point.id));
}

function cautionsFor(model: Model, plugs: readonly string[], livePins: readonly LivePin[]): CautionCode[] {
  const codes: CautionCode[] = ['pull-by-housing'];
  if (livePins.length > 0) codes.push('live-pins');
  if (livePins.some((pin) => pin.fuse === null)) codes.push('unfused-live');
  const marks = plugs.flatMap((plug) =>
    [...model.graph.points.values()].filter((point) => point.owner === plug).flatMap((point) => point.marks),
  );
  for (const mark of marks)
    if (isForbidden([mark]) || mark === 'movement-interlock' || mark === 'data-bus') codes.push(mark);
  return codes;
}
