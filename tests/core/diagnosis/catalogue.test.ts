// The catalogue of faults: something for every part that can fail, every joint of a wire, and every weight with its source.
// It must not check odds themselves; they are judgement.

import { describe, expect, it } from 'vitest';
import { buildModel } from '../../../src/core/answers/model.js';
import { faultCatalogue } from '../../../src/core/diagnosis/catalogue.js';
import { priorTable } from '../../../src/core/diagnosis/priors.js';
import { parseRecord } from '../../../src/core/record/parse-record.js';
import { fixtureModel } from '../../support/fixture-model.js';

const harnesses = ['bench-board', 'trailer', 'tern'].map((name) => {
  const model = fixtureModel(name);
  return { name, model, faults: faultCatalogue(model, { profile: 'in-service' }) };
});

describe.each(harnesses)('faults of $name', ({ model, faults }) => {
  const modes = new Map<string, Set<string>>();
  for (const { element, mode } of faults) {
    if (element === null) continue;
    const known = modes.get(element) ?? new Set<string>();
    modes.set(element, known.add(mode));
  }

  it('every wire, termination, contact of a plug and bolted joint can be open and can be high', () => {
    const plain = new Set(['conductor', 'termination', 'mating', 'joint', 'double-crimp']);
    for (const { id, role } of model.graph.elements.values()) {
      if (!plain.has(role)) continue;
      expect([...(modes.get(id) ?? [])], id).toEqual(expect.arrayContaining(['open', 'high-resistance']));
    }
  });

  it('every fuse, coil, contact, load, battery and output has faults of its own', () => {
    const own = new Set(['fuse', 'coil', 'contact', 'load', 'output']);
    const bare = [...model.graph.elements.values()]
      .filter(
        ({ role, id, owner }) => own.has(role) && !modes.has(id) && !faults.some((fault) => fault.owner === owner),
      )
      .map(({ id }) => id);
    expect(bare).toEqual([]);
    expect(faults.some(({ mode }) => mode === 'battery-flat')).toBe(true);
  });

  it('no two faults share an id, all weigh something, and bad joints span decades', () => {
    expect(new Set(faults.map(({ id }) => id)).size).toBe(faults.length);
    expect(faults.every(({ weight }) => weight > 0 && Number.isFinite(weight))).toBe(true);
    const ohms = faults.flatMap((fault) => (fault.mode === 'high-resistance' ? [fault.ohms ?? 0] : []));
    expect(Math.max(...ohms) / Math.min(...ohms)).toBeGreaterThan(1_000);
  });
});

describe('a wire whose way nobody wrote down', () => {
  const parsed = parseRecord({
    format: 'lastgood-record/1',
    name: 'Two bodies, no routes but one',
    parts: [
      { address: 'BAT', kind: 'battery' },
      { address: 'E', kind: 'load', caseOn: 'FRAME', functions: [{ name: 'horn', law: 'resistive', return: 'case' }] },
      { address: 'ENGINE', kind: 'body' },
      { address: 'FRAME', kind: 'body' },
      { address: 'ST', kind: 'strap', between: ['ENGINE', 'FRAME'] },
      { address: 'G', kind: 'ground', on: 'FRAME' },
      { address: 'SP', kind: 'splice' },
    ],
    segments: [{ address: 'SLEEVE' }],
    wires: [
      { label: 'W1', from: 'BAT/pos', to: 'SP', size: '1 mm²' },
      { label: 'W2', from: 'SP', to: 'E/feed', size: '1 mm²', route: ['SLEEVE'] },
      { label: 'W3', from: 'BAT/neg', to: 'G', size: '6 mm²' },
    ],
  });
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.issues));
  const shorts = faultCatalogue(buildModel(parsed.record), { profile: 'in-service' }).filter(
    ({ mode }) => mode === 'short-to-body',
  );

  it('can chafe through to the body that most is grounded to; one that is routed past none cannot', () => {
    expect(shorts.map(({ owner, changes: [change] }) => [owner, change.kind === 'bridge' ? change.to : null])).toEqual([
      ['W1', 'FRAME'],
      ['W3', 'FRAME'],
    ]);
  });
});

describe('priors', () => {
  it('each has a source or says that it is engineering judgement, and its modes add up to 1', () => {
    for (const { id, source, modes } of priorTable) {
      expect(source, id).toMatch(/engineering judgement|FMD/);
      expect(
        Object.values(modes).reduce((sum, share) => sum + share, 0),
        id,
      ).toBeCloseTo(1, 9);
    }
  });

  it('a relay or fuse fails before any contact of its socket (common practice: swap it, look at it)', () => {
    const { faults } = harnesses[0];
    const weight = (is: (repair: string) => boolean): number =>
      faults.filter(({ repair }) => is(repair)).reduce((sum, fault) => sum + fault.weight, 0);
    for (const [part, repair] of [
      ['K1', 'replace K1'],
      ['F1', 'fuse F1'],
    ]) {
      const worst = ['30', '85', '86', '87', 'in', 'out'].map((pin) => weight((it) => it === `remake ${part}:${pin}`));
      expect(weight((it) => it === repair)).toBeGreaterThan(3 * Math.max(...worst));
      expect(Math.max(...worst)).toBeGreaterThan(0);
    }
  });

  it('a harness just built fails at hand-made joints, one in service at contacts and loads (common practice)', () => {
    const row = (id: string) => priorTable.find((it) => it.id === id) ?? priorTable[0];
    expect(row('termination').justBuilt).toBeGreaterThan(row('mating').justBuilt);
    expect(row('mating').inService).toBeGreaterThan(row('termination').inService);
    expect(row('connector-swap').justBuilt).toBeGreaterThan(10 * row('connector-swap').inService);
  });
});
