// Which fields the forms offer: those of a wire, those common to parts, and per kind of part what is most often set.
// It must not restate the schema: fields that it does not name are offered when the entry has them.

import type { Part } from '../api/types.js';
import type { FieldSpec } from './field-input.js';

const text = (key: string, hint?: string, isNeeded = false): FieldSpec => ({ key, kind: 'text', hint, isNeeded });
const choice = (key: string, ...choices: string[]): FieldSpec => ({ key, kind: 'choice', choices });

export const wireSpecs: readonly FieldSpec[] = [
  text('label', undefined, true),
  text('from', 'A point: K2/87, X4.plug/3, SP1, G1', true),
  text('to', 'A point', true),
  text('size', '18 AWG, 0.75 mm²', true),
  text('lengthMetres', 'As you write it: 1.3 m, 4 ft 3 in'),
  text('colour', 'Base, then stripe: RD/BK or red/black'),
  text('circuit', 'What it is for'),
  choice('fromEnd', 'crimp', 'solder', 'lug', 'screw', 'splice-crimp'),
  choice('toEnd', 'crimp', 'solder', 'lug', 'screw', 'splice-crimp'),
  choice('access', 'open', 'behind-panel', 'buried'),
  text('notes'),
];

const common: readonly FieldSpec[] = [
  text('address', 'As printed on its label', true),
  text('name'),
  text('location', 'Where a person walks to'),
  choice('access', 'open', 'behind-panel', 'buried'),
  text('panel', 'The cover that must come off'),
  text('assembly', 'What it comes out with'),
  choice('exposure', 'dry', 'splash', 'salt'),
];

const byKind: Partial<Record<Part['kind'], readonly FieldSpec[]>> = {
  fuse: [
    text('ratingAmps', undefined, true),
    choice('style', 'mini', 'blade', 'maxi', 'midi', 'mega', 'glass', 'strip'),
  ],
  breaker: [text('ratingAmps', undefined, true), choice('reset', 'automatic', 'holding', 'manual')],
  'fusible-link': [text('size', '18 AWG, 0.75 mm²', true), text('ratingAmps')],
  connector: [
    { key: 'cavities', kind: 'json', hint: 'How many, or their names: 8 or ["1", "2", "A"]', isNeeded: true },
    choice('view', 'mating', 'wire'),
    text('rows'),
  ],
  splice: [choice('style', 'crimp', 'solder', 'twist')],
  ground: [text('on', 'The body it is bolted to', true)],
  'ground-block': [
    { key: 'terminals', kind: 'json', hint: 'How many, or their names', isNeeded: true },
    text('on', 'The body it is bolted to'),
  ],
  busbar: [{ key: 'terminals', kind: 'json', hint: 'How many, or their names', isNeeded: true }],
  strap: [{ key: 'between', kind: 'json', hint: 'The two bodies: ["FRAME", "ENGINE"]', isNeeded: true }],
  relay: [
    choice('contacts', 'make', 'break', 'change-over', 'twin-make'),
    text('coilOhms'),
    text('contactRatingAmps'),
    text('fuseRatingAmps'),
    { key: 'suppressor', kind: 'json', hint: '{"style": "diode"} or {"style": "resistor"}' },
  ],
  switch: [
    choice('style', 'on-off', 'change-over', 'momentary', 'rotary', 'ignition'),
    { key: 'positions', kind: 'json', hint: 'Contact table: each position and the terminals it joins' },
    text('contactRatingAmps'),
  ],
  load: [
    {
      key: 'functions',
      kind: 'json',
      hint: 'For one lamp: [{"name": "lamp", "law": "filament", "ratedVolts": 12, "ratedWatts": 21}]',
      isNeeded: true,
    },
    text('caseOn', 'Body that the case is screwed to'),
  ],
  battery: [text('nominalVolts'), text('emfVolts'), text('capacityAmpHours'), text('internalOhms')],
  alternator: [text('regulatedVolts'), text('limitAmps'), text('caseOn')],
  resistor: [text('resistanceOhms', undefined, true)],
  module: [
    { key: 'supplies', kind: 'json', hint: '[{"terminal": "1"}]', isNeeded: true },
    { key: 'grounds', kind: 'json', hint: '[{"terminal": "2"}]', isNeeded: true },
    { key: 'outputs', kind: 'json' },
    { key: 'inputs', kind: 'json' },
  ],
};

/** Kinds that the form for a new part offers. */
export const newPartKinds = Object.keys(byKind) as readonly Part['kind'][];

/** For a part of this kind: common fields, those of its kind, and whatever else the entry holds. */
export function partSpecs(kind: Part['kind'], entry: Readonly<Record<string, unknown>> = {}): readonly FieldSpec[] {
  const known = [...common, ...(byKind[kind] ?? [])];
  const keys = new Set([...known.map(({ key }) => key), 'kind', 'notes']);
  const others = Object.entries(entry)
    .filter(([key]) => !keys.has(key))
    .map(([key, value]): FieldSpec => ({ key, kind: typeof value === 'object' ? 'json' : 'text' }));
  return [...known, ...others, text('notes')];
}
