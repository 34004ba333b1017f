// The trailer's plans carried out on a harness that ngspice simulates from the record alone, with one fault put in: every one is found.
// Outside check; without ngspice it says so by skipping.

import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { planContinuity } from '../../../../src/core/answers/plans/continuity.js';
import { crossReadings, explainContinuity } from '../../../../src/core/answers/plans/explain-continuity.js';
import { harnessNets } from '../../../../src/core/answers/plans/harness-nets.js';
import { planIsolation } from '../../../../src/core/answers/plans/isolation.js';
import { locateShort } from '../../../../src/core/answers/plans/locate-short.js';
import {
  bareHarnessNetlist,
  type InjectedFault,
  ohmsPrinted,
  readingDeck,
} from '../../../support/bare-harness-netlist.js';
import { fixtureModel } from '../../../support/fixture-model.js';
import { ngspicePath } from '../../../support/outside-tools.js';

const ngspice = ngspicePath();
const model = fixtureModel('trailer');
const { record } = model.graph;
const LEADS = 0.2;
const folder = mkdtempSync(join(tmpdir(), 'plans-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function read(fault: InjectedFault, readings: Parameters<typeof readingDeck>[1]): (number | null)[] {
  const deck = readingDeck(bareHarnessNetlist(record, fault), readings);
  const file = join(folder, 'harness.cir');
  writeFileSync(file, deck);
  // ngspice ends with 1 when only the control block ran an analysis; what it printed is what counts
  const output = spawnSync(ngspice ?? '', ['-b', file], { encoding: 'utf8' }).stdout;
  const ohms = ohmsPrinted(output);
  expect(ohms).toHaveLength(readings.length);
  return ohms.map((value) => (value === null ? null : value + LEADS));
}

describe.skipIf(ngspice === undefined)('plans on a simulated harness', () => {
  const continuity = planContinuity(model);
  const isolation = planIsolation(model, 'two-tie-bars');
  const { nets, netOf } = harnessNets(model);
  const failing = (ohms: readonly (number | null)[]): ReadonlySet<string> =>
    new Set(
      continuity.steps.filter(({ most }, i) => ohms[i] === null || (ohms[i] ?? 0) > (most ?? 0)).map(({ id }) => id),
    );

  it('passes every line of both plans on the sound harness, within the predicted band', () => {
    const ohms = read({ kind: 'none' }, continuity.steps);
    expect(failing(ohms).size).toBe(0);
    continuity.steps.forEach(({ expected }, i) => {
      expect(ohms[i]).toBeGreaterThan((expected.low ?? 0) - 0.02);
      expect(ohms[i]).toBeLessThan((expected.high ?? 0) + 0.02);
    });
    expect(read({ kind: 'none' }, isolation.steps)).toEqual(isolation.steps.map(() => null));
  });

  it('finds every single open wire whose loss parts a terminal from its net', () => {
    const missed: string[] = [];
    for (const { label } of record.wires) {
      if (failing(read({ kind: 'open', name: label }, continuity.steps)).size === 0) missed.push(label);
    }
    expect(missed).toEqual([]);
  }, 60_000);

  it('finds every short between two nets by name', () => {
    let injected = 0;
    for (let one = 0; one < nets.length; one++) {
      for (let other = one + 1; other < nets.length; other++) {
        const fault: InjectedFault = { kind: 'short', a: nets[one].terminals[0], b: nets[other].terminals[0] };
        injected += 1;
        const low = read(fault, isolation.steps).findIndex(
          (ohms, i) => ohms !== null && ohms < (isolation.steps[i].least ?? 0),
        );
        expect(low, `${fault.a} to ${fault.b}`).toBeGreaterThanOrEqual(0);
        const { red, black } = isolation.steps[low];
        const answers: boolean[] = [];
        let search = locateShort(red, black, answers);
        while (search.kind === 'ask') {
          const [ohms] = read(fault, [search]);
          answers.push(ohms !== null && ohms < 5_000);
          search = locateShort(red, black, answers);
        }
        expect([netOf.get(search.red), netOf.get(search.black)].sort()).toEqual([one, other].sort());
      }
    }
    expect(injected).toBe((nets.length * (nets.length - 1)) / 2);
  }, 120_000);

  it('tells swapped wires from two opens', () => {
    const towards = record.wires.filter(({ to }) => to.startsWith('X1.') || to.startsWith('E'));
    let swaps = 0;
    for (const [i, one] of towards.entries()) {
      for (const other of towards.slice(i + 1, i + 4)) {
        const [p, q] = [netOf.get(one.to), netOf.get(other.to)];
        if (p === undefined || q === undefined || p === q) continue;
        const fault: InjectedFault = {
          kind: 'swap',
          a: { wire: one.label, end: 'to' },
          b: { wire: other.label, end: 'to' },
        };
        const ohms = read(fault, continuity.steps);
        const bad = failing(ohms);
        expect(bad.size, `${one.label} and ${other.label}`).toBeGreaterThan(0);
        const cross = crossReadings(continuity, bad);
        const crossed = read(
          fault,
          cross.map(({ red, black }) => ({ red: [red], black: [black] })),
        );
        const found = new Map(cross.map(({ red, black }, k) => [`${red} ${black}`, crossed[k]]));
        const verdicts = explainContinuity(
          continuity,
          new Map(continuity.steps.map(({ id }, k) => [id, ohms[k]])),
          (red, black) => found.get(`${red} ${black}`),
        );
        expect(
          verdicts.some(({ kind }) => kind === 'swapped'),
          `${one.label} and ${other.label}`,
        ).toBe(true);
        swaps += 1;
      }
    }
    expect(swaps).toBeGreaterThan(10);
    const [first, second] = [record.wires[3], record.wires[5]];
    const ohms = read({ kind: 'open', name: first.label }, continuity.steps).map((value, k) =>
      value === null ? null : (read({ kind: 'open', name: second.label }, [continuity.steps[k]])[0] ?? null),
    );
    const bad = failing(ohms);
    const verdicts = explainContinuity(
      continuity,
      new Map(continuity.steps.map(({ id }, k) => [id, ohms[k]])),
      () => null,
    );
    expect(bad.size).toBeGreaterThan(1);
    expect(verdicts.every(({ kind }) => kind === 'open')).toBe(true);
  }, 120_000);
});
