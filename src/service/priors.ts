// Use cases of the priors of one harness: how often what fails, as the table has it, as somebody set it, as closed hunts taught it.
// It must not hold a rate or a rule of learning; the core's table and arithmetic do.

import { factsOf } from '../core/diagnosis/hunt-log.js';
import { type Learned, learnFrom } from '../core/diagnosis/learned-priors.js';
import { priorTable } from '../core/diagnosis/priors.js';
import { refusal } from './errors.js';
import type { ModelCache } from './model-cache.js';
import type { Clock } from './ports/clock.js';
import type { HuntStore, PriorFactors, StoredHunt, StoredPriors } from './ports/hunt-store.js';

export interface PriorRowPicture {
  readonly row: string;
  /** Relative to the other rows, for the profile of the harness. */
  readonly baseWeight: number;
  readonly source: string;
  /** Set by somebody; 1: as the table has it. */
  readonly setFactor: number;
  readonly events: number;
  readonly expectedEvents: number;
  readonly learnedFactor: number;
  /** What a hunt that begins now weighs this row with. */
  readonly weight: number;
}

export interface PriorsPicture {
  readonly version: number;
  readonly savedAt: string | null;
  readonly profile: 'just-built' | 'in-service';
  readonly learns: boolean;
  /** Closed hunts with a proved repair that count. */
  readonly hunts: number;
  readonly rows: readonly PriorRowPicture[];
}

export interface Priors {
  /** Throws `harness-not-found`. */
  get(harness: string): Promise<PriorsPicture>;
  /** In place of what was set before. Throws also `priors-stale`. */
  put(harness: string, expected: number, learns: boolean, factors: PriorFactors): Promise<PriorsPicture>;
  /** Factors for a hunt that begins now; rows that stay as the table has them are left out. */
  factorsNow(harness: string): Promise<PriorFactors>;
}

export interface PriorsDependencies {
  readonly hunts: HuntStore;
  readonly models: ModelCache;
  readonly clock: Clock;
}

const AS_TABLED: Omit<StoredPriors, 'savedAt'> & { readonly savedAt: null } = {
  version: 1,
  savedAt: null,
  learns: true,
  factors: {},
};

export function createPriors({ hunts, models, clock }: PriorsDependencies): Priors {
  const get = async (harness: string): Promise<PriorsPicture> => {
    const { model } = await models.get(harness);
    const profile = model.graph.record.profile ?? 'in-service';
    const { version, savedAt, learns, factors } = (await hunts.priors(harness)) ?? AS_TABLED;
    const learned = learnFrom(model, profile, learns ? provedRepairs(await hunts.list(harness)) : []);
    const rows = priorTable.map(({ id, justBuilt, inService, source }) =>
      pictured(id, profile === 'just-built' ? justBuilt : inService, source, factors[id] ?? 1, learned),
    );
    return { version, savedAt, profile, learns, hunts: learned.hunts, rows };
  };

  return {
    get,

    async put(harness, expected, learns, factors) {
      await models.get(harness);
      if (!(await hunts.savePriors(harness, expected, { savedAt: clock(), learns, factors }))) {
        const current = (await hunts.priors(harness))?.version ?? AS_TABLED.version;
        throw refusal('priors-stale', { harness, expected, current });
      }
      return get(harness);
    },

    async factorsNow(harness) {
      const { rows } = await get(harness);
      return Object.fromEntries(
        rows
          .map(({ row, setFactor, learnedFactor }): [string, number] => [row, setFactor * learnedFactor])
          .filter(([, factor]) => factor !== 1),
      );
    },
  };
}

function pictured(
  row: string,
  baseWeight: number,
  source: string,
  setFactor: number,
  learned: Learned,
): PriorRowPicture {
  const { events, expected, factor } = learned.rows.get(row) ?? { events: 0, expected: 0, factor: 1 };
  return {
    row,
    baseWeight,
    source,
    setFactor,
    events,
    expectedEvents: expected,
    learnedFactor: factor,
    weight: baseWeight * setFactor * factor,
  };
}

/** What was mended last before the complaint was gone, hunt by hunt. */
function provedRepairs(hunts: readonly StoredHunt[]): string[][] {
  return hunts.flatMap(({ log }) => {
    const { isCured, lastRepair } = factsOf(log.map(({ entry }) => entry));
    return isCured && lastRepair.length > 0 ? [[...lastRepair]] : [];
  });
}
