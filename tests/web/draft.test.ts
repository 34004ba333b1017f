// A form of the record: only what was changed is sent.

import { describe, expect, it } from 'vitest';
import { changedFields, draftOf } from '../../src/web/record/draft.js';
import { partSpecs, wireSpecs } from '../../src/web/record/field-specs.js';

const wire = { label: 'L1', from: 'F1/out', to: 'E1/feed', size: '0.75 mm²', lengthMetres: 1.3 };

describe('changedFields', () => {
  const before = draftOf(wire, wireSpecs);

  it('is empty when nothing was touched', () => {
    expect(changedFields(before, before, wireSpecs)).toEqual({ fields: {}, bad: [] });
  });

  it('sends quantities as written and takes an emptied field away', () => {
    const now = { ...before, lengthMetres: '4 ft 3 in', from: ' ' };
    expect(changedFields(before, now, wireSpecs).fields).toEqual({ lengthMetres: '4 ft 3 in', from: null });
  });

  it('tells nested data that is not JSON instead of sending it', () => {
    const specs = partSpecs('load');
    const changed = changedFields({}, { functions: '[{' }, specs);
    expect(changed.fields).toEqual({});
    expect(changed.bad.map(({ key }) => key)).toEqual(['functions']);
  });
});

describe('partSpecs', () => {
  it('offers every field that the entry has, once', () => {
    const entry = { address: 'X1', kind: 'connector', cavities: 4, contactRatingAmps: 13, spare: ['4'], notes: 'old' };
    const keys = partSpecs('connector', entry).map(({ key }) => key);
    expect(new Set(keys).size).toBe(keys.length);
    for (const key of Object.keys(entry)) if (key !== 'kind') expect(keys).toContain(key);
  });
});
