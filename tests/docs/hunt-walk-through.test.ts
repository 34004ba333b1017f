// Replays the hunt that DEVELOPERS.md tells, with the values that stand there, and asks an independently settled faulty vehicle whether they are true.
// It must not hold numbers of its own: the prose holds them.

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { Hunt } from '../../src/core/diagnosis/hunt.js';
import type { CheckResult } from '../../src/core/diagnosis/shapes/check.js';
import type { HuntEntry } from '../../src/core/diagnosis/shapes/hunt.js';
import { FaultyVehicle, noFault } from '../support/faulty-vehicle.js';
import { fixtureModel } from '../support/fixture-model.js';
import { reports } from '../support/lead-hunt.js';
import { seededRandom } from '../support/random.js';

const HEADING = '## One hunt on the Tern, from the complaint to the proof';
const page = readFileSync(new URL('../../DEVELOPERS.md', import.meta.url), 'utf8');
const section = page.slice(page.indexOf(HEADING)).split('\n## ')[0] ?? '';
const rows = section
  .split('\n')
  .filter((line) => line.startsWith('| ') && !line.startsWith('| The hunt asks'))
  .map((line) => line.slice(2, -2).split(' | '));

const model = fixtureModel('tern');
const loose = { ...noFault, changes: [{ kind: 'open', element: 'G5:joint' } as const], elements: ['G5:joint'] };
const vehicle = new FaultyVehicle(model, [loose], seededRandom(11));
const hunt = new Hunt(model, { profile: 'in-service', instruments: { breakOutLeads: true } });

function resultIn(cell: string): CheckResult {
  const volts = /^(-?[\d.]+) V$/.exec(cell);
  return volts === null ? { kind: 'word', word: cell } : { kind: 'number', value: Number(volts[1]) };
}

describe('the hunt told in DEVELOPERS.md', () => {
  const symptoms = reports(vehicle, 'Brake', 'E7:stop', ['E8:stop']);
  const log: HuntEntry[] = symptoms.map((symptom, i) => ({ id: `s${i}`, kind: 'symptom', symptom }));

  it('has rows to replay, and begins with what is seen', () => {
    expect(rows.length).toBeGreaterThan(2);
    expect(symptoms.map((it) => (it.kind === 'function' ? it.report : ''))).toEqual(['weak', 'works']);
  });

  it.each(rows.map((row, i) => [i + 1, row] as const))(
    'row %i: asked as told, healthy as told, and the vehicle shows what is told',
    (step, [asks, healthy, shows, why]) => {
      const { next } = hunt.assess(log).view;
      expect(next?.instruction).toBe(asks);
      expect(next?.healthy.word ?? `${next?.healthy.nominal?.toFixed(2)} V`).toBe(healthy);
      expect(next?.why.sentence).toContain(why);
      if (next === null) return;
      const told = resultIn(shows);
      const found = vehicle.answer(next.check);
      if (told.kind === 'number' && found.kind === 'number')
        expect(Math.abs((found.value ?? 0) - (told.value ?? 0))).toBeLessThan(0.05 * Math.abs(told.value ?? 0) + 0.05);
      else expect(found).toEqual(told);
      log.push({ id: `e${step}`, kind: 'reading', check: next.check, result: told });
    },
  );

  it('ends with the sentence and the repair that stand there, and is cured once that is done', () => {
    const { verdict } = hunt.assess(log).view;
    expect(section.replaceAll('\n', ' ')).toContain(`"${verdict?.sentence}"`);
    expect(section).toContain(`\`${verdict?.repair}\``);
    vehicle.mend(({ elements }) => elements.includes('G5:joint'));
    log.push({ id: 'repair', kind: 'repair', repairs: ['remake G5:joint'] });
    log.push({ id: 'proof', kind: 'proof', symptoms: reports(vehicle, 'Brake', 'E7:stop', []) });
    expect(hunt.assess(log).view.verdict?.kind).toBe('cured');
  });
});
