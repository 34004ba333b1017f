// Leads one case from the complaint to the end: checks, repairs, proofs, wrong repairs charged. Scores what a person would care about.
// It must not help the diagnosis; the truth is used for scoring alone.

import { Hunt, type HuntOptions } from '../../../src/core/diagnosis/hunt.js';
import { SLIP_SHARE } from '../../../src/core/diagnosis/likelihood.js';
import type { Predictor } from '../../../src/core/diagnosis/predictor.js';
import { CHECK_WORDS, type Check, type CheckResult } from '../../../src/core/diagnosis/shapes/check.js';
import type { HuntEntry, ProposedCheck } from '../../../src/core/diagnosis/shapes/hunt.js';
import type { Workings } from '../../../src/core/diagnosis/workings.js';
import type { FaultyVehicle } from '../../support/faulty-vehicle.js';
import { type Random, seededRandom } from '../../support/random.js';
import type { CaseKind, CaseMaker, HuntCase } from './draw-case.js';

export interface CaseResult {
  readonly harness: string;
  readonly kind: CaseKind;
  readonly seed: number;
  /** `right`: every fault mended and proved, or the right thing said where there is none to mend. */
  readonly isRight: boolean;
  /** The last that the hunt named was a part with nothing wrong, and it did not take that back. */
  readonly endsOnHealthyPart: boolean;
  readonly wrongRepairs: number;
  readonly checks: number;
  readonly minutes: number;
  /** The true group fell below one in a thousand, or out of sight, at some step. */
  readonly clearedFalsely: boolean;
  /** Probability of the leading group and whether it was the right one, one step of the case with 85 to 95 %. */
  readonly stated: { readonly probability: number; readonly isRight: boolean } | null;
  readonly brier: number;
  readonly groupSize: number;
  readonly stepMillis: readonly number[];
  readonly ended: string;
  readonly steps: readonly string[];
}

export interface LeadCaseOptions {
  readonly predictor: Predictor;
  readonly chooseBy?: HuntOptions['chooseBy'];
  /** Slips of the operator and places out of reach. */
  readonly withSlips: boolean;
  /** Told of every step. */
  readonly onWorkings?: (workings: Workings) => void;
  /** Told of every check that is about to be answered. */
  readonly onAnswer?: (check: Check, vehicle: FaultyVehicle) => void;
}

const MOST_CHECKS = 40;
/** A case that takes the processor so long counts as not right. */
const MOST_CASE_SECONDS = 30;
const MOST_REPAIRS = 4;
/** What a repair at the wrong place costs, minutes (engineering judgement). */
const WRONG_REPAIR_MINUTES = 15;
/** Ends that send nobody to a part. */
const SAYS_NO_PART: ReadonlySet<string> = new Set(['record-or-unknown', 'nothing-wrong', 'as-designed']);
const CANNOT_REACH_SHARE = 0.02;
const RULED_OUT_BELOW = 0.001;

export function leadCase(harness: string, maker: CaseMaker, given: HuntCase, options: LeadCaseOptions): CaseResult {
  const { predictor, chooseBy, withSlips } = options;
  const vehicle = maker.vehicleFor(given);
  const random = seededRandom(given.seed + 7_777);
  const hunt = new Hunt(
    maker.model,
    {
      profile: 'in-service',
      instruments: { breakOutLeads: true },
      ...(chooseBy === undefined ? {} : { chooseBy }),
    },
    predictor,
  );
  const log: HuntEntry[] = given.symptoms.map((symptom, i) => ({ id: `s${i + 1}`, kind: 'symptom', symptom }));
  const score = new Score(given, vehicle);
  let [checks, minutes, repairs, wrongRepairs, isLastWrong] = [0, 0, 0, 0, false];
  const add = (entry: HuntEntry): void => {
    log.push(entry);
  };
  const finish = (ended: string): CaseResult => ({
    harness,
    kind: given.kind,
    seed: given.seed,
    isRight: isRightEnd(given, ended, vehicle),
    endsOnHealthyPart: isLastWrong && !SAYS_NO_PART.has(ended),
    wrongRepairs,
    checks,
    minutes,
    ...score.result(random),
    ended,
  });
  const begun = process.cpuUsage();
  for (;;) {
    const started = performance.now();
    const { user, system } = process.cpuUsage(begun);
    if (user + system > 1e6 * MOST_CASE_SECONDS) return finish('too slow');
    const { view, workings } = hunt.assess(log);
    score.look(workings, performance.now() - started);
    if (workings !== null) options.onWorkings?.(workings);
    if (view.next !== null) {
      if (checks >= MOST_CHECKS) return finish('too many checks');
      options.onAnswer?.(view.next.check, vehicle);
      const result = answered(vehicle, view.next, withSlips, random);
      const id = `e${log.length}`;
      const place = view.next.red?.point ?? view.next.place?.point ?? null;
      score.note(
        `[${view.next.why.minutes.toFixed(1)}] ${view.next.instruction} => ${result === null ? 'cannot reach' : shown(result)}`,
      );
      if (result === null && place !== null) {
        add({ id, kind: 'cannot-reach', place });
        continue;
      }
      checks += 1;
      minutes += view.next.why.minutes;
      add({ id, kind: 'reading', check: view.next.check, result: result ?? vehicle.answer(view.next.check) });
      continue;
    }
    const verdict = view.verdict?.kind ?? 'nothing said';
    score.note(`${verdict}: ${view.verdict?.sentence ?? ''}`);
    const [group] = workings?.groups ?? [];
    if ((verdict !== 'named' && verdict !== 'group') || group === undefined || workings === null)
      return finish(verdict);
    if (repairs >= MOST_REPAIRS) return finish('too many repairs');
    repairs += 1;
    const keys = group.sites.flatMap(({ repair }) => repair.split(' + '));
    // A wire on a wrong terminal is seen by whoever takes that end in hand to remake it.
    const isMended = vehicle.mend(
      ({ repair, elements }) =>
        keys.includes(repair ?? '') || (repair === null && elements.some((id) => keys.includes(`remake ${id}`))),
    );
    isLastWrong = !isMended;
    if (!isMended) {
      wrongRepairs += 1;
      minutes += WRONG_REPAIR_MINUTES;
    }
    const proof = maker.proofOf(vehicle, given);
    add({ id: `e${log.length}`, kind: 'repair', repairs: keys });
    if (proof.isAsHealthy) return finish('cured');
    add({ id: `e${log.length}`, kind: 'proof', symptoms: proof.symptoms });
  }
}

