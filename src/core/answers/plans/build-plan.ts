/**
 * Any plan by its kind: the one place that knows them all.
 * It must not hold rules of any plan.
 */
import type { ResolvedState } from '../../circuit/resolved-state.js';
import type { Model } from '../model.js';
import type { Kit, Plan } from '../shapes/plans.js';
import { planContinuity } from './continuity.js';
import { planFirstPower } from './first-power.js';
import { planIsolation } from './isolation.js';
import { planParasiticDraw } from './parasitic-draw.js';
import { planVoltageDrop } from './voltage-drop.js';

export type PlanQuestion =
  | { readonly kind: 'continuity'; readonly leadOhms?: number }
  | { readonly kind: 'isolation'; readonly kit: Kit }
  | { readonly kind: 'voltage-drop'; readonly functions?: readonly string[] }
  | { readonly kind: 'first-power' }
  | { readonly kind: 'parasitic-draw'; readonly state?: ResolvedState };

export function buildPlan(model: Model, question: PlanQuestion): Plan {
  switch (question.kind) {
    case 'continuity':
      return planContinuity(model, question);
    case 'isolation':
      return planIsolation(model, question.kit);
    case 'voltage-drop':
      return planVoltageDrop(model, question);
    case 'first-power':
      return planFirstPower(model);
    case 'parasitic-draw':
      return planParasiticDraw(model, question.state);
    default:
      return question satisfies never;
  }
}
