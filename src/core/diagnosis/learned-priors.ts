/**
 * What closed hunts say of how often each kind of thing fails: events counted by prior row, and the factor on its weight that follows.
 * It must not weigh a hunt at hand; factors go into the catalogue before the next one begins.
 */
import type { Model } from '../answers/model.js';
import { faultCatalogue, type Profile } from './catalogue.js';
import { priorRowsFor } from './element-faults.js';
import type { Fault } from './fault.js';
import { priorTable } from './priors.js';

/**
 * What the table is worth, in events of each row: a rate with a Gamma prior of this shape. So a first event moves a row by a twentieth at
 * most (engineering judgement, 20 pseudo-events for each class).
 */
const PSEUDO_EVENTS = 20;

export interface LearnedRow {
  /** Faults of this row that were mended and proved. */
  readonly events: number;
  /** As many as the table alone would have had it fail in so many hunts. */
  readonly expected: number;
  /** On the table's weight. */
  readonly factor: number;
}

export interface Learned {
  /** Hunts that ended with a proved repair which the catalogue of this harness knows. */
  readonly hunts: number;
  /** Every row of the table, in its order. */
  readonly rows: ReadonlyMap<string, LearnedRow>;
}

/** Mean of the Gamma posterior over its prior mean: (20 + events) / (20 + expected). Conjugate to Poisson counts (any textbook of Bayes). */
export function learnedFactor(events: number, expected: number): number {
  return (PSEUDO_EVENTS + events) / (PSEUDO_EVENTS + expected);
}

/** `proved`: the repair keys of each closed hunt. What one repair of a group mended is shared by the rows that it could have been. */
export function learnFrom(model: Model, profile: Profile, proved: readonly (readonly string[])[]): Learned {
  const { shares, byRepair } = catalogueByRow(model, profile);
  const events = new Map<string, number>();
  let hunts = 0;
  for (const repairs of proved) {
    const known = repairs.flatMap((repair) => byRepair.get(repair) ?? []);
    if (known.length > 0) hunts += 1;
    for (const row of known) events.set(row, (events.get(row) ?? 0) + 1 / known.length);
  }
  const rows = priorTable.map(({ id }): [string, LearnedRow] => {
    const kind = learnsAs(id);
    const [count, expected] = [events.get(kind) ?? 0, hunts * (shares.get(kind) ?? 0)];
    return [id, { events: count, expected, factor: learnedFactor(count, expected) }];
  });
  return { hunts, rows: new Map(rows) };
}

/** Whether the catalogue of this harness has a fault that the repair mends, or each of a pair. */
export function isRepair(model: Model, profile: Profile, repair: string): boolean {
  const { byRepair } = catalogueByRow(model, profile);
  return repair.split(' + ').every((key) => byRepair.has(key));
}

/** A broken wire does not tell whether it broke at an end or along the way. */
function learnsAs(row: string): string {
  return row === 'conductor-metre' ? 'conductor' : row;
}

/** The row whose factor weighs a fault. */
export function rowOfFault(model: Model, { mode, element, owner }: Fault): string {
  switch (mode) {
    case 'short-to-body':
      return 'chafe';
    case 'short-to-neighbour':
      return model.wires.has(owner) ? 'chafe' : 'cavity-bridge';
    case 'swapped-cavities':
      return 'connector-swap';
    case 'module-dead':
      return 'module';
    default: {
      const found = model.graph.elements.get(element ?? '');
      return (found === undefined ? undefined : priorRowsFor(model, found)[0]) ?? 'component';
    }
  }
}

interface CatalogueByRow {
  /** Of all weight; adds up to 1. */
  readonly shares: ReadonlyMap<string, number>;
  readonly byRepair: ReadonlyMap<string, readonly string[]>;
}

const known = new WeakMap<Model, Map<Profile, CatalogueByRow>>();

function catalogueByRow(model: Model, profile: Profile): CatalogueByRow {
  const ofModel = known.get(model) ?? new Map<Profile, CatalogueByRow>();
  known.set(model, ofModel);
  const found = ofModel.get(profile);
  if (found !== undefined) return found;
  const weights = new Map<string, number>();
  const byRepair = new Map<string, string[]>();
  let whole = 0;
  for (const fault of faultCatalogue(model, { profile })) {
    const row = rowOfFault(model, fault);
    whole += fault.weight;
    weights.set(row, (weights.get(row) ?? 0) + fault.weight);
    const rows = byRepair.get(fault.repair) ?? [];
    if (!rows.includes(row)) byRepair.set(fault.repair, [...rows, row]);
  }
  const made = { shares: new Map([...weights].map(([row, weight]) => [row, weight / whole])), byRepair };
  ofModel.set(profile, made);
  return made;
}
