/**
 * Predicts what a harness with given changes shows in a state. The one door between diagnosis and the circuit.
 * It must not know symptoms, priors or checks.
 */
import type { Model } from '../answers/model.js';
import { CompactSolution } from '../circuit/compact-solution.js';
import { createProber, type Prober } from '../circuit/prober.js';
import type { ResolvedState } from '../circuit/resolved-state.js';
import { settle } from '../circuit/settle.js';
import { type Change, type Solution, solutionsOf } from '../circuit/solution.js';
import type { Element } from '../graph/element.js';
import { Excitation } from './excitation.js';
import { listsOf, Prediction, restless } from './prediction.js';
import { type ChainPlace, seriesChains } from './series-chains.js';
import { HuntStopped } from './stopped.js';

export interface Predictor {
  /** Asked before each new prediction; true: a `HuntStopped` is thrown, and what is known stays known. */
  isLate: () => boolean;
  predict(changes: readonly Change[], state: ResolvedState): Prediction;
}

/** Remembers every answer in the states asked for last: one predictor per model serves all hunts on it, step after step. */
export function createPredictor(model: Model): Predictor {
  return new SettlingPredictor(model);
}

interface StateMemory {
  readonly healthy: Solution | null;
  readonly compact: CompactSolution | null;
  readonly prober: Prober | null;
  readonly beginsToCharge: (changes: readonly Change[]) => boolean;
  readonly predictions: Map<string, Prediction>;
}

/** A hunt looks at some four states, and at one for each plug that it asks to be pulled. */
const KEPT_STATES = 16;

class SettlingPredictor implements Predictor {
  private readonly chains: ReadonlyMap<string, ChainPlace>;
  /** Closed for some reason that may be of their own doing. */
  private readonly selfHolding: readonly Element[];
  private readonly memories = new Map<string, StateMemory>();
  private latest: { readonly key: string; readonly memory: StateMemory } | null = null;
  /** Elements of alternators and of their way home. */
  private readonly alternators: ReadonlySet<string>;
  private readonly excitation: Excitation;
  isLate: () => boolean = () => false;

  constructor(private readonly model: Model) {
    this.chains = seriesChains(model);
    this.excitation = new Excitation(model);
    this.selfHolding = model.circuit.network.elements.filter(mayHoldItself);
    const turning = model.structure.sources.filter(({ gates }) => gates.some(({ kind }) => kind === 'turning'));
    const own = [...model.graph.elements.values()].filter((it) => turning.some(({ owner }) => owner === it.owner));
    const home = turning.flatMap(({ a, b }) => [...model.structure.waysBetween(a, b).return]);
    this.alternators = new Set([...own.map(({ id }) => id), ...home]);
  }

  predict(changes: readonly Change[], state: ResolvedState): Prediction {
    const memory = this.memoryOf(state);
    const key = JSON.stringify(changes);
    const known = memory.predictions.get(key);
    if (known !== undefined) return known;
    if (this.isLate()) throw new HuntStopped();
    const prediction = this.alongChain(changes, state, memory) ?? this.settled(changes, state, memory);
    memory.predictions.set(key, prediction);
    return prediction;
  }

  private memoryOf(state: ResolvedState): StateMemory {
    const key = keyOf(state);
    if (this.latest?.key === key) return this.latest.memory;
    const memory = this.memories.get(key) ?? this.begun(state);
    // Taken out first: a map keeps the order in which its keys came in, and the state not asked for longest goes.
    this.memories.delete(key);
    this.memories.set(key, memory);
    for (const oldest of this.memories.keys()) if (this.memories.size > KEPT_STATES) this.memories.delete(oldest);
    this.latest = { key, memory };
    return memory;
  }

  private begun(state: ResolvedState): StateMemory {
    const { circuit } = this.model;
    const healthy = solutionsOf(settle(circuit, state))[0] ?? null;
    const prober = healthy === null ? null : createProber(circuit, state, healthy);
    const compact = healthy === null ? null : CompactSolution.of(circuit, healthy, null);
    const whole = healthy === null || compact === null ? restless : new Prediction(compact, listsOf(healthy));
    const beginsToCharge = this.excitation.inState(state);
    return { healthy, compact, prober, beginsToCharge, predictions: new Map([['[]', whole]]) };
  }

