// A connector's face as it is seen from one side of one half: cavities in their places, each with its wire.
// It must not leave the side unsaid.

import type { JSX } from 'preact';
import type { Half, PinChart, Side } from './pin-chart.js';

interface ConnectorFaceProps {
  readonly chart: PinChart;
  readonly half: Half;
  readonly side: Side;
}

const cell = { width: 30, height: 26 };
const seen: Readonly<Record<Side, string>> = {
  wire: 'WIRE side: where the wires go in',
  mating: 'MATING side: into the contacts',
};

export function ConnectorFace({ chart, half, side }: ConnectorFaceProps): JSX.Element | null {
  const face = chart.face(half, side);
  if (face === null) return null;
  const columns = Math.max(...face.map((row) => row.length));
  const [width, height] = [columns * cell.width + 4, face.length * cell.height + 4];
  const wires = new Map(chart.rows.map(({ cavity, wires: both }) => [cavity, both[half]]));
  return (
    <figure class="face">
      <figcaption>
        <strong>{half.toUpperCase()}</strong>, {seen[side]}
      </figcaption>
      <svg class="face-picture" viewBox={`0 0 ${width} ${height}`} width={`${width * 0.42}mm`} aria-hidden="true">
        <rect x="1" y="1" width={width - 2} height={height - 2} rx="4" fill="none" stroke="#000" stroke-width="1.6" />
        {face.map((row, y) =>
          row.map((cavity, x) => {
            if (cavity === null) return null;
            const held = wires.get(cavity) ?? [];
            const [left, top] = [2 + x * cell.width, 2 + y * cell.height];
            return (
              <g key={cavity}>
                <rect
                  x={left + 1.5}
                  y={top + 1.5}
                  width={cell.width - 3}
                  height={cell.height - 3}
                  rx="2"
                  fill="#fff"
                  stroke="#000"
                  stroke-width="0.8"
                  stroke-dasharray={held.length === 0 ? '2 2' : undefined}
                />
                <text x={left + cell.width / 2} y={top + 12} text-anchor="middle" class="face-cavity">
                  {cavity}
                </text>
                <text x={left + cell.width / 2} y={top + 21} text-anchor="middle" class="face-wire">
                  {held.length === 0 ? '–' : held.map(({ wire }) => wire.label).join(' ')}
                </text>
              </g>
            );
          }),
        )}
      </svg>
    </figure>
  );
}
