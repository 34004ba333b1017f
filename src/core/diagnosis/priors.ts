/**
 * How often each kind of thing fails, relative to the others, for a harness just built and for one in service.
 * A data table. Aerospace mode splits (MIL-HDBK-338B / FMD-91 as seen in a public reliability table) where a source exists; the rates by element are
 * engineering judgement, to be replaced by a builder's own closed hunts.
 */
import type { FaultMode } from './fault.js';

export interface PriorRow {
  /** What fails; the catalogue asks by this id. */
  readonly id: string;
  readonly justBuilt: number;
  readonly inService: number;
  /** Share of each mode in that weight; adds up to 1. */
  readonly modes: Readonly<Partial<Record<FaultMode, number>>>;
  readonly source: string;
}

const JUDGEMENT = 'engineering judgement';
const FMD = 'mode split: FMD-91 figures as seen in a public reliability table; weight: engineering judgement';

export const priorTable: readonly PriorRow[] = [
  {
    id: 'termination',
    justBuilt: 4,
    inService: 2,
    modes: { open: 0.5, 'high-resistance': 0.35, intermittent: 0.15 },
    source: JUDGEMENT,
  },
  {
    id: 'mating',
    justBuilt: 1,
    inService: 3,
    modes: { open: 0.3, 'high-resistance': 0.5, intermittent: 0.2 },
    source: JUDGEMENT,
  },
  // Contacts of relay sockets and fuse holders sit dry in a box and are rarely parted: the part in them fails first.
  {
    id: 'socket',
    justBuilt: 1,
    inService: 1,
    modes: { open: 0.3, 'high-resistance': 0.5, intermittent: 0.2 },
    source: JUDGEMENT,
  },
  { id: 'connector-swap', justBuilt: 4, inService: 0.1, modes: { 'swapped-cavities': 1 }, source: JUDGEMENT },
  {
    id: 'joint',
    justBuilt: 5,
    inService: 5,
    modes: { open: 0.35, 'high-resistance': 0.5, intermittent: 0.15 },
    source: JUDGEMENT,
  },
  {
    id: 'splice-leg',
    justBuilt: 2,
    inService: 2,
    modes: { open: 0.5, 'high-resistance': 0.35, intermittent: 0.15 },
    source: JUDGEMENT,
  },
  { id: 'conductor', justBuilt: 0.5, inService: 0.5, modes: { open: 0.8, 'high-resistance': 0.2 }, source: JUDGEMENT },
  {
    id: 'conductor-metre',
    justBuilt: 0.1,
    inService: 0.2,
    modes: { open: 0.8, 'high-resistance': 0.2 },
    source: JUDGEMENT,
  },
  {
    id: 'chafe',
    justBuilt: 0.5,
    inService: 1,
    modes: { 'short-to-body': 0.8, 'short-to-neighbour': 0.2 },
    source: JUDGEMENT,
  },
  { id: 'cavity-bridge', justBuilt: 0.2, inService: 0.3, modes: { 'short-to-neighbour': 1 }, source: JUDGEMENT },
  {
    id: 'relay',
    justBuilt: 2,
    inService: 4,
    modes: { 'stuck-open': 0.35, 'burnt-contact': 0.2, 'coil-open': 0.2, 'stuck-closed': 0.25 },
    source: FMD,
  },
  {
    id: 'switch',
    justBuilt: 1,
    inService: 3,
    modes: { 'stuck-open': 0.65, 'burnt-contact': 0.16, 'stuck-closed': 0.19 },
    source: FMD,
  },
  {
    id: 'fuse',
    justBuilt: 1,
    inService: 4,
    modes: { 'premature-open': 0.6, missing: 0.2, 'wrong-rating': 0.2 },
    source: JUDGEMENT,
  },
  {
    id: 'lamp',
    justBuilt: 2.4,
    inService: 8,
    modes: { 'load-open': 0.9, 'load-shorted': 0.05, 'load-part-shorted': 0.05 },
    source: JUDGEMENT,
  },
  {
    id: 'motor',
    justBuilt: 0.9,
    inService: 3,
    modes: { 'load-open': 0.6, 'load-shorted': 0.15, 'load-part-shorted': 0.25 },
    source: JUDGEMENT,
  },
  {
    id: 'electronics',
    justBuilt: 0.6,
    inService: 2,
    modes: { 'load-open': 0.8, 'load-shorted': 0.2 },
    source: JUDGEMENT,
  },
  {
    id: 'load',
    justBuilt: 0.9,
    inService: 3,
    modes: { 'load-open': 0.8, 'load-shorted': 0.1, 'load-part-shorted': 0.1 },
    source: JUDGEMENT,
  },
  {
    id: 'diode',
    justBuilt: 1,
    inService: 0.5,
    modes: { 'diode-shorted': 0.4, 'diode-open': 0.3, 'diode-reversed': 0.3 },
    source: JUDGEMENT,
  },
  { id: 'component', justBuilt: 0.3, inService: 0.5, modes: { open: 0.84, 'high-resistance': 0.16 }, source: FMD },
  {
    id: 'output',
    justBuilt: 0.3,
    inService: 0.8,
    modes: { 'output-dead': 0.7, 'output-stuck-on': 0.3 },
    source: JUDGEMENT,
  },
  { id: 'module', justBuilt: 0.3, inService: 0.6, modes: { 'module-dead': 1 }, source: JUDGEMENT },
  { id: 'battery', justBuilt: 1, inService: 4, modes: { 'battery-flat': 0.6, 'battery-weak': 0.4 }, source: JUDGEMENT },
  { id: 'alternator', justBuilt: 0.5, inService: 2, modes: { 'not-charging': 1 }, source: JUDGEMENT },
  { id: 'metal', justBuilt: 0.2, inService: 0.3, modes: { open: 0.7, 'high-resistance': 0.3 }, source: JUDGEMENT },
];

/** Share of all probability that the record is wrong, and that it is something that nobody listed: never less than 2 % each. */
export const RECORD_WRONG_SHARE: Readonly<Record<'just-built' | 'in-service', number>> = {
  'just-built': 0.06,
  'in-service': 0.02,
};
export const UNKNOWN_SHARE = 0.02;
/** Share of complaints with nothing wrong: a switch overlooked, a lamp mistaken, works as designed (engineering judgement). */
export const HEALTHY_SHARE = 0.04;

/** Weights multiply by these where the thing lives hard (engineering judgement). */
export const EXPOSURE_FACTOR = { dry: 1, splash: 1.5, salt: 2.5 } as const;
export const HAZARD_FACTOR = { grommet: 3, hinge: 3, hot: 2, wet: 2, 'sharp-edge': 3 } as const;

const byId: ReadonlyMap<string, PriorRow> = new Map(priorTable.map((row) => [row.id, row]));

/** The row, or a RangeError: the catalogue may only ask for what the table has. */
export function priorRow(id: string): PriorRow {
  const row = byId.get(id);
  if (row === undefined) throw new RangeError(`no prior for ${id}`);
  return row;
}
