/**
 * Relay, switch (a contact table), flasher and sensor switch. Relay terminals carry the DIN 72552 numbers.
 */
import { z } from 'zod';
import { addressField, commonFields, positive, terminalField } from './common.js';

/** Electrical suppressor across a coil or contact; a diode's cathode belongs on the fed side. */
const suppressorFields = z.strictObject({
  style: z.enum(['diode', 'resistor']),
  resistanceOhms: positive.optional(),
  cathode: terminalField.optional().describe('Terminal at the cathode; 86 when absent'),
});

/**
 * Terminals `30`, `85`, `86`, `87` (make), and by `contacts`: `87a` (break side of a change-over), or `87b` (second make).
 */
export const relaySchema = z.strictObject({
  ...commonFields,
  kind: z.literal('relay'),
  contacts: z.enum(['make', 'break', 'change-over', 'twin-make']).optional(),
  coilOhms: positive.optional(),
  pullInVolts: positive.optional(),
  dropOutVolts: positive.optional(),
  nominalVolts: positive.optional(),
  contactOhms: positive.optional(),
  contactRatingAmps: positive.optional(),
  fuseRatingAmps: positive.optional().describe('A fuse built into the relay, between 30 and the contact'),
  suppressor: suppressorFields.optional(),
});

/** One position of a contact table: its name and the sets of terminals that it joins. */
export const positionField = z.strictObject({
  name: z.string().min(1).max(24),
  joins: z.array(z.array(terminalField).min(2).max(16)).max(16),
  momentary: z.boolean().optional(),
});

/**
 * Terminals are those named in `positions`. Without `positions`, `style` gives them: on-off and momentary (`1`, `2`), change-over
 * (`1` common; `2`, `3`), ignition (`30`; `15`, `50`, `75`).
 */
export const switchSchema = z.strictObject({
  ...commonFields,
  kind: z.literal('switch'),
  style: z.enum(['on-off', 'change-over', 'momentary', 'rotary', 'ignition']).optional(),
  positions: z.array(positionField).min(2).max(16).optional(),
  rest: z.string().max(24).optional().describe('Position when a state does not say; the first when absent'),
  contactOhms: positive.optional(),
  contactRatingAmps: positive.optional(),
});

/** Terminals `1`, `2` (or `1` and the case): pressure, temperature, door, brake or seat switch. Positions `open`, `closed`. */
export const sensorSwitchSchema = z.strictObject({
  ...commonFields,
  kind: z.literal('sensor-switch'),
  senses: z.string().max(60).optional(),
  rest: z.enum(['open', 'closed']).optional(),
  contactOhms: positive.optional(),
  contactRatingAmps: positive.optional(),
  caseOn: addressField.optional().describe('Body that the case is screwed to; the case is then the second terminal'),
});

/** Terminals `49` (feed), `49a` (to the lamps), `31`. Both of its phases, lit and dark, are solved. */
export const flasherSchema = z.strictObject({
  ...commonFields,
  kind: z.literal('flasher'),
  ratedWatts: positive.optional().describe('Lamp load that it was made for; less flashes fast'),
  contactOhms: positive.optional(),
  contactRatingAmps: positive.optional(),
});
