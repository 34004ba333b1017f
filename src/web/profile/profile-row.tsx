// One row of the profile: what leads here, the point's address, its expected volts, the reading taken, the picture beside.
// It must not hold more than one thing to tap: the row itself.

import type { JSX } from 'preact';
import { Swatch } from '../parts/swatch.js';
import { Tag } from '../parts/tag.js';
import { index } from '../state/harness.js';
import { voltsText } from '../words/figures.js';
import { type FaultStep, type PlaceInFault, verdictOn } from './fault-step.js';
import { RowPicture } from './row-picture.js';
import { isOverLimit, type ProfileRow } from './rows.js';
import type { Scale } from './scale.js';
import { stepSubject } from './step-subject.js';

interface ProfileRowViewProps {
  readonly row: ProfileRow;
  readonly before: ProfileRow | null;
  readonly isLast: boolean;
  readonly scale: Scale;
  readonly reading: number | null;
  readonly readingBefore: number | null;
  readonly place: PlaceInFault;
  readonly fault: FaultStep | null;
  readonly isSelected: boolean;
  readonly onSelect: () => void;
}

export function ProfileRowView(props: ProfileRowViewProps): JSX.Element {
  const { row, place, fault, reading } = props;
  const verdict = reading === null ? null : verdictOn(row, reading);
  return (
    <li class={`stair-row${place === null ? '' : ` stair-${place}`}`}>
      <button type="button" class="stair-button" aria-pressed={props.isSelected} onClick={props.onSelect}>
        <span class="stair-words">
          <span class="stair-step">{props.before === null ? 'starts here' : <StepWords row={row} />}</span>
          <span class="stair-point">
            <Tag address={row.point.point} />
            <span class="stair-expected">{voltsText(row.point.volts.nominal)}</span>
          </span>
          {reading !== null && (
            <span class="stair-read">
              you read <strong>{voltsText(reading)}</strong>
              {verdict === 'too-low' && ', too low'}
              {verdict === 'too-high' && ', too high'}
              {verdict === 'as-expected' && ', as expected'}
            </span>
          )}
          {place === 'last-good' && <span class="stair-flag flag-good">last good</span>}
          {place === 'first-bad' && fault !== null && (
            <span class="stair-flag flag-bad">
              first bad: {voltsText(fault.lostVolts)} lost before here, {voltsText(fault.expectedVolts)} is healthy
            </span>
          )}
          {isOverLimit(row) && <span class="stair-flag flag-warn">over the usual limit as built</span>}
        </span>
        <span class="stair-picture">
          <RowPicture
            row={row}
            before={props.before}
            isLast={props.isLast}
            scale={props.scale}
            reading={reading}
            readingBefore={props.readingBefore}
            isFirstBad={place === 'first-bad'}
            isInFault={place === 'inside' || place === 'first-bad'}
          />
        </span>
      </button>
    </li>
  );
}

function StepWords({ row }: { row: ProfileRow }): JSX.Element {
  const subject = stepSubject(row.into);
  const wire = index.value?.wires.get(subject.owner);
  const drop = row.isLoad ? null : row.drop?.nominal;
  return (
    <>
      {wire !== undefined && <Swatch colour={wire.colour} />}
      {wire !== undefined && <span class="unseen">wire</span>}
      <span>{wire === undefined ? subject.short : subject.owner}</span>
      {drop !== null && drop !== undefined && <span class="stair-drop">−{voltsText(Math.abs(drop))}</span>}
    </>
  );
}
