/**
 * Chooses which terminals of each net are read against each other, so that readings of many nets share the same two places.
 * Every choice is a spanning tree of its net: terminals minus one readings. It must not order them.
 */

export interface ChosenReading {
  readonly net: number;
  readonly red: string;
  readonly black: string;
}

/** Places of a net, in the order met, each with its terminals. */
type Places = ReadonlyMap<string, readonly string[]>;

/**
 * Pairs of places are taken greedily: first the one over which the most nets are joined further (greedy cover); pairs that turn out
 * not to be needed are dropped. Within the pairs each net's readings follow a breadth-first tree.
 */
export function chooseReadings(
  nets: readonly (readonly string[])[],
  placeOf: (terminal: string) => string,
): ChosenReading[] {
  const byPlace = nets.map((terminals): Places => {
    const places = new Map<string, string[]>();
    for (const terminal of terminals) {
      const list = places.get(placeOf(terminal));
      if (list === undefined) places.set(placeOf(terminal), [terminal]);
      else list.push(terminal);
    }
    return places;
  });
  const pairs = choosePairs(byPlace.map((places) => [...places.keys()]));
  return byPlace.flatMap((places, net) => treeOf(places, pairs).map(([red, black]) => ({ net, red, black })));
}

/** One reading per terminal but one: at the only place, each against the first; else along the chosen pairs of places. */
function treeOf(places: Places, pairs: PairSet): [string, string][] {
  const [root] = places.keys();
  const own = places.get(root) ?? [];
  if (places.size === 1) return own.slice(1).map((terminal) => [terminal, own[0]]);
  const readings: [string, string][] = [];
  const seen = new Set([root]);
  for (const place of seen) {
    const [parent] = places.get(place) ?? [];
    for (const [next, terminals] of places) {
      if (seen.has(next) || !pairs.has(place, next)) continue;
      // what else is at the first place is read against the first place beyond it
      if (seen.size === 1) for (const other of own.slice(1)) readings.push([other, terminals[0]]);
      seen.add(next);
      for (const terminal of terminals) readings.push([terminal, parent]);
    }
  }
  return readings;
}

class PairSet {
  private readonly keys = new Set<string>();

  private static key(one: string, other: string): string {
    return one < other ? `${one}\n${other}` : `${other}\n${one}`;
  }

  has(one: string, other: string): boolean {
    return this.keys.has(PairSet.key(one, other));
  }

  add(one: string, other: string): void {
    this.keys.add(PairSet.key(one, other));
  }

  delete(one: string, other: string): void {
    this.keys.delete(PairSet.key(one, other));
  }
}

function choosePairs(nets: readonly (readonly string[])[]): PairSet {
  const wide = nets.filter((places) => places.length > 1);
  // nets over the same places are one, counted as often as there are
  const groups = new Map<string, { places: readonly string[]; count: number; part: Map<string, number> }>();
  for (const places of wide) {
    const key = [...places].sort().join('\n');
    const known = groups.get(key);
    if (known === undefined) groups.set(key, { places, count: 1, part: new Map(places.map((place, i) => [place, i])) });
    else known.count += 1;
  }
  const chosen: [string, string][] = [];
  const pairs = new PairSet();
  for (;;) {
    const gains = new Map<string, { pair: [string, string]; gain: number }>();
    for (const { places, count, part } of groups.values()) {
      for (const [i, one] of places.entries()) {
        for (const other of places.slice(i + 1)) {
          if (part.get(one) === part.get(other)) continue;
          const key = one < other ? `${one}\n${other}` : `${other}\n${one}`;
          const known = gains.get(key);
          if (known === undefined) gains.set(key, { pair: [one, other], gain: count });
          else known.gain += count;
        }
      }
    }
    let best: { pair: [string, string]; gain: number } | null = null;
    for (const candidate of gains.values()) if (best === null || candidate.gain > best.gain) best = candidate;
    if (best === null) break;
    const [one, other] = best.pair;
    chosen.push(best.pair);
    pairs.add(one, other);
    for (const { part } of groups.values()) {
      const [from, to] = [part.get(one), part.get(other)];
      if (from === undefined || to === undefined || from === to) continue;
      for (const [place, number] of part) if (number === from) part.set(place, to);
    }
  }
  for (const [one, other] of chosen.toReversed()) {
    pairs.delete(one, other);
    if (![...groups.values()].every(({ places }) => isJoined(places, pairs))) pairs.add(one, other);
  }
  return pairs;
}

function isJoined(places: readonly string[], pairs: PairSet): boolean {
  const reached = new Set([places[0]]);
  for (const place of reached) for (const next of places) if (pairs.has(place, next)) reached.add(next);
  return reached.size === places.length;
}
