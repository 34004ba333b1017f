/**
 * A part of any kind: the discriminated union on `kind`.
 */
import { z } from 'zod';
import {
  bodySchema,
  busbarSchema,
  connectorSchema,
  groundBlockSchema,
  groundSchema,
  spliceSchema,
  strapSchema,
  tieSchema,
} from './kinds/joining.js';
import { loadSchema, starterSchema } from './kinds/loads.js';
import { moduleSchema } from './kinds/module.js';
import {
  busTerminatorSchema,
  diodeSchema,
  potentiometerSchema,
  resistorSchema,
  shuntSchema,
  suppressorSchema,
  thermistorSchema,
} from './kinds/passive.js';
import { breakerSchema, fuseSchema, fusibleLinkSchema } from './kinds/protection.js';
import {
  alternatorSchema,
  batterySchema,
  converterSchema,
  diodeIsolatorSchema,
  externalSupplySchema,
  jumpPostsSchema,
  masterSwitchSchema,
  splitChargeRelaySchema,
} from './kinds/sources.js';
import { flasherSchema, relaySchema, sensorSwitchSchema, switchSchema } from './kinds/switching.js';

export const partSchema = z.discriminatedUnion('kind', [
  batterySchema,
  alternatorSchema,
  externalSupplySchema,
  jumpPostsSchema,
  converterSchema,
  splitChargeRelaySchema,
  diodeIsolatorSchema,
  masterSwitchSchema,
  fuseSchema,
  fusibleLinkSchema,
  breakerSchema,
  relaySchema,
  switchSchema,
  sensorSwitchSchema,
  flasherSchema,
  connectorSchema,
  spliceSchema,
  busbarSchema,
  groundSchema,
  groundBlockSchema,
  bodySchema,
  strapSchema,
  tieSchema,
  loadSchema,
  starterSchema,
  moduleSchema,
  resistorSchema,
  shuntSchema,
  diodeSchema,
  suppressorSchema,
  potentiometerSchema,
  thermistorSchema,
  busTerminatorSchema,
]);

export type Part = z.infer<typeof partSchema>;
export type PartKind = Part['kind'];
/** The part of one kind: `PartOf<'relay'>`. */
export type PartOf<K extends PartKind> = Extract<Part, { kind: K }>;
export const partKinds: readonly PartKind[] = partSchema.options.map((option) => option.shape.kind.value);
