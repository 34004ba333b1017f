/**
 * Whether an alternator that its charge lamp excites would begin to charge with a fault there before the engine is started.
 * It must not say what the vehicle shows then; that is settled from rest.
 */
import type { Model } from '../answers/model.js';
import { createProber } from '../circuit/prober.js';
import type { ResolvedState } from '../circuit/resolved-state.js';
import { settle } from '../circuit/settle.js';
import { type Change, type Solution, solutionsOf } from '../circuit/solution.js';
import { EXCITATION_AMPS } from '../circuit/switch-variables.js';

export class Excitation {
  private readonly rotors: readonly string[];

  constructor(private readonly model: Model) {
    const excited = new Set(
      model.graph.record.parts.flatMap((part) =>
        part.kind === 'alternator' && part.excitedBy === 'lamp' ? [part.address] : [],
      ),
    );
    this.rotors = [...model.graph.elements.values()]
      .filter(({ owner, gates }) => excited.has(owner) && gates.some(({ kind }) => kind === 'standing'))
      .map(({ id }) => id);
  }

  /** Whether it begins with these changes; true as well where nothing needs a lamp, or the sound harness does not begin either. */
  inState(state: ResolvedState): (changes: readonly Change[]) => boolean {
    if (!state.engineRuns || this.rotors.length === 0) return () => true;
    const rest: ResolvedState = { ...state, engineRuns: false };
    const [sound] = solutionsOf(settle(this.model.circuit, rest));
    if (sound === undefined || !this.isExcited(sound)) return () => true;
    const watch = createProber(this.model.circuit, rest, sound).watch({ pairs: [], elements: this.rotors });
    return (changes) => {
      const { glimpse } = watch(changes);
      return glimpse?.amps.every((amps) => amps >= EXCITATION_AMPS) === true;
    };
  }

  private isExcited(solution: Solution): boolean {
    return this.rotors.every((id) => solution.amps(id) >= EXCITATION_AMPS);
  }
}
