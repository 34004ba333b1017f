/**
 * Shapes of what a person reports before anything is measured. What still works counts as much as what does not.
 * It must not weigh a report; `symptoms` does.
 */
import { z } from 'zod';
import { stateChoiceField } from './check.js';

export const functionReportField = z.enum([
  'dead',
  'weak',
  'works',
  'stays-on',
  'comes-and-goes',
  'runs-backwards',
  'too-bright',
  'flashes-fast',
  'flashes-slow',
  'does-not-flash',
  'reads-high',
  'reads-low',
  'reads-stuck',
]);

const address = z.string().min(1).max(80);

export const symptomSchema = z.discriminatedUnion('kind', [
  z
    .strictObject({
      kind: z.literal('function'),
      function: address,
      state: stateChoiceField,
      report: functionReportField,
    })
    .describe(
      '`stays-on`: on in a state in which it should be off; another load that comes on is reported the same way',
    ),
  z.strictObject({ kind: z.literal('fuse-found-blown'), fuse: address, state: stateChoiceField }),
  z.strictObject({
    kind: z.literal('fuse-blows'),
    fuse: address,
    state: stateChoiceField,
    when: z.enum(['at-once', 'after-a-time']),
  }),
  z.strictObject({ kind: z.literal('relay'), relay: address, state: stateChoiceField, clicks: z.boolean() }),
  z.strictObject({ kind: z.literal('battery-flat'), battery: address, state: stateChoiceField }),
  z.strictObject({ kind: z.literal('hot'), part: address, state: stateChoiceField }),
]);

export type FunctionReport = z.infer<typeof functionReportField>;
export type Symptom = z.infer<typeof symptomSchema>;
