/**
 * Frees an assembly: an exact minimum cut of the mechanical ties between its parts and the rest of the vehicle.
 * A wire ties what it ends on; a plug parts its two halves; a lug or screw comes off by spanner; the rest must be cut.
 */
import { type CutEdge, minimumCut } from '../graph/minimum-cut.js';
import { naturalSort } from '../graph/natural-compare.js';
import type { Part } from '../record/part.js';
import { mountOf } from '../record/points.js';
import type { Wire } from '../record/record.js';
import { detachment } from './detachment.js';
import type { Model } from './model.js';
import type { Detachment } from './shapes/separation.js';

export interface Freed {
  readonly detach: Detachment[];
  readonly tiedWithoutPlug: string[];
  readonly exact: boolean;
  readonly lowerBound: number | null;
}

const INSIDE = '(assembly)';
const OUTSIDE = '(vehicle)';

/**
 * A part belongs to the assembly that it names. A connector's half goes with whatever its wires tie it to, unless the
 * record says what it stays with. Every wire can be cut, so a cut always exists.
 */
export function freeAssembly(model: Model, assembly: string): Freed {
  const ties = new Map<string, CutEdge & { readonly detachment: Detachment }>();
  const fixed: CutEdge[] = [];
  const fix = (id: string, a: string, b: string): number =>
    fixed.push({ id, a, b, capacity: Number.POSITIVE_INFINITY });
  const tie = (id: string, a: string, b: string, detachment: Detachment): unknown =>
    ties.set(id, { id, a, b, capacity: detachment.cost, detachment });

  for (const part of model.graph.record.parts) {
    if (part.kind !== 'connector') {
      fix(`fixed ${part.address}`, part.address, part.assembly === assembly ? INSIDE : homeOf(part));
      continue;
    }
    const access = part.access ?? 'open';
    tie(
      part.address,
      `${part.address}.plug`,
      `${part.address}.receptacle`,
      detachment(part.address, 'plug', [], access),
    );
    for (const half of ['plug', 'receptacle'] as const) {
      const holder = part[half]?.staysWith;
      if (holder === undefined) continue;
      fix(
        `holds ${part.address}.${half}`,
        `${part.address}.${half}`,
        isCalled(model, assembly, holder) ? INSIDE : OUTSIDE,
      );
    }
  }
  for (const wire of model.graph.record.wires) tieWire(model, wire, fix, tie);
  const cut = minimumCut([...ties.values(), ...fixed], [INSIDE], [OUTSIDE]);
  if (cut === null) throw new RangeError(`assembly ${assembly} has a part that is also outside it`);
  const detach = cut.edges
    .map((id) => ties.get(id)?.detachment)
    .filter((found) => found !== undefined)
    .map((found) => ({ ...found, wires: wiresThrough(model, found) }));
  const tiedWithoutPlug = naturalSort(detach.filter(({ by }) => by === 'cutting').map(({ at }) => at));
  return { detach, tiedWithoutPlug, exact: true, lowerBound: cut.capacity };
}

/** `staysWith` is free text: the assembly's address or its name, in any case. */
function isCalled(model: Model, assembly: string, holder: string): boolean {
  const name = model.graph.record.assemblies?.find(({ address }) => address === assembly)?.name ?? assembly;
  return [assembly, name].some((word) => word.toLowerCase() === holder.toLowerCase());
}

/** Splices hang on their wires; every other part outside the assembly is fixed to the vehicle. */
function homeOf(part: Part): string {
  return part.kind === 'splice' ? `(loose) ${part.address}` : OUTSIDE;
}

function tieWire(
  model: Model,
  wire: Wire,
  fix: (id: string, a: string, b: string) => unknown,
  tie: (id: string, a: string, b: string, detachment: Detachment) => unknown,
): void {
  const access = wire.access ?? 'open';
  const ends = [
    { point: wire.from, node: `${wire.label}:from` },
    { point: wire.to, node: `${wire.label}:to` },
  ];
  tie(wire.label, ends[0].node, ends[1].node, detachment(wire.label, 'cutting', [wire.label], access));
  for (const { point, node } of ends) {
    const part = model.parts.get(model.graph.points.get(point)?.owner ?? '');
    const holder = part?.kind === 'connector' ? point.slice(0, point.lastIndexOf('/')) : (part?.address ?? OUTSIDE);
    const id = `${wire.label}@${point}`;
    if (part !== undefined && mountOf(part) === 'bolted') {
      tie(id, node, holder, detachment(id, 'spanner', [wire.label], part.access ?? 'open'));
    } else fix(id, node, holder);
  }
}

/** Wires on the two halves of a plug; a lug or cut concerns its own wire. */
function wiresThrough(model: Model, found: Detachment): string[] {
  if (found.by !== 'plug') return found.wires;
  const points = [...model.graph.points.values()].filter((point) => point.owner === found.at);
  return naturalSort(new Set(points.flatMap((point) => model.wiresAt.get(point.id) ?? [])));
}
