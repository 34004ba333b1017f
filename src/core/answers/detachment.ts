/**
 * The ways in which something comes off a vehicle, and what each costs a person.
 */
import type { Access } from '../record/kinds/common.js';
import type { Detachment } from './shapes/separation.js';

/** Any plug before any spanner, any spanner before any cut, then by access (engineering judgement). */
const COST_BY_MEANS = { plug: 1_000, spanner: 3_000, cutting: 1_000_000 } as const;
const COST_BY_ACCESS: Readonly<Record<Access, number>> = { open: 0, 'behind-panel': 10, buried: 100 };

/** One detachment with its cost: a sum of costs prefers fewest plugs, then easiest access. */
export function detachment(at: string, by: Detachment['by'], wires: string[], access: Access): Detachment {
  return { at, by, wires, access, cost: leastCost(by) + COST_BY_ACCESS[access] };
}

/** What a detachment by this means costs at best. */
export function leastCost(by: Detachment['by']): number {
  return COST_BY_MEANS[by];
}
