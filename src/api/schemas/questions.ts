// Schemas of the questions as the API takes them. The answers' schemas are the core's own; only `solution` may be added.
// It must not restate an answer's shape.

import { z } from 'zod';
import { feedsSchema } from '../../core/answers/shapes/feeds.js';
import { measuredValueSchema } from '../../core/answers/shapes/measured.js';
import { meterField, profileSchema, readingsSchema } from '../../core/answers/shapes/readings.js';
import { plugCircuitsSchema, separationSchema } from '../../core/answers/shapes/separation.js';
import { unplugSchema } from '../../core/answers/shapes/unplug.js';
import { operatingStateSchema } from '../../core/record/state.js';
import { revisionNumber } from './harness.js';

export const revisionQuery = z.strictObject({
  revision: revisionNumber.optional().describe('The revision asked about; the newest when absent'),
});

export const solvedSchema = z
  .strictObject({
    outcome: z.enum(['settled', 'chatter', 'race', 'several-stable', 'no-convergence', 'impossible', 'stopped']),
    solutions: z
      .array(
        z.strictObject({
          points: z.array(
            z.strictObject({
              point: z.string(),
              volts: z.number().nullable().describe('Against the reference; null: the point floats'),
              island: z.int().describe('Points of one island read definitely against each other; the reference’s is 0'),
            }),
          ),
          elements: z.array(z.strictObject({ element: z.string(), amps: z.number(), conducts: z.boolean() })),
        }),
      )
      .describe('One when the state settles; several with chatter or several stable states; none without a solution'),
  })
  .meta({ id: 'SolvedState', description: 'Volts of every point and amps of every element in a state.' });

/** What an answer carries only when asked for: by `include`. */
const more = { solution: solvedSchema.optional().describe('Only with `include: ["solution"]`') };

export const feedsAnswer = feedsSchema.extend(more).meta({ id: 'Feeds', description: 'What feeds this load.' });
export const unplugAnswer = unplugSchema
  .extend(more)
  .meta({ id: 'Unplug', description: 'What breaks when these plugs are pulled.' });
export const readingsAnswer = readingsSchema
  .extend(more)
  .meta({ id: 'Readings', description: 'What the meter should read.' });
export const profileAnswer = profileSchema
  .extend(more)
  .meta({ id: 'Profile', description: 'Volts along the feed and return path of a function.' });
export const plugCircuitsAnswer = plugCircuitsSchema.meta({
  id: 'PlugCircuits',
  description: 'Which circuits run through this plug.',
});

export const separationAnswer = separationSchema.meta({
  id: 'Separation',
  description: 'What must come off to free this assembly or isolate this circuit.',
});

const includeField = z
  .array(z.enum(['solution']))
  .max(1)
  .default([])
  .describe('Ask for more than the answer: `solution`, the volts of every point and the amps of every element');

export const stateField = z
  .union([z.string().min(1).max(60), operatingStateSchema])
  .optional()
  .describe('Name of a recorded state, or a state spelled out; everything at rest when absent');

const functionField = z.string().min(1).max(80).describe('Load function: `E1`, or `E1:dip` where a load has several');
const plugField = z.string().min(1).max(60).describe('Connector or plug-in part: `X4`, `F6`, `K2`');
const pointText = z.string().min(1).max(80);

export const functionBody = z
  .strictObject({ function: functionField, state: stateField, include: includeField })
  .meta({ examples: [{ function: 'E1', state: 'Switch on' }] });
export const unplugBody = z.strictObject({
  plugs: z.array(plugField).min(1).max(200),
  state: stateField,
  include: includeField,
});
export const readingsBody = z.strictObject({
  pairs: z
    .array(
      z.strictObject({
        red: pointText.describe('Point of the red lead; for a clamp the wire or element it goes round'),
        black: pointText.optional().describe('Point of the black lead; the record’s reference when absent'),
      }),
    )
    .min(1)
    .max(1000),
  meter: meterField.default('voltmeter'),
  measured: z
    .array(measuredValueSchema)
    .max(20)
    .default([])
    .describe('Values taken on this harness in this state: they narrow and shift the bands of all readings'),
  state: stateField,
  include: includeField,
});
export const plugCircuitsBody = z.strictObject({ plug: plugField });
export const separationBody = z.union([
  z.strictObject({ assembly: z.string().min(1).max(60).describe('Assembly to take out'), state: stateField }),
  z.strictObject({ function: functionField, state: stateField }),
]);
export const solveBody = z.strictObject({ state: stateField });

const nullableText = z.string().nullable();

export const choicesSchema = z
  .strictObject({
    functions: z.array(
      z.strictObject({
        id: z.string(),
        part: z.string(),
        name: z.string(),
        location: nullableText,
        runsIn: z.array(z.string()).readonly().describe('States in which it should run, as recorded'),
      }),
    ),
    plugs: z.array(
      z.strictObject({ address: z.string(), kind: z.string(), name: nullableText, location: nullableText }),
    ),
    positions: z.array(
      z.strictObject({
        part: z.string(),
        name: nullableText,
        positions: z.array(z.string()).readonly(),
        rest: z.string(),
      }),
    ),
    outputs: z.array(z.strictObject({ point: z.string(), name: nullableText, pulsed: z.boolean() })),
    states: z.array(z.strictObject({ name: z.string(), description: nullableText })),
    assemblies: z.array(z.strictObject({ address: z.string(), name: nullableText })),
    reference: z.string().describe('Where the black lead stays'),
  })
  .meta({ id: 'Choices', description: 'What can be asked about and set in this harness.' });

export const statesSchema = z.strictObject({ states: z.array(operatingStateSchema).readonly() }).meta({ id: 'States' });

export const foundSchema = z
  .strictObject({
    found: z
      .array(
        z.strictObject({
          address: z.string(),
          kind: z.enum(['function', 'connector', 'part', 'wire', 'point', 'state', 'assembly']),
          name: z.string(),
          location: nullableText,
        }),
      )
      .readonly()
      .describe('Best first'),
  })
  .meta({ id: 'Found' });
