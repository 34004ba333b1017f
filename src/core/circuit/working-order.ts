/**
 * The order in which points and elements of a harness are numbered: what decides (see observed.ts) first, all else behind, each in the order of the record.
 * It must not change what anything means. Arrays by number then keep what every step reads in one piece: on a large harness the way to memory costs more than the arithmetic.
 */
import type { Element } from '../graph/element.js';
import type { HarnessGraph } from '../graph/harness-graph.js';
import type { CurrentLimits } from './network.js';
import { isWatched, sensedPoints } from './observed.js';

export interface WorkingOrder {
  readonly points: readonly string[];
  readonly elements: readonly Element[];
}

export function workingOrder(graph: HarnessGraph, limits: CurrentLimits): WorkingOrder {
  const points = new Set(sensedPoints(graph));
  const watched: Element[] = [];
  const others: Element[] = [];
  for (const element of graph.elements.values()) {
    if (!isWatched(element) && !limits.has(element.id)) {
      others.push(element);
      continue;
    }
    watched.push(element);
    points.add(element.a).add(element.b);
  }
  const all = [...graph.points.keys()];
  return {
    points: [...all.filter((point) => points.has(point)), ...all.filter((point) => !points.has(point))],
    elements: [...watched, ...others],
  };
}
