// A vehicle with a hidden fault and parts that scatter as real ones do: answers checks as a person with a meter would.
// It must not use anything of the diagnosis but the shapes of checks and results; every answer is settled anew, meter included.

import { conditionOf } from '../../src/core/answers/condition.js';
import type { Model } from '../../src/core/answers/model.js';
import { type Circuit, compileCircuit } from '../../src/core/circuit/compile.js';
import { linearise } from '../../src/core/circuit/linearised.js';
import { namedState, resolveState } from '../../src/core/circuit/resolve-state.js';
import type { ResolvedState } from '../../src/core/circuit/resolved-state.js';
import { settle } from '../../src/core/circuit/settle.js';
import { type Change, type Solution, solutionsOf } from '../../src/core/circuit/solution.js';
import type { Check, CheckOf, CheckResult, StateChoice } from '../../src/core/diagnosis/shapes/check.js';
import type { Law, LoadFunction } from '../../src/core/graph/element.js';
import {
  inspectWord,
  lampOhms,
  lampWord,
  METER_OHMS,
  type SeenCondition,
  shownOhms,
  shownVolts,
  wiggleWord,
} from './person-with-meter.js';
import type { Random } from './random.js';

/** What is really wrong. `owner` and `cure` say which part a good spare would cure. */
export interface HiddenFault {
  readonly changes: readonly Change[];
  readonly elements: readonly string[];
  /** Part whose replacement cures it; null: none. */
  readonly curedBy: string | null;
  /** What a look at this fuse shows beside a fuse that the circuit itself blows. */
  readonly fuseLook: { readonly fuse: string; readonly word: 'blown' | 'missing' | 'wrong-rating' } | null;
  /** Comes and goes: there in half of the looks. */
  readonly isIntermittent: boolean;
  /** What mends it, in the words of the catalogue, for whoever scores a hunt; null: nothing that the catalogue knows. */
  readonly repair?: string | null;
}

export const noFault: HiddenFault = { changes: [], elements: [], curedBy: null, fuseLook: null, isIntermittent: false };

export class FaultyVehicle {
  private readonly circuit: Circuit;
  private readonly states = new Map<string, ResolvedState>();
  /** What each element's main figure is over the recorded one. */
  readonly factors: ReadonlyMap<string, number>;

  constructor(
    private readonly model: Model,
    private faults: readonly HiddenFault[],
    private readonly random: Random,
    /** False: every part exactly as recorded. */
    isScattered = true,
  ) {
    this.factors = isScattered ? drawnFactors(model, random) : new Map();
    const elements = new Map(
      [...model.graph.elements].map(([id, element]) => {
        const factor = this.factors.get(id);
        return [id, factor === undefined ? element : { ...element, law: scaled(element.law, factor) }];
      }),
    );
    this.circuit = compileCircuit({ ...model.graph, elements });
  }

  /** Mends every fault that touches one of these elements or parts; true when there was one. */
  mend(isMended: (fault: HiddenFault) => boolean): boolean {
    const left = this.faults.filter((fault) => !isMended(fault));
    const mended = left.length < this.faults.length;
    this.faults = left;
    return mended;
  }

  condition(fn: string, choice: StateChoice): SeenCondition {
    return this.conditionWith(fn, choice, this.changesNow());
  }

  /** Faults that are still there. */
  get left(): readonly HiddenFault[] {
    return this.faults;
  }

  /** Conditions of all functions from one settling. */
  conditions(choice: StateChoice): Map<string, SeenCondition> {
    const solution = this.solve(choice, this.changesNow());
    return new Map([...this.model.graph.functions.values()].map((fn) => [fn.id, seen(fn, solution)]));
  }

  /** How it stands with the faults that are there: volts against the reference, null where a point floats, and what is pulled in or charges. */
  stand(choice: StateChoice): { guess(point: string): number | null; readonly held: ReadonlySet<string> } {
    const solution = this.solve(choice, this.changesNow());
    const held = this.model.graph.record.parts.filter(
      ({ address, kind }) =>
        solution?.pulledCoils.has(`${address}:coil`) === true ||
        (kind === 'split-charge-relay' && solution?.conducts(`${address}:contact`) === true) ||
        (kind === 'alternator' && solution?.conducts(`${address}:output`) === true),
    );
    return {
      guess: (point) => solution?.volts(point) ?? null,
      held: new Set(held.map(({ address }) => address)),
    };
  }

