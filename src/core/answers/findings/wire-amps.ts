/**
 * What each wire may carry for long, with its insulation, the air around it and the warm wires beside it.
 * It must not judge a fuse; the tables and their sources are in `units`.
 */
import { defaultById } from '../../record/defaults.js';
import type { Wire } from '../../record/record.js';
import { type Ampacity, ampacity } from '../../units/ampacity.js';
import { parseWireSize } from '../../units/wire-size.js';
import type { Model } from '../model.js';
import type { WorstCase } from './worst-case.js';

/** A wire counts as current-carrying in its bundle from this share of its own ampacity (engineering judgement). */
const WARM_SHARE = 0.3;

export interface WireAmps extends Ampacity {
  readonly bundleCount: number;
}

/** Ampacity by wire label; null for a size without a row. `looks` say which wires are warm together. */
export function wireAmps(model: Model, worst: Pick<WorstCase, 'looks'>): (label: string) => WireAmps | null {
  const warm = warmNeighbours(model, worst);
  const known = new Map<string, WireAmps | null>();
  return (label) => {
    let found = known.get(label);
    if (found === undefined) {
      const wire = model.wires.get(label);
      found = wire === undefined ? null : withBundle(model, wire, warm.get(label) ?? 1);
      known.set(label, found);
    }
    return found;
  };
}

function withBundle(model: Model, wire: Wire, bundleCount: number): WireAmps | null {
  const size = parseWireSize(wire.size);
  if (!size.ok) return null;
  const insulationCelsius = wire.insulationCelsius ?? defaultById('wire.insulationCelsius').value;
  const ambientCelsius = Math.max(30, model.graph.record.ambientCelsius ?? 30);
  return { ...ampacity(size.value, { insulationCelsius, ambientCelsius, bundleCount }), bundleCount };
}

/** Most warm wires in any one segment with the wire, itself included, in any one state looked at. */
function warmNeighbours(model: Model, { looks }: Pick<WorstCase, 'looks'>): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  const bySegment = new Map<string, string[]>();
  for (const wire of model.graph.record.wires) {
    for (const segment of new Set(wire.route ?? [])) {
      const list = bySegment.get(segment) ?? [];
      list.push(wire.label);
      bySegment.set(segment, list);
    }
  }
  const alone = new Map(
    model.graph.record.wires.map((wire) => [wire.label, withBundle(model, wire, 1)?.amps ?? Number.POSITIVE_INFINITY]),
  );
  for (const { solution } of looks) {
    const isWarm = (label: string): boolean =>
      Math.abs(solution.amps(label)) >= WARM_SHARE * (alone.get(label) ?? Number.POSITIVE_INFINITY);
    for (const labels of bySegment.values()) {
      const warm = labels.filter(isWarm).length;
      for (const label of labels) {
        const count = isWarm(label) ? warm : warm + 1;
        if (count > (counts.get(label) ?? 1)) counts.set(label, count);
      }
    }
  }
  return counts;
}
