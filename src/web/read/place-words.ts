// Where a point is and how to know it: the part, its place, the wires on it, the side one looks at.
// It must not invent a view that is not recorded.

import { index } from '../state/harness.js';
import { halfOf, partOfPoint, terminalOf } from '../words/addresses.js';
import { colourWords } from '../words/colours.js';
import { accessWords } from '../words/conditions.js';

export function placeWords(point: string): string {
  const record = index.value;
  const part = record?.parts.get(partOfPoint(point));
  if (record === null || record === undefined || part === undefined) return '';
  const terminal = terminalOf(point);
  const wires = (record.wiresAt.get(point) ?? []).map((wire) => `${colourWords(wire.colour)} (${wire.label})`);
  const half = halfOf(point);
  const words = [
    part.name ?? part.kind,
    ...(half === null || half === 'body' ? [] : [`${half} half`]),
    ...(terminal === null ? [] : [part.kind === 'connector' ? `cavity ${terminal}` : `terminal ${terminal}`]),
    ...(wires.length === 0 ? [] : [`wire ${wires.join(', ')}`]),
    ...(part.location === undefined ? [] : [part.location]),
    ...(part.access === undefined || part.access === 'open' ? [] : [part.panel ?? accessWords(part.access)]),
    ...(part.kind === 'connector'
      ? [part.view === undefined ? 'view not stated' : `cavities counted from the ${part.view} side`]
      : []),
  ];
  return words.join(', ');
}
