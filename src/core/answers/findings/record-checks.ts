/**
 * Checks of how the record is written: wires without a length, labels that read alike.
 * It must not touch the circuit.
 */
import { defaultById } from '../../record/defaults.js';
import type { Check } from './check.js';

export const wireWithoutLength: Check = {
  code: 'wire-without-length',
  severity: 'note',
  remedy: 'Measure along the real route and record it; every drop and every ohm of this wire is a guess until then.',
  *find({ model }) {
    const assumed = defaultById('wire.lengthMetres');
    for (const wire of model.graph.record.wires) {
      if (wire.lengthMetres !== undefined) continue;
      yield {
        at: [wire.label],
        points: [wire.from, wire.to],
        numbers: [{ what: 'assumed', value: assumed.value, unit: 'm' }],
        text: `Wire ${wire.label} has no length; ${assumed.value} m is assumed.`,
      };
    }
  },
};

/** Letters that a marker, dirt or distance turns into digits (engineering judgement). */
const LOOK_ALIKE: readonly (readonly [RegExp, string])[] = [
  [/[_-]/g, ''],
  [/O/g, '0'],
  [/[IL](?=\d|$)/g, '1'],
  [/S(?=\d)/g, '5'],
  [/B(?=\d{2})/g, '8'],
];

export const duplicateLabel: Check = {
  code: 'duplicate-label',
  severity: 'warning',
  remedy: 'Rename one of them, so that a tag read in bad light names one wire only.',
  *find({ model }) {
    const byLook = new Map<string, string[]>();
    for (const { label } of model.graph.record.wires) {
      const key = LOOK_ALIKE.reduce((text, [pattern, digit]) => text.replace(pattern, digit), label.toUpperCase());
      byLook.set(key, [...(byLook.get(key) ?? []), label]);
    }
    for (const labels of byLook.values()) {
      if (labels.length < 2) continue;
      yield { at: labels, points: labels, text: `Wire labels ${labels.join(' and ')} read alike on a tag.` };
    }
  },
};
