// What a question touches, as a small graph: parts as boxes, wires as lines between them, in the order the paths run.
// It must not add anything that no path of the answer passes.

import type { FeedStep, Feeds } from '../api/types.js';
import { partOfPoint, terminalOf } from '../words/addresses.js';

export interface DrawnNode {
  readonly address: string;
  /** The load itself, where all paths meet. */
  readonly isTarget: boolean;
}

export interface DrawnEdge {
  readonly id: string;
  readonly from: string;
  readonly to: string;
  /** Label of the wire; null: joined without one (bolted, plugged, clamped to a body). */
  readonly wire: string | null;
  readonly fromTerminal: string | null;
  readonly toTerminal: string | null;
  readonly kind: 'supply' | 'return' | 'control';
}

export interface DrawnGraph {
  readonly nodes: readonly DrawnNode[];
  readonly edges: readonly DrawnEdge[];
}

/** `isWire` tells labels of wires from addresses of parts. */
export function drawnGraph(feeds: Feeds, isWire: (label: string) => boolean): DrawnGraph {
  const nodes = new Map<string, DrawnNode>();
  const edges = new Map<string, DrawnEdge>();
  const target = feeds.function.split(':', 1)[0];
  const addNode = (address: string): void => {
    if (!nodes.has(address)) nodes.set(address, { address, isTarget: address === target });
  };

  const walk = (steps: readonly FeedStep[], kind: DrawnEdge['kind']): void => {
    if (steps.length === 0) return;
    let here = { part: partOfPoint(steps[0].from), terminal: terminalOf(steps[0].from) };
    let wire: string | null = null;
    if (isWire(here.part)) return;
    addNode(here.part);
    for (const step of steps) {
      const next = { part: partOfPoint(step.to), terminal: terminalOf(step.to) };
      if (isWire(next.part)) {
        wire = next.part;
        continue;
      }
      if (next.part !== here.part) {
        addNode(next.part);
        const id = wire ?? `${here.part}-${next.part}`;
        if (!edges.has(id)) {
          edges.set(id, {
            id,
            from: here.part,
            to: next.part,
            wire,
            fromTerminal: here.terminal,
            toTerminal: next.terminal,
            kind,
          });
        }
      }
      here = next;
      wire = null;
    }
  };

  for (const { steps } of feeds.supplies) walk(steps, 'supply');
  addNode(target);
  for (const { steps } of feeds.returns) walk(steps, 'return');
  for (const { paths } of feeds.controls) for (const { steps } of paths) walk(steps, 'control');
  return { nodes: [...nodes.values()], edges: [...edges.values()] };
}
