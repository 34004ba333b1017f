// Finds what a person means by a few words: `x4 3`, `left dip`, `G2`. Functions, parts, connectors, points, wires, states, assemblies.
// It must not guess: every word typed must stand somewhere in what is found.

import type { HarnessGraph } from '../core/graph/harness-graph.js';
import { normaliseAddress } from '../core/record/addresses.js';
import { harnessChoices } from './harness-choices.js';

export type FoundKind = 'function' | 'connector' | 'part' | 'wire' | 'point' | 'state' | 'assembly';

export interface Found {
  readonly address: string;
  readonly kind: FoundKind;
  readonly name: string;
  readonly location: string | null;
}

interface Entry {
  readonly found: Found;
  readonly key: string;
  /** Words of the address, then those of name, circuit and place. */
  readonly words: readonly string[];
}

/** Of two that fit equally well, the one a person more often means goes first. */
const order: readonly FoundKind[] = ['function', 'connector', 'part', 'wire', 'point', 'state', 'assembly'];

/** The best `limit` entries in which every word of `query` stands: whole words before beginnings before middles. */
export function findAddresses(graph: HarnessGraph, query: string, limit: number): readonly Found[] {
  const wanted = wordsOf(query);
  if (wanted.length === 0) return [];
  const whole = normaliseAddress(query);
  const scored: { readonly entry: Entry; readonly score: number }[] = [];
  for (const entry of entriesOf(graph)) {
    const score = scoreOf(entry, wanted, whole);
    if (score !== null) scored.push({ entry, score });
  }
  scored.sort((a, b) => a.score - b.score || a.entry.words.length - b.entry.words.length);
  return scored.slice(0, limit).map(({ entry }) => entry.found);
}

/** Lower is better; null: a word is missing. */
function scoreOf({ key, words, found }: Entry, wanted: readonly string[], whole: string): number | null {
  let score = order.indexOf(found.kind) / 10;
  for (const word of wanted) {
    let best = Number.POSITIVE_INFINITY;
    for (const candidate of words) {
      if (candidate === word) best = 0;
      else if (candidate.startsWith(word)) best = Math.min(best, 1);
      else if (word.length > 1 && candidate.includes(word)) best = Math.min(best, 3);
    }
    if (best === Number.POSITIVE_INFINITY) return null;
    score += best;
  }
  return key === whole ? score - 100 : score;
}

const wordsOf = (text: string): string[] =>
  text
    .normalize('NFKC')
    .toLowerCase()
    .split(/[^\p{L}\p{N}+]+/u)
    .filter((word) => word !== '');

const index = new WeakMap<HarnessGraph, readonly Entry[]>();

/** Made when first asked for; a graph never changes. */
function entriesOf(graph: HarnessGraph): readonly Entry[] {
  const known = index.get(graph);
  if (known !== undefined) return known;
  const entries: Entry[] = [];
  const add = (kind: FoundKind, address: string, name: string, location: string | null, further = ''): void => {
    const words = [...new Set(wordsOf(`${address} ${name} ${location ?? ''} ${further}`))];
    entries.push({ found: { address, kind, name, location }, key: normaliseAddress(address), words });
  };

  const choices = harnessChoices(graph);
  for (const { id, name, location } of choices.functions) add('function', id, name, location);
  for (const { address, kind, name, location, assembly } of graph.record.parts) {
    add(
      kind === 'connector' ? 'connector' : 'part',
      address,
      name ?? kind,
      location ?? null,
      `${kind} ${assembly ?? ''}`,
    );
  }
  for (const { label, from, to, circuit, colour, size } of graph.record.wires) {
    add('wire', label, `${circuit ?? 'wire'}, ${from} to ${to}`, null, `${colour ?? ''} ${size}`);
  }
  const nameOf = new Map(graph.record.parts.map(({ address, name, kind }) => [address, name ?? kind]));
  for (const { id, owner, location, probeable } of graph.points.values()) {
    if (probeable) add('point', id, nameOf.get(owner) ?? owner, location);
  }
  for (const { name, description } of choices.states) add('state', name, description ?? 'operating state', null);
  for (const { address, name } of choices.assemblies) add('assembly', address, name ?? 'assembly', null);
  index.set(graph, entries);
  return entries;
}
