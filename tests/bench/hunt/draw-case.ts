// Draws whole cases: what is hidden, in which state it is noticed, and what the person tells of it.
// It must not ask the diagnosis anything; a case exists because the faulty vehicle shows something, settled in full.

import type { Model } from '../../../src/core/answers/model.js';
import type { Symptom } from '../../../src/core/diagnosis/shapes/symptom.js';
import { FaultyVehicle, type HiddenFault, noFault } from '../../support/faulty-vehicle.js';
import { type Random, seededRandom } from '../../support/random.js';
import type { FaultUrn } from './hide-fault.js';

export type CaseKind = 'single' | 'double' | 'beyond' | 'none';

export interface HuntCase {
  readonly kind: CaseKind;
  readonly seed: number;
  readonly state: string;
  readonly hidden: readonly HiddenFault[];
  readonly symptoms: readonly Symptom[];
}

type Seen = 'works' | 'weak' | 'dead' | 'reversed';

/** Other functions that the person tells of beside the complaint. */
const MOST_OTHERS = 2;
const STATES_TRIED = 4;
const DRAWS_TRIED = 60;
/** Of things that come and go, so many are told as if they were always so: one for five told rightly. */
const PLAINLY_TOLD = 1 / 6;
/** A repair is tried so many times, the loom moved in between, before it is called a cure. */
const PROOF_LOOKS = 5;

/** A harness with what is needed to draw cases of it; healthy conditions are settled once. */
export class CaseMaker {
  private readonly healthy = new Map<string, ReadonlyMap<string, Seen>>();
  readonly states: readonly string[];

  constructor(
    readonly model: Model,
    private readonly urn: FaultUrn,
  ) {
    this.states = (model.graph.record.states ?? []).map(({ name }) => name);
    const nominal = new FaultyVehicle(model, [noFault], seededRandom(1), false);
    for (const state of this.states) this.healthy.set(state, nominal.conditions(state));
  }

  /** Null when nothing was drawn that anybody would notice. */
  draw(kind: CaseKind, seed: number): HuntCase | null {
    const random = seededRandom(seed);
    if (kind === 'none') return this.falseAlarm(random, seed);
    for (let draws = 0; draws < DRAWS_TRIED; draws++) {
      const first = kind === 'beyond' ? this.urn.drawBeyond(random) : this.urn.draw(random).hidden;
      const shown = this.whereItShows(first, seed, random);
      if (shown === null) continue;
      if (kind !== 'double') return this.told(kind, seed, shown.state, [first], [shown.changed], random);
      for (let seconds = 0; seconds < DRAWS_TRIED; seconds++) {
        const second = this.urn.draw(random).hidden;
        if (second.repair === first.repair) continue;
        const changed = this.changedBy([second], shown.state, seed);
        if (changed.length === 0) continue;
        return this.told(kind, seed, shown.state, [first, second], [shown.changed, changed], random);
      }
    }
    return null;
  }

  vehicleFor({ hidden, seed, state }: HuntCase): FaultyVehicle {
    const vehicle = new FaultyVehicle(this.model, hidden, seededRandom(seed + 77));
    vehicle.lookState = state;
    return vehicle;
  }

  /** What the person tells of the same functions after a repair: tried several times, as one does when a thing came and went. */
  proofOf(vehicle: FaultyVehicle, { symptoms, state }: HuntCase): { symptoms: Symptom[]; isAsHealthy: boolean } {
    const looks = vehicle.left.some(({ isIntermittent }) => isIntermittent) ? PROOF_LOOKS : 1;
    const seen = Array.from({ length: looks }, () => vehicle.conditions(state));
    const told = symptoms.flatMap((it) => (it.kind === 'function' ? [it.function] : []));
    const healthy = this.healthy.get(state);
    return {
      symptoms: told.map((id): Symptom => {
        const [first, ...more] = seen.map((now) => now.get(id) ?? 'dead');
        return more.every((it) => it === first)
          ? this.reportOf(id, state, first)
          : { kind: 'function', function: id, state, report: 'comes-and-goes' };
      }),
      isAsHealthy: seen.every((now) => told.every((id) => now.get(id) === healthy?.get(id))),
    };
  }

  reportOf(id: string, state: string, seen: Seen): Symptom {
    const report =
      this.healthy.get(state)?.get(id) === 'dead' && seen !== 'dead'
        ? 'stays-on'
        : seen === 'reversed'
          ? 'runs-backwards'
          : seen;
    return { kind: 'function', function: id, state, report };
  }