  blown(choice: StateChoice): string[] {
    return (this.solve(choice, this.changesNow())?.blown ?? []).map(({ element }) => this.ownerOf(element));
  }

  /** A fair answer: accuracy of the meter, no slip. */
  answer(check: Check): CheckResult {
    switch (check.kind) {
      case 'observe':
        return word(this.condition(check.function, check.state));
      case 'volts':
        return number(shownVolts(this.volts(check), this.random));
      case 'lamp': {
        const rated = this.model.graph.record.systemVolts ?? 12;
        const lamp: Change = { kind: 'bridge', from: check.red, to: check.black, ohms: lampOhms(rated) };
        const solution = this.solve(check.state, [...this.changesNow(), lamp]);
        return word(lampWord(solution?.voltsBetween(check.red, check.black) ?? 0, rated));
      }
      case 'clamp':
        return number(this.solve(check.state, this.changesNow())?.amps(check.wire) ?? 0);
      case 'ohms':
        return number(shownOhms(this.ohms(check.red, check.black, check.elements), this.random));
      case 'isolation':
        return number(shownOhms(this.ohms(check.point, check.body, check.elements), this.random));
      case 'look': {
        const own = this.faults.find(({ fuseLook }) => fuseLook?.fuse === check.fuse)?.fuseLook;
        if (own !== undefined && own !== null) return word(own.word);
        return word(this.lookState !== null && this.blown(this.lookState).includes(check.fuse) ? 'blown' : 'good');
      }
      case 'swap': {
        const left = this.faults.filter(({ curedBy }) => curedBy !== check.part).flatMap(({ changes }) => changes);
        const before = this.condition(check.function, check.state);
        const now = this.conditionWith(check.function, check.state, left);
        // Where it should be off, off is what it is cured to.
        const asRecorded = this.conditionWith(check.function, check.state, []);
        return word(now === asRecorded && before !== asRecorded ? 'cured' : 'same');
      }
      case 'inspect': {
        const isHere = this.faults.some(({ elements }) => elements.some((id) => this.touches(id, check.part)));
        return word(inspectWord(isHere, this.random));
      }
      case 'link': {
        const link: Change = { kind: 'bridge', from: check.from, to: check.to, ohms: 0.02 };
        const seen = this.conditionWith(check.function, check.state, [...this.changesNow(), link]);
        return word(seen === 'reversed' ? 'works' : seen);
      }
      case 'wiggle': {
        const moves = this.faults.some(
          ({ isIntermittent, elements }) => isIntermittent && elements.some((id) => check.elements.includes(id)),
        );
        return word(wiggleWord(moves, this.random));
      }
    }
  }

  /** Volts, amperes or a condition as they are, before any error of the meter; null for the other kinds of check. */
  truly(check: Check): number | SeenCondition | null {
    switch (check.kind) {
      case 'observe':
        return this.condition(check.function, check.state);
      case 'volts':
        return this.volts(check);
      case 'clamp':
        return this.solve(check.state, this.changesNow())?.amps(check.wire) ?? 0;
      default:
        return null;
    }
  }

  /** State in which fuses were put to the test; set by whoever reports the complaint. */
  lookState: StateChoice | null = null;

  /** With a new fuse in, what was wrong with the old one is gone. */
  private changesNow(newFuse?: string): Change[] {
    return this.faults
      .filter(({ isIntermittent }) => !isIntermittent || this.random.chance(0.5))
      .filter(({ fuseLook }) => newFuse === undefined || fuseLook?.fuse !== newFuse)
      .flatMap(({ changes }) => [...changes]);
  }

  private conditionWith(id: string, choice: StateChoice, changes: readonly Change[]) {
    const fn = this.model.graph.functions.get(id);
    if (fn === undefined) throw new Error(`no function ${id}`);
    return seen(fn, this.solve(choice, changes));
  }

  /** Before the meter's own errors; the meter's load counted. */
  private volts({ state, red, black, newFuse }: CheckOf<'volts'>): number {
    const meter: Change = { kind: 'bridge', from: red, to: black, ohms: METER_OHMS };
    return this.solve(state, [...this.changesNow(newFuse), meter])?.voltsBetween(red, black) ?? 0;
  }