  /**
   * The fault is there before the state is set. Followed from the healthy state, which is quick; where a contact stays closed only
   * because it was closed, the state is settled from rest.
   */
  private settled(changes: readonly Change[], state: ResolvedState, memory: StateMemory): Prediction {
    const { prober, healthy, compact } = memory;
    const { circuit } = this.model;
    const predicted = (rest: Solution, other: Prediction | null = null): Prediction =>
      new Prediction(CompactSolution.of(circuit, rest, compact), listsOf(rest), null, other);
    const isFollowed =
      prober !== null && !(state.engineRuns && (this.touchesAlternator(changes) || !memory.beginsToCharge(changes)));
    const probed = isFollowed ? prober.probe(changes) : null;
    // What chatters has no rest to be followed to.
    const followed = probed === null || probed.kind === 'chatter' ? null : (solutionsOf(probed)[0] ?? null);
    const isFirm =
      followed !== null && healthy !== null && !this.selfHolding.some((it) => isHeldUp(it, followed, healthy));
    if (isFirm) return predicted(followed);
    const outcome = settle(circuit, state, { changes });
    const [solution, other] = solutionsOf(outcome);
    if (solution === undefined) return restless;
    const isTwofold = (outcome.kind === 'several-stable' || outcome.kind === 'chatter') && other !== undefined;
    return predicted(solution, isTwofold ? predicted(other) : null);
  }

  /** An alternator that runs goes on by itself; whether it would have begun to charge, with its way home spoilt, shows only from rest. */
  private touchesAlternator(changes: readonly Change[]): boolean {
    return changes.some((change) => change.kind !== 'bridge' && this.alternators.has(change.element));
  }

  /** An open or added ohms in a chain is solved at the chain's first element, then put in its place. Null when it is no such change. */
  private alongChain(changes: readonly Change[], state: ResolvedState, memory: StateMemory): Prediction | null {
    const [change] = changes;
    if (changes.length !== 1 || (change.kind !== 'open' && change.kind !== 'series')) return null;
    const place = this.chains.get(change.element);
    if (place === undefined || place.position === 0 || memory.healthy === null) return null;
    const { elements } = place.chain;
    if (!elements.every(({ id }) => memory.healthy?.conducts(id) === true)) return null;
    const first = this.predict([{ ...change, element: elements[0].id }], state);
    return first.isSettled ? first.shiftedAlong(place, change.kind === 'open') : first;
  }
}

const stateKeys = new WeakMap<ResolvedState, string>();

/** Equal for states that are resolved alike: each hunt resolves its own. */
function keyOf(state: ResolvedState): string {
  const known = stateKeys.get(state);
  if (known !== undefined) return known;
  const key = JSON.stringify(state, (_, value: unknown) =>
    value instanceof Map || value instanceof Set ? [...value] : value,
  );
  stateKeys.set(state, key);
  return key;
}

function mayHoldItself({ coil, gates, law }: Element): boolean {
  return coil !== null || law.kind === 'motor' || gates.some(({ kind }) => kind === 'voltage' || kind === 'turning');
}

/** What an alternator's lamp terminal gives back to the lamp's feed beyond this is what holds that feed up, amps (engineering judgement). */
const BACK_FEED_AMPS = 0.01;

/** A motor that has lost more than this share of its volts and still turns might not have begun to (engineering judgement). */
const TURNS_ON_SHARE = 0.85;

/**
 * As it is only because it was so before: a coil below its pull-in, a sensing contact, an alternator that feeds what excites it, a motor that
 * turns on volts which its stalled winding would have pulled down.
 */
function isHeldUp({ id, a, b, coil, role, gates, law }: Element, solution: Solution, healthy: Solution): boolean {
  if (law.kind === 'motor') {
    const volts = across(solution, a, b);
    return solution.conducts(id) && volts >= law.startVolts && volts < TURNS_ON_SHARE * across(healthy, a, b);
  }
  if (coil !== null && solution.pulledCoils.has(id) && across(solution, a, b) < coil.pullInVolts) return true;
  return gates.some((gate) => {
    if (!solution.conducts(id)) return false;
    if (gate.kind === 'voltage') return across(solution, gate.positive, gate.negative) < gate.closeVolts;
    if (gate.kind !== 'turning' || role === 'source') return false;
    return Math.abs(solution.amps(id) - healthy.amps(id)) > BACK_FEED_AMPS;
  });
}

function across(solution: Solution, a: string, b: string): number {
  return Math.abs(solution.voltsBetween(a, b) ?? 0);
}
