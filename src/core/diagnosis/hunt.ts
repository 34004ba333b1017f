/**
 * A hunt at one moment: the log in, suspects, next check or verdict out. Pure; the same log and record give the same view.
 * It must not keep anything but what can be worked out again.
 */
import type { Model } from '../answers/model.js';
import { type Candidate, candidateOf, candidatesOf } from './candidates.js';
import { type Choice, choose } from './choose.js';
import { doubtfulReadings } from './doubt.js';
import type { TakenReading } from './evidence.js';
import { explainCheck, type Reason } from './explain-check.js';
import { explainSuspect } from './explain-suspects.js';
import { groupsOf } from './groups.js';
import { factsOf, type HuntFacts } from './hunt-log.js';
import { byRest, hypothesesOf, isIntermittent, type PriorOptions } from './hypotheses.js';
import { changesOf, Inquiry } from './inquiry.js';
import type { Instruments } from './instruments.js';
import { minutesNow, type Plan, planOf } from './plan-table.js';
import { createPredictor, type Predictor } from './predictor.js';
import { effectOf, type ReadingEffect } from './reading-effects.js';
import { isComplaint, runsUnbidden, scopeOf } from './scope.js';
import { type Check, checkKey, type StateChoice } from './shapes/check.js';
import type { HuntEntry, HuntView, ProposedCheck } from './shapes/hunt.js';
import type { Symptom } from './shapes/symptom.js';
import { type Posterior, weigh, weighWithPairs } from './suspects.js';
import { symptomLikelihood } from './symptoms.js';
import { verdictOn } from './verdict.js';
import type { Workings } from './workings.js';

export interface HuntOptions extends PriorOptions {
  readonly instruments: Instruments;
  /** Off for benchmarks against the exact plan. */
  readonly useExact?: boolean;
  /** Another way to choose among the candidates of the plan, for comparison; null ends the hunt. Ours when absent. */
  readonly chooseBy?: (plan: Plan, candidates: readonly Candidate[], inquiry: Inquiry) => Choice | null;
}

export interface Assessment {
  readonly view: HuntView;
  /** What the view was made from; null before the first complaint. */
  readonly workings: Workings | null;
}

/** Assessments kept: the log as it is, and as it was an entry ago. */
const RECENT_KEPT = 3;
/** Suspects listed one by one. */
const MOST_SUSPECTS = 12;

/** Asked again and again with a growing log; remembers predictions, never answers. */
export class Hunt {
  private readonly predictor: Predictor;
  private readonly inquiries = new Map<string, Inquiry>();
  private recent: readonly { readonly key: string; readonly assessment: Assessment }[] = [];
  private readonly effects = new Map<string, ReadingEffect>();

  constructor(
    private readonly model: Model,
    private readonly options: HuntOptions,
    predictor?: Predictor,
  ) {
    this.predictor = predictor ?? createPredictor(model);
  }

  /**
   * Throws a RangeError where the log names a function, point or state that the harness lacks, and `HuntStopped` once `isLate`; asked
   * again it goes on from where it was. The same log asked twice is worked out once.
   */
  assess(log: readonly HuntEntry[], isLate: () => boolean = () => false): Assessment {
    const key = JSON.stringify(log);
    const known = this.recent.find((it) => it.key === key);
    if (known !== undefined) return known.assessment;
    this.predictor.isLate = isLate;
    const assessment = this.assessed(log);
    this.recent = [{ key, assessment }, ...this.recent].slice(0, RECENT_KEPT);
    return assessment;
  }

  /** What the reading that ends this log changed; null where it is no reading. */
  effect(log: readonly HuntEntry[]): ReadingEffect | null {
    const last = log[log.length - 1];
    if (last?.kind !== 'reading') return null;
    const key = JSON.stringify(log);
    const known = this.effects.get(key);
    if (known !== undefined) return known;
    const [facts, before] = [factsOf(log), factsOf(log.slice(0, -1))];
    const inquiry = this.inquiryFor(facts);
    if (inquiry === null) return null;
    const effect = effectOf(weigh(inquiry, before), weigh(inquiry, facts));
    this.effects.set(key, effect);
    return effect;
  }

