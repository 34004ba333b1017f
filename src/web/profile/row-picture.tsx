// The picture of one row: the healthy band, the stair of expected volts, the person's reading, the volts lost.
// It must not rely on colour: band is hatched, expected is a line, a reading a ring, the lost volts a thick bar.

import type { JSX } from 'preact';
import type { ProfileRow } from './rows.js';
import { labelledTicks, type Scale } from './scale.js';

interface RowPictureProps {
  readonly row: ProfileRow;
  readonly before: ProfileRow | null;
  readonly isLast: boolean;
  readonly scale: Scale;
  readonly reading: number | null;
  /** Reading at the last point before this one that has one, where the way between is drawn. */
  readonly readingBefore: number | null;
  readonly isFirstBad: boolean;
  readonly isInFault: boolean;
}

/** The step lies in the upper part of the row, the point in the lower. Percent of the height. */
const stepAt = 30;
const pointAt = 66;
const percent = (share: number): string => `${share}%`;

export function RowPicture(props: RowPictureProps): JSX.Element {
  const { row, before, scale, reading, readingBefore, isFirstBad, isInFault, isLast } = props;
  const here = row.point.volts.nominal;
  const came = before === null || row.isLoad ? null : before.point.volts.nominal;
  return (
    <svg class="stair" aria-hidden="true" focusable="false">
      {labelledTicks(scale).map((tick) => (
        <line
          key={tick}
          class="stair-tick"
          x1={percent(scale.at(tick))}
          x2={percent(scale.at(tick))}
          y1="0"
          y2="100%"
        />
      ))}
      {isInFault && <rect class="stair-fault" x="0" y="0" width="100%" height="100%" />}
      {before !== null && !row.isLoad && <Band row={before} scale={scale} from={0} to={stepAt} />}
      <Band row={row} scale={scale} from={stepAt} to={isLast ? pointAt : 100} />
      {came !== null && <Rise volts={came} scale={scale} from={0} to={stepAt} kind="expected" />}
      {came !== null && here !== null && <Tread from={came} to={here} scale={scale} kind="expected" />}
      {here !== null && <Rise volts={here} scale={scale} from={stepAt} to={isLast ? pointAt : 100} kind="expected" />}
      {here !== null && (
        <circle
          class={row.point.probeable ? 'stair-probe' : 'stair-inner'}
          cx={percent(scale.at(here))}
          cy={percent(pointAt)}
          r="5"
        />
      )}
      {reading !== null && readingBefore !== null && !row.isLoad && (
        <>
          <Rise volts={readingBefore} scale={scale} from={0} to={stepAt} kind="taken" />
          <Tread from={readingBefore} to={reading} scale={scale} kind={isFirstBad ? 'lost' : 'taken'} />
        </>
      )}
      {reading !== null && (
        <>
          <Rise volts={reading} scale={scale} from={stepAt} to={pointAt} kind="taken" />
          <circle class="stair-taken" cx={percent(scale.at(reading))} cy={percent(pointAt)} r="8" />
        </>
      )}
      {reading === null && readingBefore !== null && !row.isLoad && (
        <Rise volts={readingBefore} scale={scale} from={0} to={100} kind="taken" />
      )}
    </svg>
  );
}

function Band({
  row,
  scale,
  from,
  to,
}: {
  row: ProfileRow;
  scale: Scale;
  from: number;
  to: number;
}): JSX.Element | null {
  const { low, high } = row.point.volts;
  if (low === null || high === null) return null;
  const left = scale.at(low);
  const width = Math.max(scale.at(high) - left, 0.8);
  return (
    <rect class="stair-band" x={percent(left)} width={percent(width)} y={percent(from)} height={percent(to - from)} />
  );
}

type LineKind = 'expected' | 'taken' | 'lost';

function Rise(props: { volts: number; scale: Scale; from: number; to: number; kind: LineKind }): JSX.Element {
  const x = percent(props.scale.at(props.volts));
  return <line class={`stair-${props.kind}-line`} x1={x} x2={x} y1={percent(props.from)} y2={percent(props.to)} />;
}

function Tread(props: { from: number; to: number; scale: Scale; kind: LineKind }): JSX.Element {
  const y = percent(stepAt);
  return (
    <line
      class={`stair-${props.kind}-line`}
      x1={percent(props.scale.at(props.from))}
      x2={percent(props.scale.at(props.to))}
      y1={y}
      y2={y}
    />
  );
}
