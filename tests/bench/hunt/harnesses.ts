// The harnesses that cases are drawn on: hand-made ones and seeded generated ones.
// It must not be tuned to any policy.

import { buildModel, type Model } from '../../../src/core/answers/model.js';
import { fixtureModel } from '../../support/fixture-model.js';
import { generateHarness } from '../../support/generate-harness.js';

/** By name: `tern`, `trailer`, or `generated 60 3` for 60 wires from seed 3. */
export function subjectModel(name: string): Model {
  const [kind, wires, seed] = name.split(' ');
  if (kind !== 'generated') return fixtureModel(name);
  const systemVolts = Number(seed) % 2 === 0 ? 24 : 12;
  return buildModel(generateHarness({ seed: Number(seed), wires: Number(wires), systemVolts }));
}
