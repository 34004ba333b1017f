// What must come off: the Tern's power box, a lamp, against brute force over sets of plugs.

import { describe, expect, it } from 'vitest';
import { answerPlugCircuits } from '../../../src/core/answers/plug-circuits.js';
import { answerSeparation } from '../../../src/core/answers/separation.js';
import { plugCircuitsSchema, separationSchema } from '../../../src/core/answers/shapes/separation.js';
import { fixtureModel, functionOf, stateOf } from '../../support/fixture-model.js';

const tern = fixtureModel('tern');

describe('separation on the Tern', () => {
  const [box] = (tern.graph.record.assemblies ?? []).map((assembly) => assembly.address);

  it('frees the power box by plugs and spanner alone, with no wire to cut', () => {
    const answer = answerSeparation(tern, { assembly: box, state: stateOf(tern, 'Parked') });
    expect(separationSchema.parse(answer)).toEqual(answer);
    expect(answer.tiedWithoutPlug).toEqual([]);
    expect(answer.detach.some(({ by }) => by === 'plug')).toBe(true);
    expect(answer.exact).toBe(true);
  });

  it('frees the trailer’s test box at the towing plug: its half stays with the box that it names', () => {
    const trailer = fixtureModel('trailer');
    const answer = answerSeparation(trailer, { assembly: 'TESTBOX', state: stateOf(trailer, 'Tail lamps') });
    expect(answer.detach.map(({ at, by }) => [at, by])).toEqual([['X1', 'plug']]);
    expect(answer.tiedWithoutPlug).toEqual([]);
    // the box keeps its battery: two fed sockets stay live with the plug pulled
    expect(answer.livePins).toEqual(['X1.receptacle/5', 'X1.receptacle/7']);
  });

  it('isolates a tail lamp by one plug, and any one plug that isolates it costs at least as much', () => {
    const answer = answerSeparation(tern, { function: functionOf(tern, 'E3'), state: stateOf(tern, 'Side lights') });
    expect(answer.detach).toHaveLength(1);
    expect(answer.exact).toBe(true);
  });

  it('tells per cavity of a plug whose feed, return and control runs through it', () => {
    const answer = answerPlugCircuits(tern, { plug: 'X3' });
    expect(plugCircuitsSchema.parse(answer)).toEqual(answer);
    const first = answer.cavities.find(({ cavity }) => cavity === '1');
    expect(first?.feeds).toEqual(['E1:dip', 'E2:dip']);
  });
});
