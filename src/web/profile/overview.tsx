// The whole profile in one glance, lying down: the way there on the left, the load as a break, the way back on the right.
// It must not be the only place where a step is named; the rows below say it in words.

import type { JSX } from 'preact';
import { findFaultStep, type TakenReadings } from './fault-step.js';
import type { ProfileRow } from './rows.js';
import { profileScales, type Scale } from './scale.js';

interface OverviewProps {
  readonly rows: readonly ProfileRow[];
  readonly taken: TakenReadings;
  readonly zoom: 'close' | 'whole';
}

const width = 600;
const height = 120;
const gap = 26;
const top = 8;

export function Overview({ rows, taken, zoom }: OverviewProps): JSX.Element {
  const scales = profileScales(rows, taken, zoom);
  const fault = findFaultStep(rows, taken);
  const loadAt = rows.findIndex(({ isLoad }) => isLoad);
  const stride = (width - gap) / Math.max(rows.length, 1);
  const left = (at: number): number => at * stride + (loadAt >= 0 && at >= loadAt ? gap : 0);
  const y = (volts: number, at: number): number => top + (1 - share(volts, scaleAt(at))) * (height - 2 * top);
  const scaleAt = (at: number): Scale => (loadAt >= 0 && at >= loadAt ? scales.return : scales.feed);
  const stair = (voltsOf: (row: ProfileRow) => number | null): string => {
    let path = '';
    rows.forEach((row, at) => {
      const volts = voltsOf(row);
      if (volts === null) return;
      const level = y(volts, at).toFixed(1);
      path += path === '' || at === loadAt ? `M${left(at).toFixed(1)} ${level}` : `V${level}`;
      path += `H${(left(at) + stride).toFixed(1)}`;
    });
    return path;
  };
  return (
    <svg
      class="overview"
      viewBox={`0 0 ${width} ${height}`}
      preserveAspectRatio="none"
      role="img"
      aria-label={
        fault === null
          ? `Voltage along ${rows.length} points; no step loses more than it should`
          : `Voltage along ${rows.length} points; volts are lost between ${rows[fault.lastGood].point.point} and ${rows[fault.firstBad].point.point}`
      }
    >
      {fault !== null && (
        <rect
          class="overview-fault"
          x={left(fault.lastGood) + stride * 0.5}
          y="0"
          width={left(fault.firstBad) - left(fault.lastGood)}
          height={height}
        />
      )}
      {loadAt >= 0 && (
        <path
          class="overview-break"
          d={`M${left(loadAt) - gap + 6} ${top} L${left(loadAt) - 6} ${height - top} M${left(loadAt) - gap + 6} ${height - top} L${left(loadAt) - 6} ${top}`}
        />
      )}
      <path class="stair-expected-line overview-line" d={stair(({ point }) => point.volts.nominal)} />
      {rows.map((row, at) => {
        const volts = taken.get(row.point.point);
        if (volts === undefined) return null;
        const x = left(at) + stride / 2;
        return (
          <line
            key={row.point.point}
            class="overview-taken"
            x1={x}
            x2={x}
            y1={y(row.point.volts.nominal ?? volts, at)}
            y2={y(volts, at) + 0.01}
          />
        );
      })}
    </svg>
  );
}

const share = (volts: number, scale: Scale): number =>
  Math.min(1, Math.max(0, (volts - scale.low) / (scale.high - scale.low || 1)));
