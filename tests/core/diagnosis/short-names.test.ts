// Faults in few words: of several contacts the one that is meant is told, of a single one nobody asks.
// It must not check the full descriptions.

import { expect, it } from 'vitest';
import { faultCatalogue } from '../../../src/core/diagnosis/catalogue.js';
import { shortName } from '../../../src/core/diagnosis/short-names.js';
import { fixtureModel } from '../../support/fixture-model.js';

const nameOf = (fixture: string, id: string): string => {
  const model = fixtureModel(fixture);
  const fault = faultCatalogue(model, { profile: 'in-service' }).find((it) => it.id === id);
  if (fault === undefined) throw new Error(`no ${id}`);
  return shortName(model, { id, kind: 'fault', faults: [fault], prior: 1 });
};

it('names the contact where a part has several, or where it sits in a motor', () => {
  expect(nameOf('bench-board', 'K1:30-87:stuck-open')).toBe('relay K1 does not close');
  const tern = faultCatalogue(fixtureModel('tern'), { profile: 'in-service' });
  const parts = fixtureModel('tern').parts;
  const inMotor = tern.find(({ owner, mode }) => mode === 'stuck-open' && parts.get(owner)?.kind === 'load');
  expect(inMotor).toBeDefined();
  const [contact] = (inMotor?.id ?? '').split(':').slice(1);
  expect(nameOf('tern', inMotor?.id ?? '')).toBe(`motor ${inMotor?.owner} contact ${contact} does not close`);
});