function isRightEnd({ kind, hidden }: HuntCase, ended: string, vehicle: FaultyVehicle): boolean {
  switch (kind) {
    case 'single':
    case 'double':
      return ended === 'cured' && vehicle.left.length === 0 && hidden.length > 0;
    case 'beyond':
      return ended === 'record-or-unknown' || (ended === 'cured' && vehicle.left.length === 0);
    case 'none':
      return ended === 'nothing-wrong' || ended === 'as-designed';
  }
}

/** What the person hears of the vehicle: the fair answer, a slip, or null for a place out of reach. */
function answered(
  vehicle: FaultyVehicle,
  { check, healthy, place, red }: ProposedCheck,
  withSlips: boolean,
  random: Random,
): CheckResult | null {
  const fair = vehicle.answer(check);
  const [reach, slip, where] = [random.next(), random.next(), random.next()];
  if (!withSlips) return fair;
  if (reach < CANNOT_REACH_SHARE && (red !== null || place !== null)) return null;
  if (slip >= SLIP_SHARE) return fair;
  if (check.kind in CHECK_WORDS) {
    const words: readonly string[] = CHECK_WORDS[check.kind as keyof typeof CHECK_WORDS];
    return { kind: 'word', word: words[Math.floor(where * words.length)] };
  }
  if (check.kind === 'ohms' || check.kind === 'isolation') return { kind: 'number', value: 10 ** (where * 6 - 1) };
  return { kind: 'number', value: where * Math.max(14, 2 * Math.abs(healthy.nominal ?? 0)) };
}

function shown(result: CheckResult): string {
  return result.kind === 'word' ? result.word : result.value === null ? 'OL' : result.value.toFixed(3);
}

/** What is kept of every step, for false clearance and calibration. */
class Score {
  private clearedFalsely = false;
  private readonly inBin: { probability: number; isRight: boolean }[] = [];
  private readonly briers: number[] = [];
  private readonly stepMillis: number[] = [];
  private readonly steps: string[] = [];
  private groupSize = 0;

  constructor(
    private readonly given: HuntCase,
    private readonly vehicle: FaultyVehicle,
  ) {}

  note(text: string): void {
    this.steps.push(text);
  }

  look(workings: Workings | null, millis: number): void {
    this.stepMillis.push(millis);
    if (workings === null) return;
    const { groups } = workings;
    const [top] = groups;
    const truth = new Set(
      this.given.kind === 'none'
        ? ['healthy']
        : this.given.kind === 'beyond'
          ? ['record-wrong', 'unknown']
          : this.vehicle.left.flatMap(({ repair }) => repair ?? []),
    );
    const holds = (group: (typeof groups)[number]): boolean =>
      group.sites.some(({ repair }) => {
        const keys = repair.split(' + ');
        return (
          truth.has(repair) || (keys.length > 1 && keys.length === truth.size && keys.every((it) => truth.has(it)))
        );
      });
    this.groupSize = top.sites.length;
    if (this.given.kind === 'single') {
      const home = groups.find(holds);
      if (home === undefined || home.probability < RULED_OUT_BELOW) this.clearedFalsely = true;
    }
    if (top.probability >= 0.85 && top.probability <= 0.95)
      this.inBin.push({ probability: top.probability, isRight: holds(top) });
    this.briers.push((top.probability - (holds(top) ? 1 : 0)) ** 2);
  }

  result(random: Random) {
    return {
      clearedFalsely: this.clearedFalsely,
      stated: this.inBin.length === 0 ? null : random.pick(this.inBin),
      brier: this.briers.length === 0 ? 0 : random.pick(this.briers),
      groupSize: this.groupSize,
      stepMillis: this.stepMillis,
      steps: this.steps,
    };
  }
}
