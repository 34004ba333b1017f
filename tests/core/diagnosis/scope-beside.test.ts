// What is suspected beside a complaint's own circuit: shorts on other branches of its fuse, grounds of lamps that share its feed.

import { describe, expect, it } from 'vitest';
import { Hunt } from '../../../src/core/diagnosis/hunt.js';
import { hypothesesOf } from '../../../src/core/diagnosis/hypotheses.js';
import { scopeOf } from '../../../src/core/diagnosis/scope.js';
import { fixtureModel } from '../../support/fixture-model.js';

describe('the scope of a dead consumer behind the ignition fuse of the Tern', () => {
  const model = fixtureModel('tern');
  const state = 'Towing, braking, hazard lit';
  const scope = scopeOf(model, [{ kind: 'function', function: 'E22', state, report: 'dead' }]);
  const hypotheses = hypothesesOf(model, scope, { profile: 'in-service' });
  const modesOf = (element: string): string[] =>
    hypotheses.flatMap(({ faults: [fault] }) => (fault?.element === element ? [fault.mode] : []));

  it('holds shorts of the branch behind the ignition switch that the fuse feeds as well', () => {
    expect(modesOf('IG04A')).toContain('short-to-body');
  });

  it('leaves out opens there: they cannot take the consumer down', () => {
    expect(modesOf('IG04A')).not.toContain('open');
    expect(modesOf('RA03A')).toContain('open');
  });

  it('ends at the next fuse: a short beyond blows that one first', () => {
    const blowsItsOwn = [...model.graph.elements.values()].filter(({ owner }) => owner === 'LT08A');
    expect(blowsItsOwn.length).toBeGreaterThan(0);
    for (const { id } of blowsItsOwn) expect(modesOf(id), id).toEqual([]);
  });
});

describe('the scope of a main beam that glows with dip', () => {
  const model = fixtureModel('tern');
  const scopeWith = (report: 'stays-on' | 'dead') =>
    scopeOf(model, [{ kind: 'function', function: 'E2:main', state: 'Patrol', report }]);

  it('holds the ground of the other headlamp, whose dip current comes home through both main filaments', () => {
    expect(scopeWith('stays-on').own).toContain('GD18A@X11.plug/3');
  });

  it('leaves that ground out where the beam is dead: no current of another keeps a lamp from lighting', () => {
    expect(scopeWith('dead').own).not.toContain('GD18A@X11.plug/3');
  });

  it('holds it as well when the beam was first told as dead: the question is another one then', () => {
    const hunt = new Hunt(model, { profile: 'in-service', instruments: {} });
    const told = (report: 'dead' | 'stays-on') =>
      ({
        id: report,
        kind: 'symptom',
        symptom: { kind: 'function', function: 'E2:main', state: 'Patrol', report },
      }) as const;
    const suspected = (log: Parameters<Hunt['assess']>[0]) =>
      hunt.assess(log).workings?.posterior.inquiry.hypotheses.flatMap((it) => it.faults.map(({ element }) => element));
    expect(suspected([told('dead')])).not.toContain('GD18A@X11.plug/3');
    expect(suspected([told('dead'), { id: 'u', kind: 'undo', entry: 'dead' }, told('stays-on')])).toContain(
      'GD18A@X11.plug/3',
    );
  });
});
