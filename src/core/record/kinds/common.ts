/**
 * Fields that every part shares, and the small vocabularies they use.
 * Pure schema: quantities are already SI numbers here (see `quantities.ts` for what people may write instead).
 */
import { z } from 'zod';

/** A part's or wire's own name as printed on its label: a letter, then letters, digits, `_` or `-`. */
export const addressField = z
  .string()
  .regex(/^[A-Za-z][A-Za-z0-9_-]{0,31}$/, 'a letter followed by at most 31 letters, digits, _ or -')
  .describe('Address of a part or wire, unique in the record whatever its case');

/** A terminal or cavity name as printed: `30`, `87a`, `B+`, `3`. */
export const terminalField = z
  .string()
  .regex(/^[A-Za-z0-9][A-Za-z0-9+_-]{0,15}$/, 'at most 16 letters, digits, +, _ or -');

/** The address of a point: `X4.plug/3`, `K2/87`, `G1`. */
export const pointField = z.string().min(1).max(80);

export const textField = z.string().max(400);

export const accessField = z.enum(['open', 'behind-panel', 'buried']);
export const exposureField = z.enum(['dry', 'splash', 'salt']);

/** Circuits that no plan or check may touch (`restraint` to `spark`), interlocks, and data pairs. */
export const markField = z.enum(['restraint', 'high-voltage', 'mains', 'spark', 'movement-interlock', 'data-bus']);

/** How a part meets the harness: pushed into contacts, wired with its own tails, or bolted to lugs. */
const mountField = z.enum(['plug-in', 'wired', 'bolted']);

export const positive = z.number().positive().max(1e9);
export const notNegative = z.number().min(0).max(1e9);

/** Fields common to all parts. */
export const commonFields = {
  address: addressField,
  name: textField.optional(),
  location: textField.optional(),
  access: accessField.optional(),
  panel: textField.optional().describe('The cover or panel that must come off to reach the part'),
  assembly: addressField.optional().describe('The assembly that the part comes out with'),
  exposure: exposureField.optional(),
  marks: z.array(markField).max(6).optional(),
  mount: mountField.optional(),
  notes: textField.optional(),
};

export type Access = z.infer<typeof accessField>;
export type Mark = z.infer<typeof markField>;
export type Mount = z.infer<typeof mountField>;
export type Exposure = z.infer<typeof exposureField>;
