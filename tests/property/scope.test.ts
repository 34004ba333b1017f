// Nothing that changes how a function looks may be missing from the suspects of whoever complains of it.
// It must not use the scope to find what changes: every fault of the catalogue is followed through the circuit.

import { describe, expect, it } from 'vitest';
import { faultCatalogue } from '../../src/core/diagnosis/catalogue.js';
import { hypothesesOf } from '../../src/core/diagnosis/hypotheses.js';
import { createPredictor } from '../../src/core/diagnosis/predictor.js';
import { scopeOf } from '../../src/core/diagnosis/scope.js';
import type { FunctionReport } from '../../src/core/diagnosis/shapes/symptom.js';
import { fixtureModel, stateOf } from '../support/fixture-model.js';

const profile = 'in-service';

describe.each([
  ['bench-board', undefined, 0],
  ['trailer', undefined, 0],
  // A stuck contact of the hazard switch that lights two telltales, and a reversed suppressor that takes the ignition relay's feed down.
  ['tern', ['Brake'], 0.001],
] as const)('on the %s', (name, only, mostMissed) => {
  it('every fault that a complaint can be about is suspected', () => {
    const model = fixtureModel(name);
    const predictor = createPredictor(model);
    const faults = faultCatalogue(model, { profile });
    const suspects = new Map<string, ReadonlySet<string>>();
    const suspectedFor = (id: string, state: string, report: FunctionReport): ReadonlySet<string> => {
      const key = `${id} ${report} ${state}`;
      const known = suspects.get(key);
      if (known !== undefined) return known;
      const scope = scopeOf(model, [{ kind: 'function', function: id, state, report }]);
      const found = new Set(
        hypothesesOf(model, scope, { profile }).flatMap((it) => it.faults.map((fault) => fault.id)),
      );
      suspects.set(key, found);
      return found;
    };
    let [whole, missed] = [0, 0];
    const examples: string[] = [];
    for (const state of only ?? (model.graph.record.states ?? []).map((it) => it.name)) {
      const resolved = stateOf(model, state);
      const healthy = predictor.predict([], resolved);
      for (const fault of faults) {
        const faulty = predictor.predict(fault.changes, resolved);
        for (const fn of model.graph.functions.values()) {
          const [was, now] = [healthy.condition(fn), faulty.condition(fn)];
          if (was === now || now === 'undefined' || (now === 'works' && was !== 'dead')) continue;
          const report = was === 'dead' ? 'stays-on' : now === 'reversed' ? 'runs-backwards' : now;
          whole += fault.weight;
          if (suspectedFor(fn.id, state, report).has(fault.id)) continue;
          missed += fault.weight;
          examples.push(`${fn.id} ${report} in ${state}: ${fault.id}`);
        }
      }
    }
    expect(whole).toBeGreaterThan(0);
    expect(missed / whole, examples.slice(0, 20).join('\n')).toBeLessThanOrEqual(mostMissed);
  }, 60_000);
});