  private assessed(log: readonly HuntEntry[]): Assessment {
    const facts = factsOf(log);
    const inquiry = this.inquiryFor(facts);
    if (inquiry === null) return { view: facts.isCured ? curedView() : emptyView(), workings: null };
    const workings = this.workOut(facts, inquiry);
    return { view: this.viewOf(workings), workings };
  }

  private inquiryFor({ symptoms, told }: HuntFacts): Inquiry | null {
    const complaints = this.unexplained(symptoms.filter(isComplaint));
    if (complaints.length === 0) return null;
    const ever = this.unexplained(told.filter(isComplaint));
    const [first] = complaints;
    const fn = complaints.find((symptom) => symptom.kind === 'function');
    // Another report on the same thing is the same question, unless current then comes from elsewhere.
    const things = new Set(
      [...complaints, ...ever].map((symptom) => JSON.stringify({ ...symptom, report: runsUnbidden(symptom) })),
    );
    const key = JSON.stringify([first.state, fn?.function ?? null, [...things].sort()]);
    const known = this.inquiries.get(key);
    if (known !== undefined) return known;
    const state = new Inquiry(this.model, this.predictor, [], first.state, null).resolve(first.state);
    const scope = scopeOf(this.model, [...complaints, ...ever]);
    const hypotheses = hypothesesOf(this.model, scope, this.options).flatMap((hypothesis) =>
      this.predictor.predict(changesOf(hypothesis), state).otherRest === null ? hypothesis : byRest(hypothesis),
    );
    const inquiry = new Inquiry(
      this.model,
      this.predictor,
      hypotheses,
      first.state,
      fn?.kind === 'function' ? fn.function : null,
    );
    this.inquiries.set(key, inquiry);
    return inquiry;
  }

  /** Dead where it must be dead is no complaint, unless it is the only one. */
  private unexplained(complaints: readonly Symptom[]): readonly Symptom[] {
    const bare = new Inquiry(this.model, this.predictor, [], complaints[0]?.state ?? '', null);
    const left = complaints.filter((symptom) => {
      const healthy = bare.healthy(symptom.state);
      return symptomLikelihood(this.model, symptom, healthy, healthy) < 0.5;
    });
    return left.length > 0 ? left : complaints;
  }

  private workOut(facts: HuntFacts, inquiry: Inquiry): Workings {
    const posterior = weighWithPairs(inquiry, facts);
    const taken = new Set(facts.readings.map(({ check }) => checkKey(check)));
    const { instruments } = this.options;
    const all = candidatesOf(posterior, { instruments, unreachable: facts.unreachable, taken: new Set() });
    const groups = groupsOf(
      posterior,
      all.map(({ check }) => check),
    );
    const candidates = all.filter(({ key }) => !taken.has(key));
    const plan = planOf(posterior, groups, candidates, this.circumstances(facts, inquiry));
    return { facts, posterior, groups, candidates, plan };
  }

  private circumstances(
    { everTaken, lastReading }: HuntFacts,
    inquiry: Inquiry,
  ): { state: StateChoice | null; openPanels: ReadonlySet<string> } {
    const panels = everTaken.flatMap(({ check }) => candidateOf(inquiry, check)?.panels ?? []);
    const last = lastReading?.check;
    return {
      // The complaint was seen in its state: that is how the vehicle stands.
      state: last !== undefined && 'state' in last ? last.state : inquiry.mainState,
      openPanels: new Set(panels),
    };
  }

