// What is suspected beside a complaint's own circuit: shorts on other branches of its fuse, grounds of lamps that share its feed.

import { describe, expect, it } from 'vitest';
import { buildModel } from '../../../src/core/answers/model.js';
import { Hunt } from '../../../src/core/diagnosis/hunt.js';
import { hypothesesOf } from '../../../src/core/diagnosis/hypotheses.js';
import { scopeOf } from '../../../src/core/diagnosis/scope.js';
import { parseRecord } from '../../../src/core/record/parse-record.js';
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

describe('the scope of a lamp that is switched to ground and stays on', () => {
  const parsed = parseRecord({
    format: 'lastgood-record/1',
    name: 'Two lamps that one switch grounds',
    parts: [
      { address: 'BAT', kind: 'battery' },
      { address: 'F', kind: 'fuse', ratingAmps: 15 },
      { address: 'B', kind: 'busbar', terminals: 3 },
      { address: 'L', kind: 'load', functions: [{ name: 'main', law: 'filament', ratedWatts: 60 }] },
      { address: 'R', kind: 'load', functions: [{ name: 'main', law: 'filament', ratedWatts: 60 }] },
      { address: 'SP', kind: 'splice' },
      { address: 'S', kind: 'switch', style: 'on-off' },
      { address: 'FRAME', kind: 'body' },
      { address: 'G', kind: 'ground', on: 'FRAME' },
    ],
    wires: [
      { label: 'W1', from: 'BAT/pos', to: 'F/in', size: '2.5 mm²' },
      { label: 'W2', from: 'F/out', to: 'B/1', size: '2.5 mm²' },
      { label: 'W3', from: 'B/2', to: 'L/feed', size: '1 mm²' },
      { label: 'W4', from: 'B/3', to: 'R/feed', size: '1 mm²' },
      { label: 'W5', from: 'L/return', to: 'SP', size: '1 mm²' },
      { label: 'W6', from: 'R/return', to: 'SP', size: '1 mm²' },
      { label: 'W7', from: 'SP', to: 'S/1', size: '2.5 mm²' },
      { label: 'W8', from: 'S/2', to: 'G', size: '2.5 mm²' },
      { label: 'W9', from: 'G', to: 'BAT/neg', size: '6 mm²' },
    ],
    states: [{ name: 'Off' }],
  });
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.issues));
  const model = buildModel(parsed.record);

  it('holds the return of the lamp beside it: chafed through, it grounds both', () => {
    const scope = scopeOf(model, [{ kind: 'function', function: 'L', state: 'Off', report: 'stays-on' }]);
    const shorted = hypothesesOf(model, scope, { profile: 'in-service' }).flatMap(({ faults: [fault] }) =>
      fault?.mode === 'short-to-body' ? [fault.owner] : [],
    );
    expect(shorted).toEqual(expect.arrayContaining(['W5', 'W6', 'W7']));
  });
});

describe('the scope of anything on two batteries in series', () => {
  it('holds the link between them: open, it takes the whole vehicle down', () => {
    const model = fixtureModel('heron');
    const [fn] = model.graph.functions.values();
    const [{ name: state }] = model.graph.record.states ?? [];
    const { own } = scopeOf(model, [{ kind: 'function', function: fn.id, state, report: 'dead' }]);
    for (const id of ['H3', 'H3@BatA/pos', 'H3@BatB/neg']) expect(own, id).toContain(id);
  });
});
