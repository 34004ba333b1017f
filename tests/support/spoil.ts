// Spoils JSON in one place, as hand-made clients do: a field missing, of another type, absurd in size, or out of another world.
// It must not make anything sound; what comes out is only meant to be refused or answered without a fall.

import type { Random } from './random.js';

export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

const ODD: readonly Json[] = [
  null,
  true,
  0,
  -1,
  1e308,
  -0.5,
  9_007_199_254_740_992,
  '',
  ' ',
  'X4.plug/3',
  'E1',
  '../../etc',
  '__proto__',
  'constructor',
  '\u0000',
  '\ud800',
  '🚙'.repeat(50),
  'x'.repeat(5_000),
  [],
  {},
  [[]],
  [null, 1, 'a'],
  { toString: 1 },
];

/** The same JSON with one to three places spoilt. */
export function spoil(json: Json, random: Random): Json {
  let spoilt = json;
  for (let times = random.whole(1, 3); times > 0; times--) spoilt = spoilOnce(spoilt, random);
  return spoilt;
}

function spoilOnce(json: Json, random: Random): Json {
  if (Array.isArray(json) && json.length > 0 && random.chance(0.85)) {
    const at = random.whole(0, json.length - 1);
    if (random.chance(0.1)) return json.filter((_, i) => i !== at);
    if (random.chance(0.1)) return [...json, ...json];
    return json.map((entry, i) => (i === at ? spoilOnce(entry, random) : entry));
  }
  if (isObject(json) && Object.keys(json).length > 0 && random.chance(0.85)) {
    const key = random.pick(Object.keys(json));
    const { [key]: own, ...rest } = json;
    if (random.chance(0.15)) return rest;
    if (random.chance(0.15)) return { ...rest, [`${key}${key}`]: own };
    return { ...rest, [key]: spoilOnce(own, random) };
  }
  return random.pick(ODD);
}

function isObject(json: Json): json is { readonly [key: string]: Json } {
  return typeof json === 'object' && json !== null && !Array.isArray(json);
}