  private viewOf(workings: Workings): HuntView {
    const { facts, posterior, groups } = workings;
    const doubted = facts.awaitsProof ? [] : doubtfulReadings(posterior, facts.readings);
    const cheapest = doubted
      .map((reading) => ({ reading, candidate: candidateOf(posterior.inquiry, reading.check) }))
      .filter((it): it is { reading: TakenReading; candidate: Candidate } => it.candidate !== null)
      .sort((a, b) => a.candidate.minutes - b.candidate.minutes)[0];
    const choice = cheapest === undefined ? this.nextChoice(workings) : null;
    const next =
      cheapest !== undefined
        ? this.again(workings, cheapest.candidate)
        : choice === null
          ? null
          : this.explained(workings, choice.candidate, choice.choice, choice.reason);
    const verdict = cheapest === undefined ? verdictOn(workings, next !== null) : null;
    const listed = groups.slice(0, MOST_SUSPECTS);
    return {
      status: facts.awaitsProof ? 'awaits-proof' : verdict === null ? 'hunting' : 'ended',
      suspects: listed.map((group) => explainSuspect(posterior, group)),
      others: {
        count: groups.length - listed.length,
        probability: groups.slice(MOST_SUSPECTS).reduce((sum, { probability }) => sum + probability, 0),
      },
      aside: [...posterior.aside],
      next: verdict === null && !facts.awaitsProof ? next : null,
      doubt:
        cheapest === undefined
          ? null
          : {
              entry: cheapest.reading.entry,
              sentence: 'This reading does not go with the others: it is asked again before anything is taken apart.',
            },
      verdict,
    };
  }

  /** First the complaint is confirmed: the cheapest way to find that nothing is wrong. */
  private nextChoice(workings: Workings): { candidate: Candidate; choice: Choice; reason: Reason } | null {
    const { posterior, plan, candidates, facts } = workings;
    const { inquiry } = posterior;
    const confirm = this.confirmation(inquiry);
    if (confirm !== null && facts.everTaken.length === 0 && healthyShare(posterior) > 0.001) {
      const candidate = candidateOf(inquiry, confirm);
      if (candidate !== null) {
        const choice = {
          candidate: -1,
          method: 'gain',
          gainBits: 0,
          minutes: candidate.minutes,
          minutesToEnd: null,
        } as const;
        return {
          candidate,
          choice,
          reason: {
            method: 'confirm',
            sentence: 'See the complaint for yourself first: what is as it should be needs no repair.',
          },
        };
      }
    }
    const { useExact, chooseBy } = this.options;
    const choice =
      chooseBy === undefined
        ? choose(plan, useExact === undefined ? {} : { useExact })
        : chooseBy(plan, candidates, inquiry);
    if (choice === null) return null;
    return { candidate: candidates[choice.candidate], choice, reason: { method: choice.method, sentence: null } };
  }

  private confirmation(inquiry: Inquiry): Check | null {
    return inquiry.complaintFunction === null
      ? null
      : { kind: 'observe', function: inquiry.complaintFunction, state: inquiry.mainState };
  }

  private again(workings: Workings, candidate: Candidate): ProposedCheck {
    const choice: Choice = {
      candidate: -1,
      method: 'gain',
      gainBits: 0,
      minutes: candidate.minutes,
      minutesToEnd: null,
    };
    const sentence = 'It contradicts the other readings; of those in doubt it is the quickest to repeat.';
    return this.explained(workings, candidate, choice, { method: 'doubt', sentence });
  }

  private explained(workings: Workings, candidate: Candidate, choice: Choice, reason: Reason): ProposedCheck {
    const { posterior, groups, facts, plan } = workings;
    const now = this.circumstances(facts, posterior.inquiry);
    if (choice.candidate >= 0) return explainCheck(posterior.inquiry, plan, candidate, choice, reason, now.openPanels);
    // Not one of the candidates: its outcomes are worked out for it alone.
    const own = planOf(posterior, groups, [candidate], now);
    const minutes = minutesNow(own.table, own.table.checks[0], own.start);
    return explainCheck(
      posterior.inquiry,
      own,
      candidate,
      { ...choice, candidate: 0, minutes },
      reason,
      now.openPanels,
    );
  }
}

function healthyShare({ inquiry, probabilities }: Posterior): number {
  return inquiry.hypotheses.reduce(
    (sum, hypothesis, i) => sum + (hypothesis.kind === 'healthy' || isIntermittent(hypothesis) ? probabilities[i] : 0),
    0,
  );
}

function emptyView(): HuntView {
  return {
    status: 'needs-symptom',
    suspects: [],
    others: { count: 0, probability: 0 },
    aside: [],
    next: null,
    doubt: null,
    verdict: null,
  };
}

function curedView(): HuntView {
  return {
    ...emptyView(),
    status: 'ended',
    verdict: {
      kind: 'cured',
      suspects: [],
      sentence: 'The repair is proved: what was complained of works again.',
      repair: null,
      proof: [],
    },
  };
}
