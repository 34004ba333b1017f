// Draws what is really wrong: faults by their prior with figures that the catalogue does not have, and things beyond the catalogue.
// It must not look at predictions; how often what fails is all that it shares with the diagnosis.

import type { Model } from '../../../src/core/answers/model.js';
import type { Change } from '../../../src/core/circuit/solution.js';
import { faultCatalogue } from '../../../src/core/diagnosis/catalogue.js';
import type { Fault } from '../../../src/core/diagnosis/fault.js';
import type { Element } from '../../../src/core/graph/element.js';
import type { HiddenFault } from '../../support/faulty-vehicle.js';
import type { Random } from '../../support/random.js';

/** Draws single faults of one harness by weight. */
export class FaultUrn {
  private readonly faults: readonly Fault[];
  private readonly sums: number[] = [];

  constructor(private readonly model: Model) {
    this.faults = faultCatalogue(model, { profile: 'in-service' });
    let sum = 0;
    for (const { weight } of this.faults) {
      sum += weight;
      this.sums.push(sum);
    }
  }

  draw(random: Random): { fault: Fault; hidden: HiddenFault } {
    const mark = random.next() * this.sums[this.sums.length - 1];
    const fault =
      this.faults[
        Math.max(
          0,
          this.sums.findIndex((sum) => sum > mark),
        )
      ];
    return { fault, hidden: hide(fault, random) };
  }

  /** Something that no entry of the catalogue describes: a wire on a wrong terminal, two exchanged, a link that nobody drew. */
  drawBeyond(random: Random): HiddenFault {
    const ends = [...this.model.graph.elements.values()].filter(
      ({ role, a, b }) => role === 'termination' && a.includes(':') !== b.includes(':'),
    );
    const bare = { curedBy: null, fuseLook: null, isIntermittent: false, repair: null } as const;
    const kind = random.whole(0, 2);
    if (kind === 2) {
      const [from, to] = [outerEnd(random.pick(ends)), outerEnd(random.pick(ends))];
      const change: Change = { kind: 'bridge', from, to, ohms: random.logarithmic(0.02, 20) };
      return { ...bare, changes: from === to ? [] : [change], elements: [] };
    }
    const one = random.pick(ends);
    const owner = this.model.graph.points.get(outerEnd(one))?.owner;
    const others = ends.filter((it) => {
      const at = this.model.graph.points.get(outerEnd(it));
      return at?.owner === owner && outerEnd(it) !== outerEnd(one) && !isNextTo(outerEnd(it), outerEnd(one));
    });
    if (others.length === 0) return this.drawBeyond(random);
    const other = random.pick(others);
    const changes = [moved(one, outerEnd(other)), ...(kind === 0 ? [] : [moved(other, outerEnd(one))])];
    return { ...bare, changes, elements: [one.id, other.id] };
  }
}

function moved({ id, a, b }: Element, to: string): Change {
  return { kind: 'moved', element: id, end: outerEnd({ a, b }) === a ? 'a' : 'b', to };
}

/** The end of a termination that is a terminal, cavity, splice or stud, not one inside the wire or a double crimp. */
function outerEnd({ a, b }: Pick<Element, 'a' | 'b'>): string {
  return a.includes(':') ? b : a;
}

/** Cavities side by side are the catalogue's own swaps. */
function isNextTo(one: string, other: string): boolean {
  const number = (point: string): number => Number(point.slice(point.lastIndexOf('/') + 1));
  return Math.abs(number(one) - number(other)) <= 1;
}

/** The fault with figures of its own, within what its kind does. */
function hide(fault: Fault, random: Random): HiddenFault {
  const { mode, owner, repair } = fault;
  const cures = repair === `replace ${owner}` || repair === `fuse ${owner}`;
  const look = mode === 'missing' ? 'missing' : mode === 'wrong-rating' ? 'wrong-rating' : 'blown';
  return {
    changes: fault.changes.map((change) => altered(change, random)),
    elements: fault.element === null ? [] : [fault.element],
    curedBy: cures ? owner : null,
    fuseLook: repair === `fuse ${owner}` ? { fuse: owner, word: look } : null,
    isIntermittent: mode === 'intermittent',
    repair,
  };
}

function altered(change: Change, random: Random): Change {
  switch (change.kind) {
    case 'series':
      // Between the points of the catalogue's grid, which lie a factor of four apart.
      return { ...change, ohms: change.ohms * random.logarithmic(0.5, 2) };
    case 'bridge':
      return { ...change, ohms: change.ohms * random.logarithmic(0.25, 4) };
    case 'law':
      if (change.law.kind === 'battery') {
        const law = { ...change.law, volts: change.law.volts * random.between(0.97, 1.03) };
        return { ...change, law: { ...law, dischargeOhms: law.dischargeOhms * random.logarithmic(0.6, 1.6) } };
      }
      return change.law.kind === 'ohmic'
        ? { ...change, law: { kind: 'ohmic', ohms: change.law.ohms * random.logarithmic(0.25, 4) } }
        : change;
    case 'open':
    case 'stuck':
    case 'moved':
      return change;
  }
}
