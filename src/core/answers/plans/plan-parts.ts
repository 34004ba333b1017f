/**
 * What all plans share: the empty plan, names of steps, places of points, the findings that come first.
 * It must not build a plan.
 */
import { type CautionCode, cautions } from '../cautions.js';
import { cavityUsedTwice, loadWithoutReturn } from '../findings/connection-checks.js';
import { findMistakes } from '../findings/find-mistakes.js';
import { fuseMayNotOpen, fuseOverWire, unfusedWire } from '../findings/protection-checks.js';
import type { Model } from '../model.js';
import type { Finding } from '../shapes/findings.js';
import type { Plan, PlanKind } from '../shapes/plans.js';
import type { HarnessNets } from './harness-nets.js';

const CAUTIONS: Readonly<Record<PlanKind, readonly CautionCode[]>> = {
  continuity: ['battery-off', 'ohms-dead-only', 'pull-by-housing'],
  isolation: ['battery-off', 'ohms-dead-only', 'pull-by-housing'],
  'voltage-drop': ['live-work', 'moving-parts', 'hot-parts', 'battery-gas'],
  'first-power': ['live-work', 'battery-off', 'unfused-live', 'moving-parts', 'hot-parts', 'battery-gas', 'fuse-size'],
  'parasitic-draw': ['live-work', 'unfused-live', 'fuse-size'],
};

export function emptyPlan(model: Model, kind: PlanKind, title: string): Plan {
  return {
    kind,
    title,
    harness: model.graph.record.name,
    kit: null,
    first: [],
    refused: null,
    prepare: [],
    remove: [],
    steps: [],
    stopIf: [],
    onFailure: [],
    leftOut: [],
    counts: {
      nets: 0,
      terminals: 0,
      readings: 0,
      leastPossible: null,
      pairwise: null,
      handMoves: 0,
      handMovesInRecordOrder: 0,
    },
    cautions: cautions([...CAUTIONS[kind], ...marksOf(model)]),
  };
}

/** Marks that the record knows bring their caution into every plan. */
function marksOf(model: Model): CautionCode[] {
  return [...new Set([...model.graph.record.parts, ...model.graph.record.wires].flatMap(({ marks }) => marks ?? []))];
}

const severest = new WeakMap<Model, readonly Finding[]>();

/** Above this the search for the worst state would take longer than the plan; only checks of structure are then asked. */
const SEARCHED_ELEMENTS = 6_000;
const STRUCTURE_CHECKS = [unfusedWire, loadWithoutReturn, cavityUsedTwice];

/** Findings of the highest severity that nobody has accepted; found once per model. */
export function severestFindings(model: Model): Finding[] {
  let found = severest.get(model);
  if (found === undefined) {
    const isLarge = model.graph.elements.size > SEARCHED_ELEMENTS;
    const checks = isLarge ? STRUCTURE_CHECKS : [...STRUCTURE_CHECKS, fuseOverWire, fuseMayNotOpen];
    found = findMistakes(model, checks, !isLarge).standing.filter(({ severity }) => severity === 'danger');
    severest.set(model, found);
  }
  return [...found];
}

/** Where the hand must be: the recorded location, else the part itself. */
export function placeOf(model: Model, point: string): string {
  const found = model.graph.points.get(point);
  return found?.location ?? found?.owner ?? point;
}

export function stepId(kind: PlanKind, red: readonly string[], black: readonly string[], state = ''): string {
  return [kind, state, red.join('+'), black.join('+')].filter((word) => word !== '').join(' | ');
}

export function leftOutForbidden({ forbidden }: HarnessNets): string[] {
  return forbidden.length === 0
    ? []
    : [`Wires ${forbidden.join(', ')}: marked circuits, which no plan touches. The maker’s procedure holds.`];
}
