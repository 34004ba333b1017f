// Learning from closed hunts: the factor is the Gamma posterior over its prior, events land on the row whose factor weighs the fault.
// Hand-worked figures; conjugacy of Gamma and Poisson is textbook.

import { describe, expect, it } from 'vitest';
import { faultCatalogue } from '../../../src/core/diagnosis/catalogue.js';
import { factsOf } from '../../../src/core/diagnosis/hunt-log.js';
import { learnedFactor, learnFrom, rowOfFault } from '../../../src/core/diagnosis/learned-priors.js';
import { priorTable } from '../../../src/core/diagnosis/priors.js';
import type { HuntEntry } from '../../../src/core/diagnosis/shapes/hunt.js';
import { fixtureModel } from '../../support/fixture-model.js';

const tern = fixtureModel('tern');
const profile = 'in-service';

describe('what closed hunts teach', () => {
  it('moves a row by a twentieth for a first event that the table did not expect', () => {
    // Gamma(20, 20/r): mean r; after n events in an exposure of E expected ones: r (20 + n) / (20 + E).
    expect(learnedFactor(1, 0)).toBeCloseTo(21 / 20, 12);
    expect(learnedFactor(30, 10)).toBeCloseTo(50 / 30, 12);
    expect(learnedFactor(7, 7)).toBe(1);
  });

  it('leaves the table as it is without hunts', () => {
    const { hunts, rows } = learnFrom(tern, profile, []);
    expect(hunts).toBe(0);
    expect([...rows.keys()]).toEqual(priorTable.map(({ id }) => id));
    for (const { events, expected, factor } of rows.values()) expect([events, expected, factor]).toEqual([0, 0, 1]);
  });

  it('raises ground joints after ten of them, and lowers what was expected to fail and did not', () => {
    const proved = Array.from({ length: 10 }, () => ['remake G5:joint']);
    const { hunts, rows } = learnFrom(tern, profile, proved);
    expect(hunts).toBe(10);
    expect(rows.get('joint')?.events).toBe(10);
    expect(rows.get('joint')?.factor).toBeGreaterThan(1.2);
    expect(rows.get('lamp')?.factor).toBeLessThan(1);
    const expected = priorTable
      .filter(({ id }) => id !== 'conductor-metre')
      .reduce((sum, { id }) => sum + (rows.get(id)?.expected ?? 0), 0);
    expect(expected).toBeCloseTo(10, 9);
  });

  it('does not count a repair that this harness does not have', () => {
    expect(learnFrom(tern, profile, [['remake NOWHERE:joint']]).hunts).toBe(0);
  });

  it('shares what one repair mended among the rows that it could have been', () => {
    const { rows } = learnFrom(tern, profile, [['remake G5:joint', 'remake X15:4']]);
    expect(rows.get('joint')?.events).toBeCloseTo(0.5, 12);
    expect(rows.get('mating')?.events).toBeCloseTo(0.5, 12);
  });

  it('puts every fault on the row whose factor weighs it, conductors on both of theirs', () => {
    const plain = faultCatalogue(tern, { profile });
    for (const { id } of priorTable) {
      if (id === 'conductor-metre') continue;
      const learned = new Map([[id, 3] as const, ...(id === 'conductor' ? [['conductor-metre', 3] as const] : [])]);
      const weighed = faultCatalogue(tern, { profile, learned });
      plain.forEach((fault, i) => {
        const isOwn = rowOfFault(tern, fault) === id;
        expect(weighed[i].weight / fault.weight, `${fault.id} by ${id}`).toBeCloseTo(isOwn ? 3 : 1, 9);
      });
    }
  });
});

describe('the repair that a hunt proved', () => {
  const symptom = { kind: 'function', function: 'E7:stop', state: 'Brake', report: 'weak' } as const;
  const log: HuntEntry[] = [
    { id: 's', kind: 'symptom', symptom },
    { id: 'r1', kind: 'repair', repairs: ['remake X15:4'] },
    { id: 'p1', kind: 'proof', symptoms: [symptom] },
    { id: 'r2', kind: 'repair', repairs: ['remake G5:joint + remake G4:joint'] },
    { id: 'p2', kind: 'proof', symptoms: [{ ...symptom, report: 'works' }] },
  ];

  it('is the last one before the complaint was gone; the one in vain is not', () => {
    expect(factsOf(log)).toMatchObject({ isCured: true, lastRepair: ['remake G5:joint', 'remake G4:joint'] });
    expect(factsOf(log.slice(0, 3)).isCured).toBe(false);
  });
});
