/**
 * What joins wires: connector, splice, busbar, ground stud, ground block, body, strap, accidental tie.
 */
import { z } from 'zod';
import { addressField, commonFields, positive, terminalField } from './common.js';

const halfField = z.enum(['plug', 'receptacle']);

/** What is known of one half of a connector. */
const halfFields = z.strictObject({
  contacts: z.enum(['pins', 'sockets']).optional(),
  shroud: z.enum(['exposed', 'shrouded']).optional(),
  staysWith: z.string().max(60).optional().describe('What the half stays on when the connector is pulled'),
});

/** Points `X.plug/n` and `X.receptacle/n` for each cavity n. */
export const connectorSchema = z.strictObject({
  ...commonFields,
  kind: z.literal('connector'),
  cavities: z.union([z.int().min(1).max(200), z.array(terminalField).min(1).max(200)]),
  plug: halfFields.optional(),
  receptacle: halfFields.optional(),
  bridges: z
    .array(z.strictObject({ half: halfField, cavities: z.array(terminalField).min(2).max(20) }))
    .max(40)
    .optional(),
  spare: z.array(terminalField).max(200).optional().describe('Cavities left empty on purpose'),
  contactOhms: positive.optional(),
  contactRatingAmps: positive.optional(),
  rows: z.int().min(1).max(20).optional().describe('Rows of the cavity block, cavities counted along the rows'),
  view: z.enum(['mating', 'wire']).optional().describe('The side from which rows and columns were counted'),
});

/** One point: the splice itself. Every wire that ends on it is a leg. */
export const spliceSchema = z.strictObject({
  ...commonFields,
  kind: z.literal('splice'),
  style: z.enum(['crimp', 'solder', 'twist']).optional(),
});

/** Points `B/1`, `B/2` ... tied by a bar; the point `B` is the bar. Fuse-box feeds and common positives. */
export const busbarSchema = z.strictObject({
  ...commonFields,
  kind: z.literal('busbar'),
  terminals: z.union([z.int().min(1).max(60), z.array(terminalField).min(1).max(60)]),
});

/** One point: the stud. Joined to the body by a joint (paint, bolt) and the metal path. */
export const groundSchema = z.strictObject({
  ...commonFields,
  kind: z.literal('ground'),
  on: addressField.describe('Body that the stud is fixed to'),
  jointOhms: positive.optional(),
  pathOhms: positive.optional().describe('Metal from the stud to the middle of the body'),
});

/** Points `G/1`, `G/2` ... on a bar; the point `G` is the bar, joined to the body by one stud. */
export const groundBlockSchema = z.strictObject({
  ...commonFields,
  kind: z.literal('ground-block'),
  terminals: z.union([z.int().min(1).max(60), z.array(terminalField).min(1).max(60)]),
  on: addressField.optional().describe('Body it is fixed to; absent when it stands on an insulator'),
  jointOhms: positive.optional(),
  pathOhms: positive.optional(),
});

/** One point: a metal body (frame, cab, engine, trailer). Bodies join only by straps and accidental ties. */
export const bodySchema = z.strictObject({
  ...commonFields,
  kind: z.literal('body'),
});

/** Points `ST/1`, `ST/2`: a braid between two bodies, with a joint at each end. */
export const strapSchema = z.strictObject({
  ...commonFields,
  kind: z.literal('strap'),
  between: z.tuple([addressField, addressField]),
  resistanceOhms: positive.optional(),
  jointOhms: positive.optional(),
});

/** An accidental tie between two bodies or points (tow ball, antenna shield). No points of its own. */
export const tieSchema = z.strictObject({
  ...commonFields,
  kind: z.literal('tie'),
  between: z.tuple([z.string().min(1).max(80), z.string().min(1).max(80)]),
  resistanceOhms: positive.optional(),
});
