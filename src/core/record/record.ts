/**
 * The whole written description of one vehicle's harness: parts, wires, routes, assemblies, named operating states.
 * Schema only. Reading, checking and defaults live beside it.
 */
import { z } from 'zod';
import {
  accessField,
  addressField,
  exposureField,
  markField,
  notNegative,
  pointField,
  positive,
  textField,
} from './kinds/common.js';
import { partSchema } from './part.js';
import { operatingStateSchema } from './state.js';

/** How a wire is fixed at one end; the default follows from the part there. */
const terminationField = z.enum(['crimp', 'solder', 'lug', 'screw', 'splice-crimp']);

export const wireSchema = z.strictObject({
  label: addressField,
  from: pointField,
  to: pointField,
  size: z.string().max(24).describe('`18 AWG`, `0.75 mm²`'),
  lengthMetres: positive.optional().describe('Along its real route; a default is assumed and reported when absent'),
  colour: z.string().max(24).optional().describe('IEC 60757 codes, base then stripe: `RD/BK`'),
  circuit: z.string().max(60).optional().describe('What the wire is for'),
  route: z.array(addressField).max(40).optional().describe('Segments it runs through, in order'),
  cable: addressField.optional().describe('Multi-core cable that it is a core of'),
  fromEnd: terminationField.optional(),
  toEnd: terminationField.optional(),
  access: accessField.optional(),
  marks: z.array(markField).max(6).optional(),
  insulationCelsius: z.number().min(40).max(260).optional(),
  notes: textField.optional(),
});

/** A stretch of the real route. Wires that share one are neighbours. */
export const segmentSchema = z.strictObject({
  address: addressField,
  name: textField.optional(),
  lengthMetres: positive.optional(),
  from: textField.optional(),
  to: textField.optional(),
  hazards: z
    .array(z.enum(['grommet', 'hinge', 'hot', 'wet', 'sharp-edge']))
    .max(5)
    .optional(),
  exposure: exposureField.optional(),
  access: accessField.optional(),
  passes: addressField.optional().describe('Body that the segment runs along'),
});

/** Parts that come out together (a box, a dash, a door). Parts name it by their `assembly`. */
export const assemblySchema = z.strictObject({
  address: addressField,
  name: textField.optional(),
  notes: textField.optional(),
});

/** Two or more wires in one terminal, on purpose. A splice, stud or bar needs no such entry. */
export const doubleCrimpSchema = z.strictObject({
  point: pointField,
  wires: z.array(addressField).min(2).max(6),
});

/** A finding that the builder accepts, with the reason. */
export const acceptedFindingSchema = z.strictObject({
  code: z.string().max(60),
  at: z.array(z.string().min(1).max(120)).max(20),
  reason: textField,
});

export const recordSchema = z.strictObject({
  format: z.literal('lastgood-record/1'),
  name: z.string().min(1).max(80),
  vehicle: textField.optional(),
  invented: z.boolean().optional().describe('True for demonstration data of our own invention'),
  notes: z.string().max(4000).optional(),
  systemVolts: z.union([z.literal(6), z.literal(12), z.literal(24), z.literal(48)]).optional(),
  ambientCelsius: z.number().min(-60).max(120).optional(),
  profile: z.enum(['just-built', 'in-service']).optional(),
  ageYears: notNegative.optional(),
  reference: pointField
    .optional()
    .describe('Where the black lead stays; the first battery`s negative post when absent'),
  parts: z.array(partSchema).max(40_000),
  wires: z.array(wireSchema).max(20_000),
  segments: z.array(segmentSchema).max(5_000).optional(),
  assemblies: z.array(assemblySchema).max(500).optional(),
  doubleCrimps: z.array(doubleCrimpSchema).max(5_000).optional(),
  states: z.array(operatingStateSchema).max(500).optional(),
  acceptedFindings: z.array(acceptedFindingSchema).max(2_000).optional(),
});

export type HarnessRecord = z.infer<typeof recordSchema>;
export type Wire = z.infer<typeof wireSchema>;
export type Segment = z.infer<typeof segmentSchema>;
export type Termination = z.infer<typeof terminationField>;
