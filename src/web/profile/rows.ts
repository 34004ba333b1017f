// The profile as rows: one for each point that a probe can touch, with the step that leads into it.
// It must not drop an element: those between two probe points are kept together in one step.

import type { Predicted, Profile, ProfilePoint } from '../api/types.js';

export interface ProfileRow {
  readonly point: ProfilePoint;
  /** What lies between the row before and this one, in order; the last is this point itself. */
  readonly into: readonly ProfilePoint[];
  /** Volts lost on the way here; null for the first row. */
  readonly drop: Predicted | null;
  /** The sum of the customary limits on the way; null where none is customary. */
  readonly limitVolts: number | null;
  /** The load itself lies in this step. */
  readonly isLoad: boolean;
}

export function profileRows(points: Profile['points']): readonly ProfileRow[] {
  const rows: ProfileRow[] = [];
  let into: ProfilePoint[] = [];
  for (const point of points) {
    into.push(point);
    if (!point.probeable && point !== points[points.length - 1]) continue;
    rows.push(rowOf(point, into, rows.length === 0));
    into = [];
  }
  return rows;
}

function rowOf(point: ProfilePoint, into: readonly ProfilePoint[], isFirst: boolean): ProfileRow {
  const isLoad = into.some(({ along }) => along === 'load');
  const limits = into.flatMap(({ limitVolts }) => (limitVolts === null ? [] : [limitVolts]));
  return {
    point,
    into,
    drop: isFirst ? null : summed(into.map(({ dropVolts }) => dropVolts)),
    limitVolts: isLoad || limits.length === 0 ? null : limits.reduce((sum, limit) => sum + limit, 0),
    isLoad,
  };
}

/** Nominal drops add; a band of the sum is known only where the sum is of one. */
function summed(drops: readonly (Predicted | null)[]): Predicted {
  const known = drops.filter((drop): drop is Predicted => drop !== null);
  if (known.length === 1) return known[0];
  const nominal = known.some((drop) => drop.nominal === null)
    ? null
    : known.reduce((sum, drop) => sum + (drop.nominal ?? 0), 0);
  return { nominal, low: null, high: null, bandBasis: 'none' };
}

/** True where the healthy drop is already over the customary limit. */
export const isOverLimit = ({ drop, limitVolts }: ProfileRow): boolean =>
  limitVolts !== null && drop !== null && drop.nominal !== null && Math.abs(drop.nominal) > limitVolts;