  private whereItShows(fault: HiddenFault, seed: number, random: Random) {
    const states = [...this.states];
    for (let tried = 0; tried < STATES_TRIED && states.length > 0; tried++) {
      const [state] = states.splice(random.whole(0, states.length - 1), 1);
      const changed = this.changedBy([fault], state, seed);
      if (changed.length > 0) return { state, changed };
    }
    return null;
  }

  /** Functions that behave other than recorded, and other than in this very vehicle without the fault; the fault is there all the time. */
  private changedBy(faults: readonly HiddenFault[], state: string, seed: number): string[] {
    if (faults.every(({ changes }) => changes.length === 0)) return [];
    const steady = faults.map((fault) => ({ ...fault, isIntermittent: false }));
    const now = new FaultyVehicle(this.model, steady, seededRandom(seed + 77)).conditions(state);
    const sound = this.soundly(state, seed);
    const isAlike = (id: string, seen: Seen): boolean =>
      seen === this.healthy.get(state)?.get(id) || seen === sound.get(id);
    return [...now].flatMap(([id, seen]) => (isAlike(id, seen) ? [] : [id]));
  }

  /** Conditions in this very vehicle without any fault: a part at the edge of its tolerance is none. */
  private soundly(state: string, seed: number): ReadonlyMap<string, Seen> {
    return new FaultyVehicle(this.model, [noFault], seededRandom(seed + 77)).conditions(state);
  }

  private told(
    kind: CaseKind,
    seed: number,
    state: string,
    hidden: readonly HiddenFault[],
    changed: readonly (readonly string[])[],
    random: Random,
  ): HuntCase | null {
    const steady = hidden.map((fault) => ({ ...fault, isIntermittent: false }));
    const now = new FaultyVehicle(this.model, steady, seededRandom(seed + 77)).conditions(state);
    const complaints = [...new Set(changed.map((ids) => random.pick(ids)))].filter(
      (id) => now.get(id) !== this.healthy.get(state)?.get(id),
    );
    if (complaints.length === 0) return null;
    const comesAndGoes = hidden.some(({ isIntermittent }) => isIntermittent) && !random.chance(PLAINLY_TOLD);
    // Seen both ways is only what changes with the fault that comes and goes; what another fault holds dead is dead.
    const between = comesAndGoes ? this.between(hidden, state, seed) : now;
    const tell = (id: string): Symptom =>
      now.get(id) === between.get(id)
        ? this.reportOf(id, state, now.get(id) ?? 'dead')
        : { kind: 'function', function: id, state, report: 'comes-and-goes' };
    const told = [...complaints, ...this.others(state, complaints, now, random)];
    return { kind, seed, state, hidden, symptoms: told.map(tell) };
  }

  /** Conditions while what comes and goes is gone. */
  private between(hidden: readonly HiddenFault[], state: string, seed: number): ReadonlyMap<string, Seen> {
    const lasting = hidden.filter(({ isIntermittent }) => !isIntermittent);
    return new FaultyVehicle(this.model, lasting, seededRandom(seed + 77)).conditions(state);
  }

  /** Functions that should run in the state: what still works counts. */
  private others(state: string, told: readonly string[], now: ReadonlyMap<string, Seen>, random: Random): string[] {
    const healthy = this.healthy.get(state);
    const left = [...now.keys()].filter((id) => healthy?.get(id) === 'works' && !told.includes(id));
    const others: string[] = [];
    while (others.length < MOST_OTHERS && left.length > 0)
      others.push(...left.splice(random.whole(0, left.length - 1), 1));
    return others;
  }

  /** Somebody says that a thing is dead or weak, and it works. */
  private falseAlarm(random: Random, seed: number): HuntCase | null {
    for (let tried = 0; tried < DRAWS_TRIED; tried++) {
      const state = random.pick(this.states);
      const sound = this.soundly(state, seed);
      const working = [...(this.healthy.get(state) ?? [])].filter(
        ([id, seen]) => seen === 'works' && sound.get(id) === 'works',
      );
      if (working.length === 0) continue;
      const [id] = random.pick(working);
      const report = random.chance(0.7) ? 'dead' : 'weak';
      return { kind: 'none', seed, state, hidden: [], symptoms: [{ kind: 'function', function: id, state, report }] };
    }
    return null;
  }
}
