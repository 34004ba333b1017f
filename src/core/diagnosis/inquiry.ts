/**
 * One hunt's question in hand: the hypotheses, and what each would show in each state. Remembers what was worked out.
 * It must not hold evidence or probabilities after the prior.
 */
import type { Model } from '../answers/model.js';
import { namedState, resolveState } from '../circuit/resolve-state.js';
import type { ResolvedState } from '../circuit/resolved-state.js';
import type { Change } from '../circuit/solution.js';
import { type Hypothesis, singlesOf, together } from './hypotheses.js';
import type { Prediction } from './prediction.js';
import type { Predictor } from './predictor.js';
import type { StateChoice } from './shapes/check.js';

export class Inquiry {
  private readonly states = new Map<string, ResolvedState>();
  /** The same by the object asked with: its text is long to make. */
  private readonly stateOf = new WeakMap<object, ResolvedState>();
  private readonly views = new Map<ResolvedState, Map<Hypothesis, Prediction>>();
  private readonly neighbourLists: Map<Hypothesis, readonly Hypothesis[]>;
  private widened: { readonly key: string; readonly inquiry: Inquiry } | null = null;

  constructor(
    readonly model: Model,
    readonly predictor: Predictor,
    readonly hypotheses: readonly Hypothesis[],
    /** State of the first complaint: where fuses blew and what a look refers to. */
    readonly mainState: StateChoice,
    /** Function of the first complaint: it tells whether something was cured. Null when no function was complained of. */
    readonly complaintFunction: string | null,
    /** The question that this one only adds hypotheses to, behind its own; null: none. */
    readonly base: Inquiry | null = null,
  ) {
    this.neighbourLists = base?.neighbourLists ?? neighboursOf(hypotheses);
  }

  /** The same question with more hypotheses behind its own; asked twice for the same ones, it is the same object. */
  with(more: readonly Hypothesis[]): Inquiry {
    const key = more.map(({ id }) => id).join('\n');
    if (this.widened?.key === key) return this.widened.inquiry;
    const hypotheses = [...this.hypotheses, ...more];
    const inquiry = new Inquiry(this.model, this.predictor, hypotheses, this.mainState, this.complaintFunction, this);
    this.widened = { key, inquiry };
    return inquiry;
  }

  /** Throws a RangeError for a state that the harness does not have or cannot take. */
  resolve(choice: StateChoice): ResolvedState {
    if (typeof choice === 'string') return this.resolved(choice, choice);
    const known = this.stateOf.get(choice) ?? this.resolved(JSON.stringify(choice), choice);
    this.stateOf.set(choice, known);
    return known;
  }

  private resolved(key: string, choice: StateChoice): ResolvedState {
    const known = this.states.get(key);
    if (known !== undefined) return known;
    const { graph } = this.model;
    const resolution = typeof choice === 'string' ? namedState(graph, choice) : resolveState(graph, choice);
    if (!resolution.ok) throw new RangeError(resolution.issues.map(({ reason }) => reason).join('; '));
    this.states.set(key, resolution.state);
    return resolution.state;
  }

  /** What the harness shows in the state if the hypothesis is true; without a fault that a circuit shows: the healthy harness. */
  view(hypothesis: Hypothesis, choice: StateChoice): Prediction {
    const state = this.resolve(choice);
    let views = this.views.get(state);
    if (views === undefined) {
      views = new Map();
      this.views.set(state, views);
    }
    const known = views.get(hypothesis);
    if (known !== undefined) return known;
    const view = restOf(hypothesis, this.predictor.predict(changesOf(hypothesis), state));
    views.set(hypothesis, view);
    return view;
  }

  healthy(choice: StateChoice): Prediction {
    return this.predictor.predict([], this.resolve(choice));
  }

  /** With something fitted besides: a link, a lamp, a load. */
  viewWith(hypothesis: Hypothesis, choice: StateChoice, extra: readonly Change[]): Prediction {
    return restOf(hypothesis, this.predictor.predict([...changesOf(hypothesis), ...extra], this.resolve(choice)));
  }

  /** The same bad joint one step up and down the grid of ohms; of several faults one at a time, while the rest stays as it is. */
  neighbours(hypothesis: Hypothesis): readonly Hypothesis[] {
    const known = this.neighbourLists.get(hypothesis);
    if (known !== undefined) return known;
    const singles = singlesOf(hypothesis);
    const found =
      singles.length < 2
        ? []
        : singles.flatMap((single, i) => this.neighbours(single).map((near) => together(singles.with(i, near))));
    this.neighbourLists.set(hypothesis, found);
    return found;
  }

  /** Whether one of its bad joints has the most ohms of the grid: a real one may have more. */
  endsGrid(hypothesis: Hypothesis): boolean {
    return singlesOf(hypothesis).some((single) => {
      const near = this.neighbours(single);
      return near.length > 0 && near.every((it) => ohmsOf(it) < ohmsOf(single));
    });
  }
}

function restOf({ restsOtherwise }: Hypothesis, view: Prediction): Prediction {
  return restsOtherwise === true ? (view.otherRest ?? view) : view;
}

export function changesOf({ faults }: Hypothesis): readonly Change[] {
  return faults.length === 1 ? faults[0].changes : faults.flatMap(({ changes }) => changes);
}

function neighboursOf(hypotheses: readonly Hypothesis[]): Map<Hypothesis, readonly Hypothesis[]> {
  const families = new Map<string, Hypothesis[]>();
  for (const hypothesis of hypotheses) {
    const [fault] = hypothesis.faults;
    if (hypothesis.kind !== 'fault' || fault.ohms === null) continue;
    const key = `${fault.element}:${fault.mode}`;
    const family = families.get(key);
    if (family === undefined) families.set(key, [hypothesis]);
    else family.push(hypothesis);
  }
  const neighbours = new Map<Hypothesis, readonly Hypothesis[]>();
  for (const family of families.values()) {
    // Where the circuit can rest in two ways there are two of the same ohms: a step goes to other ohms.
    const grid = [...new Set(family.map(ohmsOf))].sort((a, b) => a - b);
    for (const hypothesis of family) {
      const at = grid.indexOf(ohmsOf(hypothesis));
      const near = [grid[at - 1], grid[at + 1]].flatMap((ohms) => {
        const alike = family.filter((it) => ohmsOf(it) === ohms);
        return alike.find((it) => it.restsOtherwise === hypothesis.restsOtherwise) ?? alike[0] ?? [];
      });
      neighbours.set(hypothesis, near);
    }
  }
  return neighbours;
}

const ohmsOf = ({ faults: [fault] }: Hypothesis): number => fault.ohms ?? 0;
