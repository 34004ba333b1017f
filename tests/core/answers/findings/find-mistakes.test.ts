// Findings: each kind of mistake put into a small sound record is found by its code and only by its code, and the Tern has none unaccepted.
// It must not depend on the order of the checks.

import { describe, expect, it } from 'vitest';
import { findMistakes } from '../../../../src/core/answers/findings/find-mistakes.js';
import { buildModel } from '../../../../src/core/answers/model.js';
import type { FindingsAnswer } from '../../../../src/core/answers/shapes/findings.js';
import { parseRecord } from '../../../../src/core/record/parse-record.js';
import { fixtureModel } from '../../../support/fixture-model.js';

type Entry = Record<string, unknown>;

const wire = (label: string, from: string, to: string, more: Entry = {}): Entry => ({
  label,
  from,
  to,
  size: '1.5 mm²',
  lengthMetres: 1,
  ...more,
});

/** Battery, 10 A fuse, switch, 42 W heater, ground: nothing wrong but the accepted stretch to the fuse. */
const SOUND = {
  parts: [
    { address: 'BAT1', kind: 'battery' },
    { address: 'F1', kind: 'fuse', ratingAmps: 10 },
    { address: 'S1', kind: 'switch', style: 'on-off', contactRatingAmps: 10 },
    {
      address: 'E1',
      kind: 'load',
      functions: [{ name: 'heat', law: 'resistive', ratedVolts: 12, ratedWatts: 42, runsIn: ['On'] }],
    },
    { address: 'FRAME', kind: 'body' },
    { address: 'G1', kind: 'ground', on: 'FRAME' },
    { address: 'G2', kind: 'ground', on: 'FRAME' },
  ] as Entry[],
  wires: [
    wire('W1', 'BAT1/pos', 'F1/in', { size: '6 mm²', lengthMetres: 0.2 }),
    wire('W2', 'F1/out', 'S1/1'),
    wire('W3', 'S1/2', 'E1/feed'),
    wire('W4', 'E1/return', 'G1'),
    wire('W5', 'BAT1/neg', 'G2', { size: '16 mm²', lengthMetres: 0.3 }),
  ] as Entry[],
};

interface Variation {
  readonly parts?: readonly Entry[];
  readonly wires?: readonly Entry[];
  readonly without?: readonly string[];
  readonly [more: string]: unknown;
}

/** The sound record with entries added or put in the place of those with the same name. */
function findingsWith({ parts = [], wires = [], without = [], ...more }: Variation = {}): FindingsAnswer {
  const merge = (key: 'address' | 'label', base: Entry[], added: readonly Entry[]): Entry[] => [
    ...base.filter((entry) => !without.includes(String(entry[key])) && !added.some((it) => it[key] === entry[key])),
    ...added,
  ];
  const parsed = parseRecord({
    format: 'lastgood-record/1',
    name: 'Test',
    systemVolts: 12,
    parts: merge('address', SOUND.parts, parts),
    wires: merge('label', SOUND.wires, wires),
    states: [{ name: 'On', positions: { S1: 'on' } }],
    acceptedFindings: [{ code: 'unfused-wire', at: ['W1'], reason: 'hand-long lead to the fuse' }],
    ...more,
  });
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.issues));
  return findMistakes(buildModel(parsed.record));
}

const codes = (answer: FindingsAnswer): string[] => [...new Set(answer.standing.map(({ code }) => code))];

