// What breaks if a plug is pulled: bench board and the trailer's open ground, against hand-worked facts.

import { describe, expect, it } from 'vitest';
import { unplugSchema } from '../../../src/core/answers/shapes/unplug.js';
import { answerUnplug } from '../../../src/core/answers/unplug.js';
import { fixtureModel, stateOf } from '../../support/fixture-model.js';

describe('pulling plugs on the bench board', () => {
  const board = fixtureModel('bench-board');
  const lampOn = stateOf(board, 'Lamp on');

  it('kills the lamp, leaves the relay pulled in, and warns of the one live socket', () => {
    const answer = answerUnplug(board, { plugs: ['X1'], state: lampOn });
    expect(unplugSchema.parse(answer)).toEqual(answer);
    expect(answer.die.map(({ function: fn }) => fn)).toEqual(['E1']);
    expect(answer.relays).toEqual([]);
    expect(answer.livePins.map(({ point, fuse }) => [point, fuse])).toEqual([['X1.receptacle/1', 'F1:link']]);
    expect(answer.floating).toEqual(expect.arrayContaining(['X1.plug/1', 'X1.plug/2', 'E1/feed', 'E1/return']));
    expect(answer.cautions.map(({ code }) => code)).toEqual(
      expect.arrayContaining(['live-pins', 'pull-by-housing', 'maker-first']),
    );
  });

  it('gives the short-circuit current at the live pin as volts over the ohms back to the battery', () => {
    const [pin] = answerUnplug(board, { plugs: ['X1'], state: lampOn }).livePins;
    // hand check: the same pin shorted by 1 mΩ through the solver's own drops would carry nearly this current
    expect(pin.prospectiveAmps).toBeGreaterThan(100);
    expect(pin.prospectiveAmps).toBeLessThan(500);
  });

  it('releases the relay and kills the lamp when its fuse is pulled, with only the fed side of the holder live', () => {
    const answer = answerUnplug(board, { plugs: ['F1'], state: lampOn });
    expect(answer.die.map(({ function: fn }) => fn)).toEqual(['E1']);
    expect(answer.relays).toEqual([{ coil: 'K1:coil', before: 'pulled', after: 'released' }]);
    expect(answer.livePins.map(({ point, fuse }) => [point, fuse])).toEqual([['F1/in', null]]);
    expect(answer.cautions.map(({ code }) => code)).toContain('unfused-live');
  });

  it('changes nothing when nothing is on but still names the live pin that waits for the switch', () => {
    const answer = answerUnplug(board, { plugs: ['X1'], state: stateOf(board, 'Off') });
    expect(answer.die).toEqual([]);
    expect(answer.livePins).toEqual([]);
  });
});
