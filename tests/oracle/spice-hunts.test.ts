// Whole hunts that SPICE answers: netlist from the record by code that shares nothing with graph or circuit, with the hidden fault in it.
// From complaint to proof no figure of ours is used; on the Tern SPICE is told where to begin, and confirms every flag by its own volts.

import { beforeAll, describe, expect, it } from 'vitest';
import { Hunt } from '../../src/core/diagnosis/hunt.js';
import type { HuntEntry, HuntView } from '../../src/core/diagnosis/shapes/hunt.js';
import type { Symptom } from '../../src/core/diagnosis/shapes/symptom.js';
import { FaultyVehicle, type HiddenFault, noFault } from '../support/faulty-vehicle.js';
import { fixtureModel, fixtureRecord } from '../support/fixture-model.js';
import { seededRandom } from '../support/random.js';
import { type SpiceEngine, wasmEngine } from './spice-engine.js';
import { spiceFaultOf } from './spice-fault.js';
import { SpiceVehicle } from './spice-vehicle.js';

const MOST_CHECKS = 30;

let engine: SpiceEngine;
beforeAll(async () => {
  engine = await wasmEngine();
});

interface Story {
  readonly fixture: string;
  readonly state: string;
  readonly complaint: string;
  readonly alsoSeen: readonly string[];
  readonly hidden: HiddenFault;
  readonly repair: string;
}

const joint = (change: HiddenFault['changes'][number], element: string): HiddenFault => ({
  ...noFault,
  changes: [change],
  elements: [element],
});
const open = (element: string): HiddenFault => joint({ kind: 'open', element }, element);
const dull = (element: string, ohms: number): HiddenFault => joint({ kind: 'series', element, ohms }, element);

const stories: readonly Story[] = [
  {
    fixture: 'bench-board',
    state: 'Lamp on',
    complaint: 'E1',
    alsoSeen: [],
    hidden: dull('X1:1', 7.7),
    repair: 'remake X1:1',
  },
  {
    fixture: 'bench-board',
    state: 'Lamp on',
    complaint: 'E1',
    alsoSeen: [],
    hidden: { ...open('K1:coil'), curedBy: 'K1' },
    repair: 'replace K1',
  },
  {
    fixture: 'trailer',
    state: 'All lamps',
    complaint: 'E4:tail',
    alsoSeen: ['E2:tail'],
    hidden: open('L23@SP2'),
    repair: 'remake L23@SP2',
  },
  {
    fixture: 'trailer',
    state: 'Brake',
    complaint: 'E2:stop',
    alsoSeen: ['E4:stop'],
    hidden: dull('X2:4', 12.5),
    repair: 'remake X2:4',
  },
  {
    fixture: 'tern',
    state: 'Brake',
    complaint: 'E7:stop',
    alsoSeen: ['E8:stop'],
    hidden: open('G5:joint'),
    repair: 'remake G5:joint',
  },
];

describe.each(stories)('$fixture, $complaint in $state, hidden: $repair', (story) => {
  it('is led to the hidden fault, and SPICE says that the repair cures it', async () => {
    const { hidden, state, complaint, alsoSeen, repair } = story;
    const model = fixtureModel(story.fixture);
    // Draws the figures of this one vehicle; its answers are not used.
    const drawn = new FaultyVehicle(model, [hidden], seededRandom(41));
    const vehicle = new SpiceVehicle(
      fixtureRecord(story.fixture),
      [spiceFaultOf(hidden)],
      drawn.factors,
      engine,
      seededRandom(42),
    );
    vehicle.lookState = state;
    if (story.fixture === 'tern') vehicle.startIn = (choice) => drawn.stand(choice);
    const report = async (id: string): Promise<Symptom> => {
      const seen = await vehicle.truly({ kind: 'observe', function: id, state });
      return { kind: 'function', function: id, state, report: seen as 'dead' | 'weak' | 'works' };
    };
    const told = [await report(complaint), await Promise.all(alsoSeen.map(report))].flat();
    expect(told[0]).not.toMatchObject({ report: 'works' });
    const hunt = new Hunt(model, { profile: 'in-service', instruments: { breakOutLeads: true } });
    const log: HuntEntry[] = told.map((symptom, i) => ({ id: `s${i}`, kind: 'symptom', symptom }));
    let view: HuntView = hunt.assess(log).view;
    for (; view.next !== null; view = hunt.assess(log).view) {
      expect(log.length).toBeLessThan(MOST_CHECKS);
      const { check } = view.next;
      log.push({ id: `e${log.length}`, kind: 'reading', check, result: await vehicle.answer(check) });
    }
    const suspect = view.suspects.find(({ id }) => id === view.verdict?.suspects[0]);
    expect(suspect?.sites.map((site) => site.repair)).toContain(repair);
    expect(vehicle.mend(() => true)).toBe(true);
    drawn.mend(() => true);
    expect(await report(complaint)).toMatchObject({ report: 'works' });
  }, 120_000);
});

describe('a faulty vehicle answered by SPICE', () => {
  const record = fixtureRecord('trailer');

  it('blows the fuse of a shorted tail lamp (ISO 8820-3: opens at 1.35 of its rating)', async () => {
    const shorted: HiddenFault = {
      ...noFault,
      changes: [{ kind: 'law', element: 'E4:tail', law: { kind: 'ohmic', ohms: 0.08 } }],
      elements: ['E4:tail'],
    };
    const vehicle = new SpiceVehicle(record, [spiceFaultOf(shorted)], new Map(), engine, seededRandom(1));
    vehicle.lookState = 'All lamps';
    expect(await vehicle.answer({ kind: 'look', fuse: 'F1' })).toEqual({ kind: 'word', word: 'blown' });
    expect(await vehicle.truly({ kind: 'observe', function: 'E4:tail', state: 'All lamps' })).toBe('dead');
  });

  it('names its branches as the graph names its elements, between the same points', async () => {
    const { sketchRecord } = await import('./sketch-record.js');
    for (const name of ['bench-board', 'trailer', 'tern']) {
      const { sketch } = sketchRecord(fixtureRecord(name), { name: 'rest' });
      for (const { id, a, b, role } of fixtureModel(name).graph.elements.values()) {
        // A supply that is not attached is not drawn.
        if (role === 'source' && !sketch.flagged.has(id)) continue;
        expect(sketch.flagged.get(id), id).toMatchObject({ a, b });
      }
    }
  });
});
