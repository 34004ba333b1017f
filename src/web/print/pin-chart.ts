// What one connector's pin chart says, worked out from the record: faces as they are seen, and what sits in each cavity.
// It must not invent rows or a view that the record does not hold.

import type { PartOf, Wire } from '../api/types.js';
import type { RecordIndex } from '../state/record-index.js';

export type Half = 'plug' | 'receptacle';
export type Side = 'wire' | 'mating';

export interface CavityWire {
  readonly wire: Wire;
  /** The point at the other end. */
  readonly to: string;
}

export interface CavityRow {
  readonly cavity: string;
  readonly isSpare: boolean;
  readonly wires: Readonly<Record<Half, readonly CavityWire[]>>;
}

export interface PinChart {
  readonly connector: PartOf<'connector'>;
  readonly rows: readonly CavityRow[];
  /** Rows of the face seen on a half from a side; null where rows or view are not recorded. */
  face(half: Half, side: Side): readonly (readonly (string | null)[])[] | null;
}

export function pinChart(connector: PartOf<'connector'>, index: RecordIndex): PinChart {
  const { cavities, rows: count, view } = connector;
  const names =
    typeof cavities === 'number' ? Array.from({ length: cavities }, (_, at) => String(at + 1)) : [...cavities];
  const spare = new Set(connector.spare ?? []);
  const wiresAt = (half: Half, cavity: string): readonly CavityWire[] => {
    const point = `${connector.address}.${half}/${cavity}`;
    return (index.wiresAt.get(point) ?? []).map((wire) => ({ wire, to: wire.from === point ? wire.to : wire.from }));
  };
  const block = count === undefined ? null : inRows(names, count);
  return {
    connector,
    rows: names.map((cavity) => ({
      cavity,
      isSpare: spare.has(cavity),
      wires: { plug: wiresAt('plug', cavity), receptacle: wiresAt('receptacle', cavity) },
    })),
    face(half, side) {
      if (block === null || view === undefined) return null;
      // The wire side of one half looks the same way as the mating side of the other; the record counts on the plug.
      const isAsCounted = (half === 'plug') === (side === view);
      return isAsCounted ? block : block.map((row) => [...row].reverse());
    },
  };
}

/** Along the rows; the last row is filled up with nothing. */
function inRows(names: readonly string[], count: number): (string | null)[][] {
  const length = Math.ceil(names.length / count);
  return Array.from({ length: count }, (_, row) =>
    Array.from({ length }, (_, at): string | null => names[row * length + at] ?? null),
  );
}
