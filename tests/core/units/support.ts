// Unwraps a parsed value in tests, or fails with the reason. It must not know what is being read.

import type { Parsed, Refused } from '../../../src/core/units/parsed.js';

export function readValue<T>(parsed: Parsed<T>): T {
  if (!parsed.ok) throw new Error(`refused: ${parsed.reason} (accepted: ${parsed.accepted})`);
  return parsed.value;
}

export function readRefusal<T>(parsed: Parsed<T>): Refused {
  if (parsed.ok) throw new Error(`accepted as ${JSON.stringify(parsed.value)}`);
  return parsed;
}
