// Labels for both ends of every wire: where this end goes, the wire, its circuit, where the other end is. To cut and wrap.
// It must not print a label for one end only.

import type { JSX } from 'preact';
import type { Revision, Wire } from '../api/types.js';
import type { RecordIndex } from '../state/record-index.js';
import { compareAddresses } from '../words/addresses.js';
import { RunningHead } from './running-head.js';

/** Three columns of twelve labels fit a sheet of A4, also under a long head. */
const perSheet = 36;

export function WireLabelsSheet({ revision, index }: { revision: Revision; index: RecordIndex }): JSX.Element {
  const wires = [...index.record.wires].sort((a, b) => compareAddresses(a.label, b.label));
  const ends = wires.flatMap((wire) => [
    { wire, here: wire.from, there: wire.to },
    { wire, here: wire.to, there: wire.from },
  ]);
  const sheets = Array.from({ length: Math.ceil(ends.length / perSheet) }, (_, at) =>
    ends.slice(at * perSheet, (at + 1) * perSheet),
  );
  return (
    <>
      {sheets.map((labels, at) => (
        <article key={labels[0].wire.label} class="paper">
          <RunningHead
            revision={revision}
            title={`Wire labels ${labels[0].wire.label} to ${labels[labels.length - 1].wire.label}`}
            sheet={`${at + 1} of ${sheets.length}`}
          />
          <p>
            Two labels per wire, one for each end. Cut along the broken lines; wrap with the big address outwards, a
            hand’s width from the terminal, so that the next crimp does not cut it off.
          </p>
          <div class="labels">
            {labels.map(({ wire, here, there }) => (
              <Label key={`${wire.label} ${here}`} wire={wire} here={here} there={there} />
            ))}
          </div>
        </article>
      ))}
    </>
  );
}

function Label({ wire, here, there }: { wire: Wire; here: string; there: string }): JSX.Element {
  return (
    <div class="label">
      <p class="label-here">{here}</p>
      <p>
        <strong class="paper-mono">{wire.label}</strong> {[wire.colour, wire.size].filter(Boolean).join(' ')}
      </p>
      <p class="label-circuit">{wire.circuit ?? ''}</p>
      <p class="label-there">→ {there}</p>
    </div>
  );
}
