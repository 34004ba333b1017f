/**
 * What must come off to free an assembly from the vehicle, or to isolate a load function from its supply.
 * Freeing is mechanical (who is tied to whom by wire); isolating is electrical (nothing left that could feed it).
 */
import type { ResolvedState } from '../circuit/resolved-state.js';
import { settle } from '../circuit/settle.js';
import { solutionsOf } from '../circuit/solution.js';
import type { LoadFunction } from '../graph/element.js';
import { naturalSort } from '../graph/natural-compare.js';
import { type CautionCode, cautions } from './cautions.js';
import { freeAssembly } from './free-assembly.js';
import { isolateFunction } from './isolate-function.js';
import { livePinsOf } from './live-pins.js';
import type { Model } from './model.js';
import type { SeparationAnswer } from './shapes/separation.js';

export type SeparationQuestion =
  | { readonly assembly: string; readonly state: ResolvedState }
  | { readonly function: LoadFunction; readonly state: ResolvedState };

/** Pins left live are read in the state asked, with the plugs of the answer pulled. */
export function answerSeparation(model: Model, question: SeparationQuestion): SeparationAnswer {
  const found =
    'assembly' in question ? freeAssembly(model, question.assembly) : isolateFunction(model, question.function);
  const plugs = found.detach.filter(({ by }) => by === 'plug').map(({ at }) => at);
  const codes = new Set<CautionCode>(['pull-by-housing']);
  if (found.detach.some(({ by }) => by !== 'plug')) codes.add('battery-off');
  const livePins = leftLive(model, question.state, plugs);
  if (livePins.length > 0) codes.add('live-pins');
  for (const plug of plugs) for (const mark of model.parts.get(plug)?.marks ?? []) codes.add(mark);
  return {
    target: 'assembly' in question ? question.assembly : question.function.id,
    kind: 'assembly' in question ? 'assembly' : 'circuit',
    ...found,
    livePins,
    cautions: cautions(codes),
  };
}

function leftLive(model: Model, state: ResolvedState, plugs: readonly string[]): string[] {
  const pulled: ResolvedState = { ...state, unplugged: new Set([...state.unplugged, ...plugs]) };
  const solution = solutionsOf(settle(model.circuit, pulled))[0];
  return solution === undefined ? [] : naturalSort(livePinsOf(model, solution, plugs).map(({ point }) => point));
}
