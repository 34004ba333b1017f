// What was understood of an import: how many of what, the first wires in words, so that a person sees whether it is theirs.
// It must not say anything is kept: nothing is, until the person accepts.

import type { JSX } from 'preact';
import type { HarnessRecord } from '../api/types.js';
import { Tag } from '../parts/tag.js';
import { WireWords } from '../parts/wire-words.js';

const shownWires = 6;

export function Understood({ record }: { record: HarnessRecord }): JSX.Element {
  const kinds = new Map<string, number>();
  for (const { kind } of record.parts) kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
  return (
    <section>
      <h2>Understood</h2>
      <p>
        <strong>{record.name}</strong>: {record.parts.length} parts, {record.wires.length} wires
        {record.states === undefined ? '' : `, ${record.states.length} states`}.
      </p>
      <p class="soft">
        {[...kinds]
          .sort(([, a], [, b]) => b - a)
          .map(([kind, count]) => `${count} ${kind.replaceAll('-', ' ')}`)
          .join(', ')}
      </p>
      <ul class="plain-list">
        {record.wires.slice(0, shownWires).map((wire) => (
          <li key={wire.label} class="line">
            <Tag address={wire.label} /> <Tag address={wire.from} /> to <Tag address={wire.to} />
            <WireWords wire={wire} isLong />
          </li>
        ))}
      </ul>
      {record.wires.length > shownWires && <p class="soft">and {record.wires.length - shownWires} more wires</p>}
    </section>
  );
}
