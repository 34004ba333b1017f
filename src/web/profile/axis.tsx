// The volts above one part of the picture; it stays in sight while the rows run under it.
// It must not be read aloud: each row says its own volts.

import type { JSX } from 'preact';
import { labelledTicks, type Scale } from './scale.js';

export function Axis({ scale, words }: { scale: Scale; words: string }): JSX.Element {
  return (
    <div class="stair-axis">
      <h2 class="stair-axis-words">{words}</h2>
      <svg class="stair-axis-volts" aria-hidden="true" focusable="false">
        {labelledTicks(scale).map((tick, at, ticks) => (
          <text
            key={tick}
            x={`${scale.at(tick)}%`}
            y="1.1em"
            text-anchor={at === 0 ? 'start' : at === ticks.length - 1 ? 'end' : 'middle'}
          >
            {tickText(tick, scale)}
            {at === ticks.length - 1 ? ' V' : ''}
          </text>
        ))}
      </svg>
    </div>
  );
}

function tickText(tick: number, { ticks }: Scale): string {
  const step = ticks.length > 1 ? ticks[1] - ticks[0] : 1;
  return tick.toFixed(step >= 1 ? 0 : step >= 0.1 ? 1 : 2);
}
