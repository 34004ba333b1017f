/**
 * The branches that carry one consumer's current at an operating point, spelled out as paths with their share.
 * The response to that current alone is what counts, so another consumer's current on a shared wire does not.
 */
import { linearise, type Response } from '../circuit/linearised.js';
import type { Solution } from '../circuit/solution.js';
import type { Element } from '../graph/element.js';

/** One element walked from `from` to `to` along the consumer's current. */
export interface Walked {
  readonly element: Element;
  readonly from: string;
  readonly to: string;
}

export interface SharedPath {
  /** Share of the consumer's current, 0..1. */
  readonly share: number;
  readonly steps: readonly Walked[];
}

export interface CircuitPaths {
  /** From the source's positive side to the feed point. */
  readonly supplies: readonly SharedPath[];
  /** From the return point to the source's negative side. */
  readonly returns: readonly SharedPath[];
  /** Paths that exist beyond those spelled out. */
  readonly more: number;
}

/** Paths below this share are other consumers' conductances answering, not feeds. */
const LEAST_SHARE = 0.01;
const MOST_PATHS = 5;

/**
 * Sends one ampere through the consumer in place of its own branch, all sources silent, and splits the flow into paths.
 * Each path passes a source; the part before it is a return, the part from it on a supply.
 */
export function circuitPaths(
  solution: Solution,
  consumer: { element: string; feed: string; return: string },
): CircuitPaths {
  const flow = linearise(solution, [consumer.element]).inject([
    { point: consumer.return, amps: 1 },
    { point: consumer.feed, amps: -1 },
  ]);
  const found = decompose(flow, consumer.return, consumer.feed);
  const supplies = new Map<string, SharedPath>();
  const returns = new Map<string, SharedPath>();
  for (const { share, steps } of found.paths) {
    const source = steps.findIndex((step) => step.element.role === 'source');
    if (source === -1) continue;
    addShare(returns, steps.slice(0, source), share);
    addShare(supplies, steps.slice(source), share);
  }
  return { supplies: largestFirst(supplies), returns: largestFirst(returns), more: found.more };
}

function addShare(paths: Map<string, SharedPath>, steps: readonly Walked[], share: number): void {
  const key = steps.map((step) => step.element.id).join('\n');
  paths.set(key, { share: (paths.get(key)?.share ?? 0) + share, steps });
}

function largestFirst(paths: ReadonlyMap<string, SharedPath>): SharedPath[] {
  return [...paths.values()].sort((one, other) => other.share - one.share);
}

interface Arc {
  readonly element: Element;
  readonly to: string;
  left: number;
}

/** Peels off the widest-first path again and again (flow decomposition); a flow without sources has no cycles. */
function decompose(flow: Response, start: string, end: string): { paths: SharedPath[]; more: number } {
  const arcs = new Map<string, Arc[]>();
  for (const { element, amps } of flow.branches()) {
    if (Math.abs(amps) < LEAST_SHARE / 2) continue;
    const [from, to] = amps > 0 ? [element.a, element.b] : [element.b, element.a];
    const leaving = arcs.get(from) ?? [];
    leaving.push({ element, to, left: Math.abs(amps) });
    arcs.set(from, leaving);
  }
  const paths: SharedPath[] = [];
  let more = 0;
  for (;;) {
    const path = widestFirst(arcs, start, end);
    if (path === null) return { paths, more };
    const share = Math.min(...path.map(({ arc }) => arc.left));
    for (const { arc } of path) arc.left -= share;
    if (share < LEAST_SHARE) continue;
    if (paths.length < MOST_PATHS)
      paths.push({ share, steps: path.map(({ from, arc }) => ({ element: arc.element, from, to: arc.to })) });
    else more += 1;
  }
}

function widestFirst(
  arcs: ReadonlyMap<string, Arc[]>,
  start: string,
  end: string,
): { from: string; arc: Arc }[] | null {
  const path: { from: string; arc: Arc }[] = [];
  const visited = new Set([start]);
  let at = start;
  while (at !== end) {
    const leaving = (arcs.get(at) ?? []).filter((arc) => arc.left > LEAST_SHARE / 2 && !visited.has(arc.to));
    if (leaving.length === 0) return null;
    const arc = leaving.reduce((best, next) => (next.left > best.left ? next : best));
    path.push({ from: at, arc });
    visited.add(arc.to);
    at = arc.to;
  }
  return path;
}
