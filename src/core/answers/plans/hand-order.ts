/**
 * The order in which two hands with a lead each go least often to another place.
 * It must not know what is measured; leads may be exchanged only where the caller says so.
 */

/** A reading as the hands see it: where each lead is held. */
export interface Held {
  readonly red: string;
  readonly black: string;
}

/** Places that change from one reading to the next; the leads stay in their hands. */
function movesBetween(one: Held, next: Held): number {
  return Number(one.red !== next.red) + Number(one.black !== next.black);
}

/** Times that a lead goes to another place over the whole list; taking both up at first counts as two. */
export function handMoves(list: readonly Held[]): number {
  let moves = list.length > 0 ? 2 : 0;
  for (let i = 1; i < list.length; i++) moves += movesBetween(list[i - 1], list[i]);
  return moves;
}

/** The list in its order, with the leads exchanged wherever that saves a move. */
export function withLeadsExchanged(list: readonly Held[]): Held[] {
  const held: Held[] = [];
  for (const next of list) {
    const last = held.at(-1);
    const isTurned = last !== undefined && movesBetween(last, swapped(next)) < movesBetween(last, next);
    held.push(isTurned ? swapped(next) : next);
  }
  return held;
}

const swapped = ({ red, black }: Held): Held => ({ red: black, black: red });

export interface Ordered<T> {
  readonly item: T;
  readonly isSwapped: boolean;
}

interface Group<T> {
  readonly held: Held;
  readonly members: Ordered<T>[];
}

/**
 * Readings grouped by the pair of places they join; then groups one after the other, each the nearest to the one before (nearest
 * neighbour), improved by turning stretches round (2-opt: G. A. Croes, Operations Research 6, 1958) and by moving single groups.
 * Within a group the given order stays. `swappable`: the leads may change hands, as for ohms of a bare harness.
 */
export function orderByHands<T>(
  items: readonly T[],
  heldOf: (item: T) => Held,
  swappable: boolean,
): readonly Ordered<T>[] {
  const groups = new Map<string, Group<T>>();
  for (const item of items) {
    const held = heldOf(item);
    const isSwapped = swappable && held.red < held.black;
    const placed = isSwapped ? swapped(held) : held;
    const key = `${placed.red}\n${placed.black}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { held: placed, members: [{ item, isSwapped }] });
    else group.members.push({ item, isSwapped });
  }
  const list = [...groups.values()];
  const cost = (one: Held, next: Held): number =>
    swappable ? Math.min(movesBetween(one, next), movesBetween(swapped(one), next)) : movesBetween(one, next);
  const ordered: Ordered<T>[] = [];
  let hands: Held | null = null;
  for (const { held, members } of improve(nearestFirst(list, cost), cost)) {
    const isTurned: boolean =
      swappable && hands !== null && movesBetween(hands, swapped(held)) < movesBetween(hands, held);
    hands = isTurned ? swapped(held) : held;
    for (const { item, isSwapped } of members) ordered.push({ item, isSwapped: isSwapped !== isTurned });
  }
  return ordered;
}

type Cost = (one: Held, next: Held) => number;

/** Among the nearest the one with the fewest others near it comes first: what is left last would cost a way of its own. */
function nearestFirst<G extends { held: Held }>(groups: readonly G[], cost: Cost): G[] {
  const left = new Set(groups);
  const crowd = new Map<string, number>();
  const count = ({ red, black }: Held, by: number): void => {
    for (const place of new Set([red, black])) crowd.set(place, (crowd.get(place) ?? 0) + by);
  };
  for (const { held } of groups) count(held, 1);
  const ordered: G[] = [];
  for (let last: G | null = null; left.size > 0; ) {
    let best: { group: G; moves: number; near: number } | null = null;
    for (const group of left) {
      const moves: number = last === null ? 2 : cost(last.held, group.held);
      const near = (crowd.get(group.held.red) ?? 0) + (crowd.get(group.held.black) ?? 0);
      if (best === null || moves < best.moves || (moves === best.moves && near < best.near))
        best = { group, moves, near };
    }
    if (best === null) break;
    left.delete(best.group);
    count(best.group.held, -1);
    ordered.push(best.group);
    last = best.group;
  }
  return ordered;
}

/** Beyond so many groups the order stays as it is found. */
const MOST_IMPROVED = 400;
const MOST_ROUNDS = 30;

function improve<G extends { held: Held }>(order: G[], cost: Cost): readonly G[] {
  if (order.length > MOST_IMPROVED) return order;
  const between = (i: number, j: number): number =>
    i < 0 || j >= order.length ? 0 : cost(order[i].held, order[j].held);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    let isBetter = false;
    for (let i = 0; i < order.length; i++) {
      for (let j = i + 1; j < order.length; j++) {
        // turn i..j round
        if (between(i - 1, j) + between(i, j + 1) < between(i - 1, i) + between(j, j + 1)) {
          order.splice(i, j - i + 1, ...order.slice(i, j + 1).reverse());
          isBetter = true;
        }
      }
    }
    for (let i = 0; i < order.length; i++) isBetter = moveOne(order, i, cost) || isBetter;
    if (!isBetter) break;
  }
  return order;
}

/** Puts the group at `i` where it costs least; false when it stands there already. */
function moveOne<G extends { held: Held }>(order: G[], i: number, cost: Cost): boolean {
  const [group] = order.splice(i, 1);
  const added = (at: number): number => {
    const before = at > 0 ? order[at - 1].held : null;
    const after = at < order.length ? order[at].held : null;
    const joins = (before === null ? 0 : cost(before, group.held)) + (after === null ? 0 : cost(group.held, after));
    return joins - (before === null || after === null ? 0 : cost(before, after));
  };
  let best = i;
  for (let at = 0; at <= order.length; at++) if (added(at) < added(best)) best = at;
  order.splice(best, 0, group);
  return best !== i;
}