  /** Sources out, plugs at the ends of the stretch pulled, one ampere through. */
  private ohms(red: string, black: string, stretch: readonly string[]): number | null {
    const { elements } = this.model.graph;
    const ends = new Set([
      red,
      black,
      ...stretch.flatMap((id) => [elements.get(id)?.a ?? id, elements.get(id)?.b ?? id]),
    ]);
    const pulled = [...elements.values()].filter(
      ({ id, role, a, b }) =>
        role === 'source' || (role === 'mating' && !stretch.includes(id) && (ends.has(a) || ends.has(b))),
    );
    const changes: Change[] = [
      ...this.changesNow(),
      ...pulled.map(({ id }): Change => ({ kind: 'open', element: id })),
    ];
    const solution = this.solve({ name: 'at rest' }, changes);
    if (solution === undefined || solution.island(red) !== solution.island(black)) return null;
    return linearise(solution, [])
      .inject([
        { point: red, amps: 1 },
        { point: black, amps: -1 },
      ])
      .voltsBetween(red, black);
  }

  private touches(id: string, part: string): boolean {
    const element = this.model.graph.elements.get(id);
    if (element === undefined) return false;
    return (
      element.owner === part || [element.a, element.b].some((at) => this.model.graph.points.get(at)?.owner === part)
    );
  }

  private ownerOf(element: string): string {
    return this.model.graph.elements.get(element)?.owner ?? element;
  }

  private solve(choice: StateChoice, changes: readonly Change[]): Solution | undefined {
    return solutionsOf(settle(this.circuit, this.stateOf(choice), { changes }))[0];
  }

  private stateOf(choice: StateChoice): ResolvedState {
    const key = JSON.stringify(choice);
    const known = this.states.get(key);
    if (known !== undefined) return known;
    const { graph } = this.model;
    const resolution = typeof choice === 'string' ? namedState(graph, choice) : resolveState(graph, choice);
    if (!resolution.ok) throw new Error(JSON.stringify(resolution.issues));
    this.states.set(key, resolution.state);
    return resolution.state;
  }
}

function seen(fn: LoadFunction, solution: Solution | undefined): SeenCondition {
  const condition = solution === undefined ? 'dead' : conditionOf(fn, solution);
  return condition === 'undefined' ? 'dead' : condition;
}

const word = (text: string): CheckResult => ({ kind: 'word', word: text });
const number = (value: number | null): CheckResult => ({ kind: 'number', value });

const SET_BY_STATE: ReadonlySet<string> = new Set(['thermistor', 'potentiometer']);

/** Each element's main parameter over its nominal, drawn from its declared spread. */
function drawnFactors(model: Model, random: Random): Map<string, number> {
  const factors = new Map<string, number>();
  for (const { id, owner, spread } of model.graph.elements.values()) {
    if (spread === null) continue;
    const z = Math.max(-3, Math.min(3, gaussian(random)));
    // Degrees and travel are set by the state, and with them the ohms.
    if (SET_BY_STATE.has(model.parts.get(owner)?.kind ?? '')) continue;
    const { distribution, relative } = spread;
    factors.set(id, distribution === 'lognormal' ? Math.exp(relative * z) : Math.max(0.1, 1 + relative * z));
  }
  return factors;
}

function scaled(law: Law, factor: number): Law {
  switch (law.kind) {
    case 'ohmic':
      return { ...law, ohms: law.ohms * factor };
    case 'battery':
    case 'regulated':
      return { ...law, volts: law.volts * factor };
    case 'filament':
    case 'motor':
      return { ...law, ratedAmps: law.ratedAmps * factor };
    case 'diode':
      return { ...law, forwardVolts: law.forwardVolts * factor };
    case 'ptc':
      return { ...law, coldOhms: law.coldOhms * factor, hotOhms: law.hotOhms * factor };
    case 'constant-power':
      return { ...law, watts: law.watts * factor };
    case 'converter-input':
    case 'draw':
      return law;
  }
}

/** Box and Muller. */
function gaussian(random: Random): number {
  return Math.sqrt(-2 * Math.log(1 - random.next())) * Math.cos(2 * Math.PI * random.next());
}
