// One vehicle on the start page: its name, what it is, its newest revision, and the hunts that are still open.
// It must not move its neighbours when the hunts come in, nor show a link without a name until then.

import type { JSX } from 'preact';
import { to } from '../addresses.js';
import { listHunts } from '../api/client.js';
import type { HarnessHead, HuntHead } from '../api/types.js';
import { useAnswer } from '../state/use-answer.js';
import { dayText } from '../words/days.js';

export function VehicleCard({ head }: { head: HarnessHead }): JSX.Element {
  const { value } = useAnswer(head.id, (signal) => listHunts(head.id, { signal }));
  const open = value?.hunts.filter(({ phase }) => phase !== 'closed') ?? [];
  return (
    <div class="vehicle">
      <a class="vehicle-open" href={to.home(head.id)}>
        <span class="vehicle-name">{head.name}</span>
        {head.vehicle !== null && <span class="vehicle-what">{head.vehicle}</span>}
        <span class="vehicle-facts">
          {head.parts} parts, {head.wires} wires, revision {head.revision} of {dayText(head.updatedAt)}
          {head.invented && <strong class="stamp">invented, for trying out</strong>}
        </span>
      </a>
      {open.length === 1 ? (
        <a class="vehicle-hunt" href={to.at(head.id, 'hunt', open[0].id)}>
          Go on with the hunt: <strong>{briefly(open[0])}</strong>
        </a>
      ) : (
        <a class="vehicle-hunt" href={to.page(head.id, 'hunts')}>
          {open.length > 0 ? (
            <strong>{open.length} open hunts</strong>
          ) : value === null ? (
            'Its hunts'
          ) : (
            'Something is wrong with it'
          )}
        </a>
      )}
    </div>
  );
}

/** The record with its names is not read yet: the address on the label has to do. */
const briefly = ({ complaint, symptom }: HuntHead): string =>
  symptom?.kind === 'function' ? `${symptom.function} ${symptom.report.replaceAll('-', ' ')}` : complaint;
