/**
 * Checks of what is joined to what: returns, feeds, half-filled connectors, doubled cavities, parts that nothing reaches.
 * It must not need a solution.
 */
import { naturalSort } from '../../graph/natural-compare.js';
import { harnessPointAddress } from '../../record/points.js';
import { terminalsOf } from '../../record/terminals.js';
import { describePart } from '../describe.js';
import type { Check } from './check.js';

export const loadWithoutReturn: Check = {
  code: 'load-without-return',
  severity: 'fault',
  remedy: 'Record or fit the missing wire from the return to ground.',
  *find({ model }) {
    const { minusRail, between } = model.structure;
    for (const fn of model.graph.functions.values()) {
      // most returns lie on the rail: asked first, since ways take longer to find
      if (minusRail.has(fn.return) || between(fn.feed, fn.return).return.size > 0) continue;
      yield {
        at: [fn.id],
        points: [fn.return],
        text: `${describePart(model, fn.part)}, ${fn.name}: nothing leads from ${fn.return} back to the source.`,
      };
    }
  },
};

export const loadWithoutFeed: Check = {
  code: 'load-without-feed',
  severity: 'fault',
  remedy: 'Record or fit the missing wire from a fuse, switch or relay to the feed.',
  *find({ model }) {
    for (const fn of model.graph.functions.values()) {
      const { feed } = model.structure.between(fn.feed, fn.return);
      if (feed.size > 0 || model.structure.plusRail.has(fn.feed) || isOnSmallSource(model.parts.get(fn.part)?.kind))
        continue;
      yield {
        at: [fn.id],
        points: [fn.feed],
        text: `${describePart(model, fn.part)}, ${fn.name}: nothing leads from a source to ${fn.feed}.`,
      };
    }
  },
};

const isOnSmallSource = (kind: string | undefined): boolean => kind === 'potentiometer' || kind === 'thermistor';

export const halfFilledMate: Check = {
  code: 'half-filled-mate',
  severity: 'warning',
  remedy: 'Fill the other half, take the wire out, or record the cavity as spare.',
  *find({ model }) {
    for (const part of model.graph.record.parts) {
      if (part.kind !== 'connector') continue;
      const spare = new Set(part.spare ?? []);
      const bridged = (half: 'plug' | 'receptacle', cavity: string): boolean =>
        (part.bridges ?? []).some((bridge) => bridge.half === half && bridge.cavities.includes(cavity));
      for (const cavity of terminalsOf(part)) {
        if (spare.has(cavity)) continue;
        const filled = (['plug', 'receptacle'] as const).filter(
          (half) => model.wiresAt.has(`${part.address}.${half}/${cavity}`) || bridged(half, cavity),
        );
        if (filled.length !== 1) continue;
        const other = filled[0] === 'plug' ? 'receptacle' : 'plug';
        yield {
          at: [`${part.address}.${other}/${cavity}`],
          points: [`${part.address}.${filled[0]}/${cavity}`, `${part.address}.${other}/${cavity}`],
          text: `Cavity ${cavity} of ${describePart(model, part.address)} has a wire in the ${filled[0]} and none in the ${other}.`,
        };
      }
    }
  },
};

export const cavityUsedTwice: Check = {
  code: 'cavity-used-twice',
  severity: 'fault',
  remedy: 'Record the double crimp, or give each wire a terminal of its own (a splice, a bar).',
  *find({ model }) {
    const shared = new Map((model.graph.record.doubleCrimps ?? []).map(({ point, wires }) => [point, new Set(wires)]));
    for (const [id, labels] of model.wiresAt) {
      const point = model.graph.points.get(id);
      if (labels.length < 2 || (point?.role !== 'cavity' && point?.role !== 'terminal')) continue;
      const kind = model.parts.get(point.owner)?.kind;
      const isBolted = kind === 'busbar' || kind === 'ground-block' || kind === 'battery' || kind === 'jump-posts';
      if (isBolted || labels.every((label) => shared.get(id)?.has(label) === true)) continue;
      yield {
        at: [id],
        points: [id],
        text: `${labels.length} wires end in ${id} (${naturalSort(labels).join(', ')}), and no double crimp is recorded there.`,
      };
    }
  },
};

/** Parts that have no wires of their own by nature. */
const WIRELESS: ReadonlySet<string> = new Set(['body', 'strap', 'tie']);

export const unreachedPart: Check = {
  code: 'part-not-reached',
  severity: 'warning',
  remedy: 'Wire the part, or take it out of the record.',
  *find({ model }) {
    for (const part of model.graph.record.parts) {
      if (WIRELESS.has(part.kind)) continue;
      const ends =
        part.kind === 'connector'
          ? terminalsOf(part).flatMap((cavity) => [
              `${part.address}.plug/${cavity}`,
              `${part.address}.receptacle/${cavity}`,
            ])
          : [part.address, ...terminalsOf(part).map((terminal) => harnessPointAddress(part, terminal))];
      if (ends.some((end) => model.wiresAt.has(end))) continue;
      yield {
        at: [part.address],
        points: [part.address],
        text: `No wire ends on ${describePart(model, part.address)}.`,
      };
    }
  },
};
