// Draws the placed boxes and lines. A box is a link; a line carries the wire's own label and colours, never its voltage.
// It must not move by itself, nor need dragging: the picture scrolls, buttons zoom.

import type { JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { to } from '../addresses.js';
import { index } from '../state/harness.js';
import { colourShades, colourWords } from '../words/colours.js';
import type { Placed, PlacedEdge, PlacedNode } from './lay-out.js';
import { linesOfNode } from './text-sizes.js';

interface MapPictureProps {
  readonly placed: Placed;
  readonly zoom: number;
  readonly harnessId: string;
}

export function MapPicture({ placed, zoom, harnessId }: MapPictureProps): JSX.Element {
  const frame = useRef<HTMLElement>(null);
  useEffect(() => {
    const element = frame.current;
    const target = placed.nodes.find(({ node }) => node.isTarget);
    if (element === null || target === undefined) return;
    // Starts at the load: that is what was asked about.
    element.scrollLeft = (target.x + target.width / 2) * zoom - element.clientWidth / 2;
    element.scrollTop = (target.y + target.height / 2) * zoom - element.clientHeight / 2;
  }, [placed, zoom]);
  return (
    <section class="map-frame" ref={frame} aria-label="Drawing; it scrolls">
      <svg
        class="map"
        width={placed.width * zoom}
        height={placed.height * zoom}
        viewBox={`0 0 ${placed.width} ${placed.height}`}
      >
        <title>What the question touches</title>
        {placed.edges.map((edge) => (
          <Line key={edge.edge.id} placed={edge} />
        ))}
        {placed.edges.map((edge) => (
          <LineLabel key={edge.edge.id} placed={edge} harnessId={harnessId} />
        ))}
        {placed.nodes.map((node) => (
          <Box key={node.node.address} placed={node} harnessId={harnessId} />
        ))}
      </svg>
    </section>
  );
}

function Line({ placed: { points, edge } }: { placed: PlacedEdge }): JSX.Element {
  const d = points.map(({ x, y }, at) => `${at === 0 ? 'M' : 'L'}${x} ${y}`).join(' ');
  return <path class={`map-line map-${edge.kind}${edge.wire === null ? ' map-joined' : ''}`} d={d} />;
}

function LineLabel({
  placed: { label, edge },
  harnessId,
}: {
  placed: PlacedEdge;
  harnessId: string;
}): JSX.Element | null {
  if (label === null || edge.wire === null) return null;
  const colour = index.value?.wires.get(edge.wire)?.colour;
  const [base, stripe] = colourShades(colour);
  return (
    <a href={to.at(harnessId, 'wire', edge.wire)} aria-label={`Wire ${edge.wire}, ${colourWords(colour)}`}>
      <rect class="map-label" x={label.x} y={label.y} width={label.width} height={24} rx={3} />
      {base !== undefined && (
        <rect class="map-band" x={label.x + 5} y={label.y + 8} width={16} height={8} fill={base} />
      )}
      {stripe !== undefined && <rect x={label.x + 5} y={label.y + 11} width={16} height={2.5} fill={stripe} />}
      <text class="map-wire" x={label.x + 26} y={label.y + 17}>
        {edge.wire}
      </text>
    </a>
  );
}

function Box({
  placed: { node, x, y, width, height },
  harnessId,
}: {
  placed: PlacedNode;
  harnessId: string;
}): JSX.Element {
  const [name, address] = linesOfNode(node.address);
  return (
    <a href={to.at(harnessId, 'part', node.address)}>
      <rect class={node.isTarget ? 'map-box map-target' : 'map-box'} x={x} y={y} width={width} height={height} rx={4} />
      <rect class="map-edge" x={x} y={y} width={6} height={height} />
      <text class="map-address" x={x + 14} y={y + 20}>
        {address}
      </text>
      <text class="map-name" x={x + 14} y={y + 38}>
        {name}
      </text>
    </a>
  );
}
