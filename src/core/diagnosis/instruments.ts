/**
 * What the person has at hand: checks are chosen within it.
 * It must not choose; it only says what can be done.
 */
import { z } from 'zod';

export const instrumentsSchema = z.strictObject({
  voltmeter: z.boolean().optional().describe('Also reads ohms; yes when absent'),
  testLamp: z.boolean().optional(),
  clamp: z.boolean().optional().describe('Clamp ammeter for direct current'),
  breakOutLeads: z.boolean().optional().describe('Leads that bring a plugged contact out: no back-probing needed'),
  sparesAtHand: z.boolean().optional().describe('A known good relay and bulb to try; yes when absent'),
  fusedLink: z.boolean().optional().describe('A jumper lead with a fuse in it'),
});

export type Instruments = z.infer<typeof instrumentsSchema>;

export type Tool = keyof Instruments;

/** Common practice: a multimeter and a spare relay or bulb are there unless said otherwise, the rest is not. */
export function has(instruments: Instruments, tool: Tool): boolean {
  return instruments[tool] ?? (tool === 'voltmeter' || tool === 'sparesAtHand');
}
