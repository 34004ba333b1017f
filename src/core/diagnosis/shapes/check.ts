/**
 * Shapes of a check (where the leads go, in which state) and of what it showed. zod, so that logs and the API share them.
 * It must not say what a healthy harness shows; that is predicted.
 */
import { z } from 'zod';
import { operatingStateSchema } from '../../record/state.js';

/** Name of a recorded state, or a state spelled out. */
export const stateChoiceField = z.union([z.string().min(1).max(60), operatingStateSchema]);

const point = z.string().min(1).max(80);
const address = z.string().min(1).max(80);
const elements = z.array(z.string().min(1).max(120)).min(1).max(400);

export const checkSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('observe'), function: address, state: stateChoiceField }),
  z
    .strictObject({
      kind: z.literal('volts'),
      state: stateChoiceField,
      red: point,
      black: point,
      isBackProbed: z.boolean().optional(),
      newFuse: address.optional().describe('A new fuse of the recorded rating goes in here first, once'),
    })
    .describe('To the reference, or a drop between two points; loads plugged in unless the state unplugs them'),
  z.strictObject({ kind: z.literal('lamp'), state: stateChoiceField, red: point, black: point }),
  z.strictObject({ kind: z.literal('clamp'), state: stateChoiceField, wire: address }),
  z
    .strictObject({ kind: z.literal('ohms'), red: point, black: point, elements })
    .describe('Both ends free, circuit dead; `elements` are what lies between'),
  z
    .strictObject({ kind: z.literal('isolation'), point, body: address, elements })
    .describe('Ohms from a stretch with both ends free to a body'),
  z.strictObject({ kind: z.literal('look'), fuse: address }),
  z
    .strictObject({ kind: z.literal('swap'), part: address, function: address, state: stateChoiceField })
    .describe(
      'A known good relay, bulb or fuse of the same kind in its place; `cured`: right with it, and (but for a fuse) wrong again with the old one back in',
    ),
  z.strictObject({ kind: z.literal('inspect'), part: address }),
  z.strictObject({
    kind: z.literal('link'),
    state: stateChoiceField,
    from: point,
    to: point,
    fuseAmps: z.number().positive().max(100),
    function: address,
  }),
  z.strictObject({
    kind: z.literal('wiggle'),
    part: address,
    elements,
    function: address,
    state: stateChoiceField,
  }),
]);

/** Volts, ohms or amperes by the kind of check (null: OL, no figure), or what was seen in one word. */
export const checkResultSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('number'), value: z.number().min(-1e9).max(1e9).nullable() }),
  z.strictObject({ kind: z.literal('word'), word: z.string().min(1).max(24) }),
]);

/** The words that each kind of check can give; the others give a number. */
export const CHECK_WORDS = {
  observe: ['works', 'weak', 'dead', 'reversed'],
  lamp: ['bright', 'dim', 'dark'],
  look: ['good', 'blown', 'missing', 'wrong-rating'],
  swap: ['cured', 'same'],
  inspect: ['clean', 'damaged'],
  link: ['works', 'weak', 'dead'],
  wiggle: ['changes', 'steady'],
} as const;

export type StateChoice = z.infer<typeof stateChoiceField>;
export type Check = z.infer<typeof checkSchema>;
export type CheckKind = Check['kind'];
export type CheckOf<K extends CheckKind> = Extract<Check, { kind: K }>;
export type CheckResult = z.infer<typeof checkResultSchema>;

/** Same check, same key: what repeats a reading and what does not. */
export function checkKey(check: Check): string {
  return JSON.stringify(Object.entries(check).sort(([a], [b]) => (a < b ? -1 : 1)));
}
