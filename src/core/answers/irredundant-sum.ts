/**
 * A sum of products for tables too large for the shortest: every cube as wide as it can be, none that the others make needless.
 */
import type { Cube, TruthTable } from './truth-table.js';

/** Deterministic: combinations in counting order, each grown variable by variable, value by value. */
export function irredundantSum(table: TruthTable): Cube[] {
  const timesCovered = new Uint32Array(table.length);
  const found: { readonly cube: Cube; readonly members: Uint32Array }[] = [];
  for (let at = 0; at < table.length; at++) {
    if (!table.isOn(at) || timesCovered[at] > 0) continue;
    const grown = grow(table, at);
    for (const member of grown.members) timesCovered[member] += 1;
    found.push(grown);
  }
  return found
    .filter(({ members }) => {
      if (members.some((member) => timesCovered[member] === 1)) return true;
      for (const member of members) timesCovered[member] -= 1;
      return false;
    })
    .map(({ cube }) => cube);
}

/** The widest cube that this order of growing finds around one combination. */
function grow(table: TruthTable, start: number): { cube: Cube; members: Uint32Array } {
  const cube = table.sizes.map((_, variable) => 1 << table.value(start, variable));
  let members: Uint32Array = Uint32Array.of(start);
  for (let variable = 0; variable < cube.length; variable++) {
    const own = members;
    for (let value = 0; value < table.sizes[variable]; value++) {
      if ((cube[variable] & (1 << value)) !== 0) continue;
      const moved = own.map((at) => table.withValue(at, variable, value));
      if (!moved.every((at) => table.isOn(at))) continue;
      cube[variable] |= 1 << value;
      members = concat(members, moved);
    }
  }
  return { cube, members };
}

function concat(one: Uint32Array, other: Uint32Array): Uint32Array {
  const both = new Uint32Array(one.length + other.length);
  both.set(one);
  both.set(other, one.length);
  return both;
}
