// Whatever harness, marks, complaint and answers: no check that could be done at any step touches what must not be touched (PRECISIONS, words and record).
// The rules are read from the record here, anew; nothing of the code that refuses is used.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildModel } from '../../src/core/answers/model.js';
import { Hunt } from '../../src/core/diagnosis/hunt.js';
import { createPredictor } from '../../src/core/diagnosis/predictor.js';
import type { Check } from '../../src/core/diagnosis/shapes/check.js';
import type { HuntEntry } from '../../src/core/diagnosis/shapes/hunt.js';
import type { Mark } from '../../src/core/record/kinds/common.js';
import type { HarnessRecord } from '../../src/core/record/record.js';
import { FaultUrn } from '../bench/hunt/hide-fault.js';
import { FaultyVehicle } from '../support/faulty-vehicle.js';
import { generateHarness } from '../support/generate-harness.js';
import { seededRandom } from '../support/random.js';

const NEVER: readonly Mark[] = ['restraint', 'high-voltage', 'mains', 'spark'];
const MARKS: readonly Mark[] = [...NEVER, 'movement-interlock', 'data-bus'];
const STEPS = 3;
const everything = {
  voltmeter: true,
  testLamp: true,
  clamp: true,
  breakOutLeads: true,
  sparesAtHand: true,
  fusedLink: true,
};

/** Marks on one part in eight and one wire in eight. */
function marked(record: HarnessRecord, seed: number): HarnessRecord {
  const random = seededRandom(seed);
  const mark = <T extends object>(it: T): T => (random.chance(1 / 8) ? { ...it, marks: [random.pick(MARKS)] } : it);
  return { ...record, parts: record.parts.map(mark), wires: record.wires.map(mark) };
}

/** The marks of what a point belongs to: its part, and every wire that ends on it. A stud is at the body's potential in any case. */
function marksAt(record: HarnessRecord, point: string): Set<Mark> {
  const part = record.parts.find(({ address }) => address === point.split(/[./]/)[0]);
  const isStud = part?.kind === 'ground' || part?.kind === 'ground-block';
  const wires = isStud ? [] : record.wires.filter(({ from, to }) => from === point || to === point);
  return new Set([part, ...wires].flatMap((it) => it?.marks ?? []));
}

/** Of a part that is pulled or moved: its own, and those of all wires on it. */
function partMarks(record: HarnessRecord, address: string): Set<Mark> {
  const part = record.parts.find((it) => it.address === address);
  const ends = record.wires.flatMap(({ from, to }) => [from, to]).filter((end) => end.split(/[./]/)[0] === address);
  return new Set([...(part?.marks ?? []), ...ends.flatMap((end) => [...marksAt(record, end)])]);
}

/** Why the check must not be proposed; null: it may. */
function wrongWith(record: HarnessRecord, check: Check): string | null {
  const reference = record.reference ?? '';
  const touched =
    'red' in check
      ? [check.red, check.black]
      : 'from' in check
        ? [check.from, check.to]
        : 'point' in check
          ? [check.point]
          : [];
  const marks = touched.filter((point) => point !== reference).flatMap((point) => [...marksAt(record, point)]);
  const handled = 'part' in check ? [check.part] : 'fuse' in check ? [check.fuse] : [];
  marks.push(...handled.flatMap((address) => [...partMarks(record, address)]));
  if ('wire' in check) marks.push(...(record.wires.find(({ label }) => label === check.wire)?.marks ?? []));
  const never = marks.find((mark) => NEVER.includes(mark));
  if (never !== undefined) return `touches a ${never} circuit`;
  if (marks.includes('data-bus') && (check.kind === 'lamp' || check.kind === 'link' || check.kind === 'volts'))
    return 'puts a load or a meaningless reading on a data bus';
  if (check.kind === 'swap' && marks.includes('movement-interlock')) return 'swaps an interlock';
  if (check.kind !== 'link') return null;
  if (marks.includes('movement-interlock')) return 'links an interlock out';
  if (!(check.fuseAmps > 0) || check.fuseAmps > 10) return 'links without a small fuse';
  const [one, other] = [check.from, check.to].map((point) => point.split(/[./]/)[0]);
  const kind = record.parts.find(({ address }) => address === one)?.kind;
  return one === other && kind === 'relay' ? null : `links across a ${kind}`;
}

describe('checks that could be done', () => {
  it('are never forbidden ones, whatever is marked, complained of and answered', () => {
    const seen = new Map<string, number>();
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 10_000 }), fc.integer({ min: 24, max: 32 }), (seed, wires) => {
        const record = marked(generateHarness({ seed, wires, systemVolts: seed % 2 === 0 ? 24 : 12 }), seed + 1);
        const model = buildModel(record);
        const random = seededRandom(seed + 2);
        const state = random.pick(record.states ?? []).name;
        const fn = random.pick([...model.graph.functions.values()]);
        const vehicle = new FaultyVehicle(model, [new FaultUrn(model).draw(random).hidden], random);
        const hunt = new Hunt(model, { profile: 'in-service', instruments: everything }, createPredictor(model));
        const report = random.pick(['dead', 'weak', 'comes-and-goes'] as const);
        const log: HuntEntry[] = [
          { id: 's', kind: 'symptom', symptom: { kind: 'function', function: fn.id, state, report } },
        ];
        for (let step = 0; step < STEPS; step++) {
          const { view, workings } = hunt.assess(log);
          const checks = [
            ...(workings?.candidates.map(({ check }) => check) ?? []),
            ...(view.next === null ? [] : [view.next.check]),
          ];
          for (const check of checks) {
            seen.set(check.kind, (seen.get(check.kind) ?? 0) + 1);
            expect(wrongWith(record, check), JSON.stringify(check)).toBeNull();
          }
          for (const { check, cautions } of workings?.candidates ?? []) {
            if (check.kind === 'ohms' || check.kind === 'isolation')
              expect(cautions).toEqual(expect.arrayContaining(['ohms-dead-only', 'battery-off']));
            if (check.kind === 'link') expect(cautions).toContain('fuse-size');
          }
          if (view.next === null) break;
          log.push({
            id: `r${step}`,
            kind: 'reading',
            check: view.next.check,
            result: vehicle.answer(view.next.check),
          });
        }
      }),
      { numRuns: 4, endOnFailure: true },
    );
    // The law is about something: every kind of meter reading and the hands came up.
    for (const kind of ['volts', 'lamp', 'ohms', 'clamp', 'observe', 'inspect'])
      expect(seen.get(kind) ?? 0, kind).toBeGreaterThan(0);
  }, 300_000);
});