describe('findings', () => {
  it('finds nothing in a sound record, and keeps the reason of what was accepted', () => {
    const answer = findingsWith();
    expect(answer.standing).toEqual([]);
    expect(answer.failedChecks).toEqual([]);
    expect(answer.accepted.map(({ code, at, acceptedBecause }) => [code, at, acceptedBecause])).toEqual([
      ['unfused-wire', ['W1'], 'hand-long lead to the fuse'],
    ]);
  });

  const mistakes: readonly [code: string, at: readonly string[], variation: Variation][] = [
    ['unfused-wire', ['W2'], { wires: [wire('W2', 'BAT1/pos', 'S1/1')], without: ['W3'] }],
    // ISO 10133 annex A (from memory): 1.5 mm² at 105 °C carries 25 A, below 30 A
    ['fuse-larger-than-wire', ['F1', 'W2', 'W3'], { parts: [{ address: 'F1', kind: 'fuse', ratingAmps: 30 }] }],
    // by hand: 150 m at 12.7 mΩ/m (ISO 6722-1) are 1.9 Ω, 12.65 V over it 6.6 A: never 10 A
    [
      'short-may-not-open-fuse',
      ['F1', 'S1/2'],
      { wires: [wire('W2', 'F1/out', 'S1/1', { lengthMetres: 150 })], without: ['W3'] },
    ],
    ['cavity-used-twice', ['S1/2'], { wires: [wire('W6', 'S1/2', 'G2')] }],
    ['load-without-return', ['E1'], { without: ['W4'] }],
    ['load-without-feed', ['E1'], { without: ['W3'] }],
    ['part-not-reached', ['S9'], { parts: [{ address: 'S9', kind: 'switch', style: 'on-off' }] }],
    ['wire-without-length', ['W3'], { wires: [wire('W3', 'S1/2', 'E1/feed', { lengthMetres: undefined })] }],
    [
      'duplicate-label',
      ['WO', 'W0'],
      {
        without: ['W3'],
        wires: [wire('WO', 'S1/2', 'E1/feed'), wire('W0', 'S1/2', 'E1/feed')],
        doubleCrimps: [
          { point: 'S1/2', wires: ['WO', 'W0'] },
          { point: 'E1/feed', wires: ['WO', 'W0'] },
        ],
      },
    ],
    [
      'contact-over-rating',
      ['S1:1-2'],
      { parts: [{ address: 'S1', kind: 'switch', style: 'on-off', contactRatingAmps: 2 }] },
    ],
    [
      'half-filled-mate',
      ['X1.receptacle/2'],
      {
        parts: [{ address: 'X1', kind: 'connector', cavities: 2 }],
        wires: [
          wire('W3', 'S1/2', 'X1.plug/1'),
          wire('W7', 'X1.receptacle/1', 'E1/feed'),
          wire('W8', 'X1.plug/2', 'G1'),
        ],
      },
    ],
    [
      'cavity-over-rating',
      ['X1:1'],
      {
        parts: [{ address: 'X1', kind: 'connector', cavities: 1, contactRatingAmps: 3 }],
        wires: [wire('W3', 'S1/2', 'X1.plug/1'), wire('W7', 'X1.receptacle/1', 'E1/feed')],
      },
    ],
    [
      'assembly-without-plug',
      ['DASH'],
      {
        assemblies: [{ address: 'DASH' }],
        parts: [{ address: 'S1', kind: 'switch', style: 'on-off', contactRatingAmps: 10, assembly: 'DASH' }],
      },
    ],
  ];
  it.each(mistakes)('finds %s and nothing else of its kind', (code, at, variation) => {
    const found = findingsWith(variation).standing.filter((finding) => finding.code === code);
    expect(found.map((finding) => finding.at)).toEqual([at]);
    expect(found[0]?.remedy).not.toBe('');
  });

  it('holds a long thin wire against the customary drop, with the figure worked by hand', () => {
    // 10 m of 1.5 mm² at 12.7 mΩ/m (ISO 6722-1) are 0.127 Ω; 42 W at 12 V are 3.43 Ω; 12.65 V / 3.61 Ω with the rest of the loop = 3.5 A: 0.445 V
    const [found] = findingsWith({ wires: [wire('W3', 'S1/2', 'E1/feed', { lengthMetres: 10 })] }).standing.filter(
      ({ code }) => code === 'drop-over-element',
    );
    expect(found?.at).toEqual(['W3']);
    expect(found?.numbers[0]?.value).toBeCloseTo(0.445, 3);
    expect(found?.limit?.value).toBe(0.2);
  });

  it('asks for suppression on a coil that a module works, and not once a resistor sits across it', () => {
    const module = {
      address: 'M1',
      kind: 'module',
      supplies: [{ terminal: 'VB' }],
      grounds: [{ terminal: 'GND' }],
      outputs: [{ terminal: 'O1', side: 'low' }],
    };
    const wires = [
      wire('W6', 'F1/out', 'M1/VB'),
      wire('W7', 'M1/GND', 'G1'),
      wire('W8', 'F1/out', 'K1/86'),
      wire('W9', 'K1/85', 'M1/O1'),
    ];
    const doubleCrimps = [{ point: 'F1/out', wires: ['W2', 'W6', 'W8'] }];
    const bare = { address: 'K1', kind: 'relay' };
    expect(codes(findingsWith({ parts: [module, bare], wires, doubleCrimps }))).toContain('coil-without-suppression');
    const quiet = { ...bare, suppressor: { style: 'resistor' } };
    expect(codes(findingsWith({ parts: [module, quiet], wires, doubleCrimps }))).not.toContain(
      'coil-without-suppression',
    );
  });

  it('tells a sensor on the stud of a heavy load', () => {
    const parts = [
      {
        address: 'M1',
        kind: 'module',
        supplies: [{ terminal: 'VB' }],
        grounds: [{ terminal: 'GND' }],
        inputs: [{ terminal: 'I1', pull: 'up' }],
      },
      {
        address: 'TH1',
        kind: 'thermistor',
        points: [
          { celsius: 20, ohms: 2000 },
          { celsius: 80, ohms: 300 },
        ],
      },
      {
        address: 'E1',
        kind: 'load',
        functions: [{ name: 'heat', law: 'resistive', ratedVolts: 12, ratedWatts: 96, runsIn: ['On'] }],
      },
    ];
    const wires = [
      wire('W6', 'F1/out', 'M1/VB'),
      wire('W7', 'M1/GND', 'G2'),
      wire('W8', 'M1/I1', 'TH1/1'),
      wire('W9', 'TH1/2', 'G1'),
    ];
    const doubleCrimps = [{ point: 'F1/out', wires: ['W2', 'W6'] }];
    const found = findingsWith({ parts, wires, doubleCrimps }).standing.find(
      ({ code }) => code === 'sensor-shares-ground',
    );
    expect(found?.at).toEqual(['TH1', 'G1']);
  });

  it('tells a check that breaks down apart, and runs the others', () => {
    const model = fixtureModel('bench-board');
    const broken = {
      code: 'broken',
      severity: 'note' as const,
      remedy: '',
      find: () => {
        throw new Error('out of order');
      },
    };
    expect(findMistakes(model, [broken]).failedChecks).toEqual([{ code: 'broken', reason: 'out of order' }]);
  });

  it('says which acceptances no longer match anything', () => {
    const acceptedFindings = [
      { code: 'unfused-wire', at: ['W1'], reason: 'hand-long' },
      { code: 'unfused-wire', at: ['W4'], reason: 'gone' },
    ];
    expect(findingsWith({ acceptedFindings }).acceptancesWithoutFinding.map(({ reason }) => reason)).toEqual(['gone']);
  });

  it('finds nothing in the Tern that is not there on purpose', () => {
    const answer = findMistakes(fixtureModel('tern'));
    expect(answer.failedChecks).toEqual([]);
    expect(answer.standing.map(({ code, at }) => `${code} ${at.join(' ')}`)).toEqual([]);
    expect(answer.acceptancesWithoutFinding).toEqual([]);
    expect(answer.accepted.length).toBeGreaterThan(11);
  }, 60_000);
});
