/**
 * The voltage profile of a function: every point along feed, load and return with its volts, in the order in which the current meets them.
 */

import type { ResolvedState } from '../circuit/resolved-state.js';
import type { Solution } from '../circuit/solution.js';
import type { Element, LoadFunction } from '../graph/element.js';
import { basisOf } from './basis.js';
import { cautions } from './cautions.js';
import { circuitPaths, type Walked } from './circuit-paths.js';
import { conditionOf, isActive } from './condition.js';
import { describeElement } from './describe.js';
import { dropLimitVolts } from './drop-limits.js';
import type { Model } from './model.js';
import type { Predictions } from './predicted.js';
import { settledState } from './settled-state.js';
import type { ProfileAnswer } from './shapes/readings.js';
import type { IsCancelled } from './stopped.js';

export interface ProfileQuestion {
  readonly function: LoadFunction;
  readonly state: ResolvedState;
}

/** Along the path with the largest share. No points when the function does not run in the state: ask `feeds` for one in which it does. */
export function answerProfile(
  model: Model,
  { function: fn, state }: ProfileQuestion,
  isCancelled?: IsCancelled,
): ProfileAnswer {
  const { outcome, bench } = settledState(model, state, isCancelled);
  const runs = bench !== null && isActive(conditionOf(fn, bench.settled));
  const points = runs ? pointsAlong(model, bench.settled, bench.predictions, fn) : [];
  const elements = points.flatMap((point) => (point.reachedBy === null ? [] : [point.reachedBy]));
  return {
    function: fn.id,
    points,
    basis: basisOf(model, state.source.name, outcome, elements),
    cautions: cautions(['live-work']),
  };
}

function pointsAlong(
  model: Model,
  solution: Solution,
  predictions: Predictions,
  fn: LoadFunction,
): ProfileAnswer['points'] {
  const { supplies, returns } = circuitPaths(solution, fn);
  // the source itself is no stretch of wire: the walk begins at its positive terminal
  const supply = (supplies[0]?.steps ?? []).filter((step) => step.element.role !== 'source');
  const load: Walked = { element: functionElement(model, fn), from: fn.feed, to: fn.return };
  const home = returns[0]?.steps ?? [];
  const start = supply[0]?.from ?? fn.feed;
  return [
    pointAt(model, predictions, start, 'feed', null),
    ...supply.map((step) => pointAt(model, predictions, step.to, 'feed', step)),
    pointAt(model, predictions, fn.return, 'load', load),
    ...home.map((step) => pointAt(model, predictions, step.to, 'return', step)),
  ];
}

function pointAt(
  model: Model,
  predictions: Predictions,
  id: string,
  along: 'feed' | 'load' | 'return',
  step: Walked | null,
): ProfileAnswer['points'][number] {
  const point = model.graph.points.get(id);
  const element = step?.element;
  return {
    point: id,
    probeable: point?.probeable ?? false,
    part: point?.owner ?? id,
    volts: predictions.volts(id),
    along,
    reachedBy: element?.id ?? null,
    description: element === undefined ? null : describeElement(model, element),
    dropVolts: step === null ? null : predictions.voltsBetween(step.from, step.to),
    limitVolts: element === undefined ? null : dropLimitVolts(model, element),
    location: point?.location ?? null,
    access: point?.access ?? 'open',
  };
}

function functionElement(model: Model, fn: LoadFunction): Element {
  const element = model.graph.elements.get(fn.element);
  if (element === undefined) throw new RangeError(`no element ${fn.element} in this harness`);
  return element;
}
