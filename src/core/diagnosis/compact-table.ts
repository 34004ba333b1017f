/**
 * Makes a plan table as small as it can be without changing any plan: checks that tell nothing go, alike items become one.
 * It must not approximate.
 */
import type { PlanCheck, PlanTable } from './plan-table.js';

export function compactTable(table: PlanTable): PlanTable {
  const useful = table.checks.filter((check) => tellsGroupsApart(table, check));
  const checks = withoutDominated(useful);
  const merged = new Map<string, { weight: number; item: number }>();
  for (let item = 0; item < table.weights.length; item++) {
    const key = `${table.groups[item]} ${checks.map(({ outcomes }) => outcomes[item]).join()}`;
    const known = merged.get(key);
    if (known === undefined) merged.set(key, { weight: table.weights[item], item });
    else known.weight += table.weights[item];
  }
  const rows = [...merged.values()];
  return {
    ...table,
    weights: Float64Array.from(rows, ({ weight }) => weight),
    groups: Int32Array.from(rows, ({ item }) => table.groups[item]),
    checks: checks.map((check) => ({
      ...check,
      outcomes: Uint8Array.from(rows, ({ item }) => check.outcomes[item]),
    })),
  };
}

function tellsGroupsApart(table: PlanTable, { outcomes }: PlanCheck): boolean {
  // Within a few items of another group and another outcome the answer is found, if there is one.
  const firstOf = new Map<number, number>();
  for (let item = 0; item < outcomes.length; item++) {
    for (const [outcome, group] of firstOf) if (outcome !== outcomes[item] && group !== table.groups[item]) return true;
    const known = firstOf.get(outcomes[item]);
    if (known === undefined) firstOf.set(outcomes[item], table.groups[item]);
    // Two groups under one outcome: any other outcome at all tells one of them apart.
    else if (known !== table.groups[item]) return outcomes.some((outcome) => outcome !== outcomes[item]);
  }
  return false;
}

/** Of checks that split alike, need the same state and no more panels, the cheapest stays. */
function withoutDominated(checks: readonly PlanCheck[]): PlanCheck[] {
  const byPartition = new Map<string, PlanCheck[]>();
  for (const check of checks) {
    const key = `${check.setup} ${partitionKey(check.outcomes)}`;
    byPartition.set(key, [...(byPartition.get(key) ?? []), check]);
  }
  const dominates = (one: PlanCheck, other: PlanCheck, isEarlier: boolean): boolean =>
    (one.panels & ~other.panels) === 0 &&
    (one.minutes < other.minutes || (one.minutes === other.minutes && (isEarlier || one.panels !== other.panels)));
  return [...byPartition.values()].flatMap((alike) =>
    alike.filter((check, at) => !alike.some((other, i) => i !== at && dominates(other, check, i < at))),
  );
}

/** Outcome numbers renamed in order of appearance: equal for equal partitions. */
function partitionKey(outcomes: Uint8Array): string {
  const names = new Map<number, number>();
  return Array.from(outcomes, (outcome) => {
    const known = names.get(outcome);
    if (known !== undefined) return known;
    names.set(outcome, names.size);
    return names.size - 1;
  }).join();
}
