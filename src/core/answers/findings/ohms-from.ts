/**
 * Least ohms from given points to every other, over the elements that a caller allows. Dijkstra, Numerische Mathematik 1, 1959.
 * It must not stand in for the circuit: parallel ways are not combined, so it errs to the high side.
 */
import type { Element } from '../../graph/element.js';
import { typicalOhms } from '../../graph/law-ohms.js';
import type { Model } from '../model.js';

/** `starts`: point to the ohms already on the way there. Points that cannot be reached are absent. */
export function ohmsFrom(
  model: Model,
  starts: ReadonlyMap<string, number>,
  isWay: (element: Element) => boolean,
): ReadonlyMap<string, number> {
  const { graph } = model.graph;
  const least = new Map<string, number>();
  const queue: [number, string][] = [];
  for (const [point, ohms] of starts) add(queue, [ohms, point]);
  for (let next = take(queue); next !== undefined; next = take(queue)) {
    const [ohms, point] = next;
    if (least.has(point) || !graph.hasNode(point)) continue;
    least.set(point, ohms);
    graph.forEachEdge(point, (_, element) => {
      const other = element.a === point ? element.b : element.a;
      if (!least.has(other) && isWay(element)) add(queue, [ohms + typicalOhms(element.law), other]);
    });
  }
  return least;
}

/** A binary heap by the first of each pair. */
function add(heap: [number, string][], entry: [number, string]): void {
  heap.push(entry);
  for (let i = heap.length - 1; i > 0; ) {
    const parent = (i - 1) >> 1;
    if (heap[parent][0] <= heap[i][0]) return;
    [heap[parent], heap[i]] = [heap[i], heap[parent]];
    i = parent;
  }
}

function take(heap: [number, string][]): [number, string] | undefined {
  const first = heap[0];
  const last = heap.pop();
  if (heap.length === 0 || last === undefined) return first;
  heap[0] = last;
  for (let i = 0; ; ) {
    const left = 2 * i + 1;
    if (left >= heap.length) return first;
    const child = left + 1 < heap.length && heap[left + 1][0] < heap[left][0] ? left + 1 : left;
    if (heap[i][0] <= heap[child][0]) return first;
    [heap[i], heap[child]] = [heap[child], heap[i]];
    i = child;
  }
}
