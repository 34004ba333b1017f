// One spelling for the addresses people type, and look-up in any case: parts, wires, points.
// It must not decide what a missing address means; it returns null.

import type { Part } from './part.js';
import { harnessPointAddress, type PointSpec, pointsOf } from './points.js';
import { terminalAliasesOf } from './terminals.js';

/** Nearly every address: nothing to unify but case. */
const PLAIN = /^[!-[\]-~]*$/;

/** Key under which an address is found whatever its case: compatibility forms unified, no blanks or invisible signs. */
export function normaliseAddress(text: string): string {
  if (PLAIN.test(text)) return text.toLowerCase();
  return text
    .normalize('NFKC')
    .replace(/[\s\p{Cf}]/gu, '')
    .replace(/[\u2010-\u2015\u2212]/g, '-')
    .replace(/[\u2044\\]/g, '/')
    .toLowerCase();
}

/** The part or wire that a point or termination address begins with: `X4.plug/3` -> `X4`, `L12@K2/87` -> `L12`. */
export function ownerText(address: string): string {
  return /^[^./:@]*/.exec(address)?.[0] ?? '';
}

interface FoundPoint {
  readonly part: Part;
  readonly point: PointSpec;
}

export interface AddressIndex {
  /** Part by its address in any case. */
  part(text: string): Part | null;
  /** Point by address or alias in any case; also `K2:87`, `K2.87` and `K2 87` where that is no other address. */
  point(text: string): FoundPoint | null;
  /** Points of one part, as `pointsOf`. */
  pointsOf(part: Part): readonly PointSpec[];
}

/** Index over the parts of a record. Of two parts with one address the first is kept; the checks report the second. */
export function indexAddresses(parts: readonly Part[]): AddressIndex {
  const partByKey = new Map<string, Part>();
  const pointByKey = new Map<string, FoundPoint>();
  const specs = new Map<Part, readonly PointSpec[]>();
  for (const part of parts) {
    const key = normaliseAddress(part.address);
    if (partByKey.has(key)) continue;
    partByKey.set(key, part);
    const points = pointsOf(part);
    specs.set(part, points);
    for (const point of points) pointByKey.set(normaliseAddress(point.address), { part, point });
  }

  /** Other names of terminals are looked for only where the text is no address as it stands, so that none hides one. */
  function byAlias(text: string): FoundPoint | null {
    const key = normaliseAddress(text);
    const slash = key.indexOf('/');
    const part = slash < 0 ? undefined : partByKey.get(key.slice(0, slash));
    if (part === undefined) return null;
    const alias = key.slice(slash + 1);
    for (const [terminal, names] of terminalAliasesOf(part)) {
      if (names.includes(alias)) return pointByKey.get(normaliseAddress(harnessPointAddress(part, terminal))) ?? null;
    }
    return null;
  }

  function bySlash(text: string): FoundPoint | null {
    return pointByKey.get(normaliseAddress(text)) ?? byAlias(text);
  }

  return {
    part: (text) => partByKey.get(normaliseAddress(text)) ?? null,
    point: (text) => {
      const found = bySlash(text);
      const loose = found === null ? withSlash(text) : null;
      return loose === null ? found : bySlash(loose);
    },
    pointsOf: (part) => specs.get(part) ?? pointsOf(part),
  };
}

/** `K2:87`, `K2.87`, `K2 87`, `K2-87` as `K2/87`; null for a text that has a slash already. */
function withSlash(text: string): string | null {
  const match = text.includes('/') ? null : /^(.*\S)\s*[:.\s-]\s*(\S+)$/.exec(text.trim());
  return match === null ? null : `${match[1]}/${match[2]}`;
}
