/**
 * Points that conduct to each other, for thousands of switch settings: what no setting moves is tied once, the rest is walked.
 * It must not know what is closed; who asks says so.
 */
import type { Element } from '../graph/element.js';

/** The points that conduct to where one began. */
export type Reached = Pick<ReadonlySet<string>, 'has'>;

export class Ties {
  /** Point -> one of those that it is tied to whatever the settings are. */
  private readonly tied = new Map<string, string>();
  private readonly neighbours = new Map<string, Element[]>();

  constructor(elements: readonly Element[], moves: (element: Element) => boolean) {
    const moving: Element[] = [];
    for (const element of elements) {
      if (element.law.kind === 'diode' || moves(element)) moving.push(element);
      else this.tied.set(this.at(element.a), this.at(element.b));
    }
    for (const element of moving) {
      for (const end of [this.at(element.a), this.at(element.b)]) {
        const list = this.neighbours.get(end);
        if (list === undefined) this.neighbours.set(end, [element]);
        else list.push(element);
      }
    }
  }

  /** Points tied to the starts; a diode is entered by its end `diodeEnd` only. */
  reach(starts: readonly string[], closed: (element: Element) => boolean, diodeEnd: 'a' | 'b'): Reached {
    const reached = new Set<string>();
    const queue = starts.map((point) => this.at(point));
    for (let point = queue.pop(); point !== undefined; point = queue.pop()) {
      if (reached.has(point)) continue;
      reached.add(point);
      for (const element of this.neighbours.get(point) ?? []) {
        const [a, b] = [this.at(element.a), this.at(element.b)];
        if (element.law.kind === 'diode' && point !== (diodeEnd === 'a' ? a : b)) continue;
        if (closed(element)) queue.push(point === a ? b : a);
      }
    }
    return { has: (point) => reached.has(this.at(point)) };
  }

  /** The point that stands for all those tied to this one. */
  private at(point: string): string {
    let last = point;
    for (let next = this.tied.get(last); next !== undefined && next !== last; next = this.tied.get(last)) last = next;
    if (last !== point) this.tied.set(point, last);
    return last;
  }
}
