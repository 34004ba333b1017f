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
 * Readings grouped by the pair of places they join, then groups one after the other, each the nearest to the one before (nearest
 * neighbour). Within a group the given order stays. `swappable`: ohms of a bare harness.
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
  const left = new Set(groups.values());
  const ordered: Ordered<T>[] = [];
  let hands: Held | null = null;
  while (left.size > 0) {
    const next: { group: Group<T>; isTurned: boolean } = nearest(left, hands, swappable);
    left.delete(next.group);
    hands = next.isTurned ? swapped(next.group.held) : next.group.held;
    for (const { item, isSwapped } of next.group.members)
      ordered.push({ item, isSwapped: isSwapped !== next.isTurned });
  }
  return ordered;
}

function nearest<G extends { held: Held; members: unknown[] }>(
  left: ReadonlySet<G>,
  hands: Held | null,
  swappable: boolean,
): { group: G; isTurned: boolean } {
  let best: { group: G; isTurned: boolean; moves: number } | null = null;
  for (const group of left) {
    const straight = hands === null ? 2 : movesBetween(hands, group.held);
    const turned = hands === null || !swappable ? Number.POSITIVE_INFINITY : movesBetween(hands, swapped(group.held));
    const moves = Math.min(straight, turned);
    if (
      best === null ||
      moves < best.moves ||
      (moves === best.moves && group.members.length > best.group.members.length)
    ) {
      best = { group, isTurned: turned < straight, moves };
    }
    if (moves === 0) break;
  }
  if (best === null) throw new RangeError('no group is left');
  return best;
}
