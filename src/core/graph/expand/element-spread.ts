// Which row of the table of spreads an element takes, by its role and law.
// It must not hold a figure; the table is the record's.

import { spreadOf, spreadTable } from '../../record/spreads.js';
import type { ElementRole, Law, Spread } from '../element.js';

/** Spread of the element's main parameter; `row` names another row of the table. Null when the table declares none. */
export function spreadOfElement(role: ElementRole, law: Law, row?: string): Spread | null {
  const found = spreadOf(row ?? rowOf(role, law));
  return found === null ? null : (SPREADS.get(found.id) ?? null);
}

/** One object per row: elements are many and rows are few. */
const SPREADS: ReadonlyMap<string, Spread> = new Map(
  spreadTable.map(({ id, distribution, relative }) => [id, { distribution, relative }]),
);

function rowOf(role: ElementRole, law: Law): string {
  switch (role) {
    case 'load':
      return `load.${loadRow(law)}`;
    case 'source':
      return law.kind === 'battery' ? 'source.battery.volts' : 'source.regulated.volts';
    case 'component':
      return law.kind === 'diode' ? 'component.diode' : 'component';
    default:
      return role;
  }
}

function loadRow(law: Law): string {
  switch (law.kind) {
    case 'filament':
    case 'motor':
    case 'constant-power':
      return law.kind;
    case 'diode':
      return 'led';
    case 'ptc':
      return 'heater';
    case 'converter-input':
    case 'draw':
      return 'constant-power';
    case 'ohmic':
    case 'battery':
    case 'regulated':
      return 'resistive';
  }
}
