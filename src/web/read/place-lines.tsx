// Where a point is and how to know it, a line each: the part, the wire by its colour, the place, the side one looks at.
// It must not invent a view that is not recorded.

import type { JSX } from 'preact';
import { Tag } from '../parts/tag.js';
import { WireWords } from '../parts/wire-words.js';
import { index } from '../state/harness.js';
import { halfOf, partOfPoint, terminalOf } from '../words/addresses.js';
import { accessWords } from '../words/conditions.js';

const mostWires = 3;

export function PlaceLines({ point }: { point: string }): JSX.Element | null {
  const record = index.value;
  const part = record?.parts.get(partOfPoint(point));
  if (record === null || record === undefined || part === undefined) return null;
  const half = halfOf(point);
  const terminal = terminalOf(point);
  const wires = record.wiresAt.get(point) ?? [];
  const what = [
    part.name ?? part.kind,
    ...(half === null || half === 'body' ? [] : [`${half} half`]),
    ...(terminal === null ? [] : [part.kind === 'connector' ? `cavity ${terminal}` : `terminal ${terminal}`]),
  ];
  const where = [
    ...(part.location === undefined ? [] : [part.location]),
    ...(part.access === undefined || part.access === 'open'
      ? []
      : [`behind ${part.panel ?? accessWords(part.access)}`]),
  ];
  return (
    <span class="lead-place">
      <span>{what.join(', ')}</span>
      {wires.slice(0, mostWires).map((wire) => (
        <span key={wire.label} class="lead-wire">
          <WireWords wire={wire} /> <Tag address={wire.label} />
        </span>
      ))}
      {wires.length > mostWires && <span class="soft">and {wires.length - mostWires} more wires</span>}
      <span class="soft">
        {where.join(', ')}
        {part.kind === 'connector' &&
          (part.view === undefined
            ? '; from which side its cavities are counted is not recorded'
            : `; cavities as seen from the ${part.view === 'wire' ? 'wire' : 'mating'} side`)}
      </span>
    </span>
  );
}
