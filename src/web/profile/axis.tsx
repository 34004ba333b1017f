// The volts above one part of the picture; it stays in sight while the rows run under it.
// It must not be read aloud: each row says its own volts.

import type { JSX } from 'preact';
import { labelledTicks, type Scale } from './scale.js';

export function Axis({ scale, words }: { scale: Scale; words: string }): JSX.Element {
  return (
    <div class="stair-axis">
      <h2 class="stair-axis-words">{words}</h2>
      <svg class="stair-axis-volts" aria-hidden="true" focusable="false">
        {shownLabels(scale).map(([tick, text], at, ticks) => (
          <text
            key={tick}
            x={`${scale.at(tick)}%`}
            y="1.1em"
            text-anchor={at === 0 ? 'start' : at === ticks.length - 1 ? 'end' : 'middle'}
          >
            {text}
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

/** Long figures leave no room for a third one beside the names on a phone. */
function shownLabels(scale: Scale): readonly (readonly [tick: number, text: string])[] {
  const labels = labelledTicks(scale).map((tick): [number, string] => [tick, tickText(tick, scale)]);
  const isCrowded = labels.some(([, text]) => text.length > 3);
  return isCrowded ? labels.filter((_, at) => at === 0 || at === labels.length - 1) : labels;
}
