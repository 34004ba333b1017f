/**
 * Ohms of the bare harness between two terminals of a net, with a band from the spreads of its elements.
 * Nets are trees here (`open-loops`), so the only way is the sum of its elements; it must not add leads or meter.
 */
import type { Element } from '../../graph/element.js';
import { typicalOhms } from '../../graph/law-ohms.js';
import type { Predicted } from '../shapes/common.js';
import type { Net } from './harness-nets.js';

export interface NetReading {
  readonly ohms: Predicted;
  /** Elements that carry the meter's current, from red to black. */
  readonly elements: readonly string[];
}

/** Quantile of the normal distribution for a two-sided 95 % band. */
const Z95 = 1.96;

/** The function reads between two terminals of one net. Throws a RangeError when they are not of one net. */
export function netOhms(nets: readonly Net[]): (red: string, black: string) => NetReading {
  const up = new Map<string, { to: string; by: Element; depth: number }>();
  for (const net of nets) hang(net, up);
  return (red, black) => {
    const way = wayBetween(up, red, black);
    let ohms = 0;
    let variance = 0;
    for (const { law, spread } of way) {
      const own = typicalOhms(law);
      ohms += own;
      variance += (own * (spread?.relative ?? 0)) ** 2;
    }
    const relative = ohms > 0 ? Math.sqrt(variance) / ohms : 0;
    return {
      ohms: {
        nominal: ohms,
        low: ohms * Math.exp(-Z95 * relative),
        high: ohms * Math.exp(Z95 * relative),
        bandBasis: 'adjoint',
      },
      elements: way.map(({ id }) => id),
    };
  };
}

type Up = Map<string, { to: string; by: Element; depth: number }>;

/** Hangs the net on its first terminal: each point knows the element towards it. */
function hang({ terminals, elements }: Net, up: Up): void {
  const at = new Map<string, Element[]>();
  for (const element of elements) {
    for (const end of [element.a, element.b]) {
      const list = at.get(end);
      if (list === undefined) at.set(end, [element]);
      else list.push(element);
    }
  }
  const [root] = terminals;
  const queue = [{ point: root, depth: 0 }];
  const seen = new Set([root]);
  for (const { point, depth } of queue) {
    for (const element of at.get(point) ?? []) {
      const next = element.a === point ? element.b : element.a;
      if (seen.has(next)) continue;
      seen.add(next);
      up.set(next, { to: point, by: element, depth: depth + 1 });
      queue.push({ point: next, depth: depth + 1 });
    }
  }
}

function wayBetween(up: Up, red: string, black: string): Element[] {
  const fromRed: Element[] = [];
  const fromBlack: Element[] = [];
  let [one, other] = [red, black];
  while (one !== other) {
    const [stepOne, stepOther] = [up.get(one), up.get(other)];
    if (stepOne !== undefined && stepOne.depth >= (stepOther?.depth ?? 0)) {
      fromRed.push(stepOne.by);
      one = stepOne.to;
    } else if (stepOther !== undefined) {
      fromBlack.push(stepOther.by);
      other = stepOther.to;
    } else throw new RangeError(`${red} and ${black} are not in one net`);
  }
  return [...fromRed, ...fromBlack.reverse()];
}
