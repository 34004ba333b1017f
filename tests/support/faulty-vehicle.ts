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
import type { Check, CheckResult, StateChoice } from '../../src/core/diagnosis/shapes/check.js';
import type { Element, Law, LoadFunction } from '../../src/core/graph/element.js';
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

const METER_OHMS = 10e6;
const LEAD_OHMS = 0.2;

export class FaultyVehicle {
  private readonly circuit: Circuit;
  private readonly states = new Map<string, ResolvedState>();

  constructor(
    private readonly model: Model,
    private faults: readonly HiddenFault[],
    private readonly random: Random,
    /** False: every part exactly as recorded. */
    isScattered = true,
  ) {
    const elements = new Map(
      [...model.graph.elements].map(([id, element]) => [id, isScattered ? scattered(element, random) : element]),
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

  condition(fn: string, choice: StateChoice): 'works' | 'weak' | 'dead' | 'reversed' {
    return this.conditionWith(fn, choice, this.changesNow());
  }

  /** Faults that are still there. */
  get left(): readonly HiddenFault[] {
    return this.faults;
  }

  /** Conditions of all functions from one settling. */
  conditions(choice: StateChoice): Map<string, 'works' | 'weak' | 'dead' | 'reversed'> {
    const solution = this.solve(choice, this.changesNow());
    return new Map([...this.model.graph.functions.values()].map((fn) => [fn.id, seen(fn, solution)]));
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
        return number(this.volts(check.state, check.red, check.black));
      case 'lamp': {
        const rated = this.model.graph.record.systemVolts ?? 12;
        const lamp: Change = { kind: 'bridge', from: check.red, to: check.black, ohms: rated ** 2 / 3 };
        const solution = this.solve(check.state, [...this.changesNow(), lamp]);
        const share = Math.abs(solution?.voltsBetween(check.red, check.black) ?? 0) / rated;
        return word(share > 0.6 ? 'bright' : share > 0.15 ? 'dim' : 'dark');
      }
      case 'clamp':
        return number(this.solve(check.state, this.changesNow())?.amps(check.wire) ?? 0);
      case 'ohms':
        return number(this.ohms(check.red, check.black, check.elements));
      case 'isolation':
        return number(this.ohms(check.point, check.body, check.elements));
      case 'look': {
        const own = this.faults.find(({ fuseLook }) => fuseLook?.fuse === check.fuse)?.fuseLook;
        if (own !== undefined && own !== null) return word(own.word);
        return word(this.lookState !== null && this.blown(this.lookState).includes(check.fuse) ? 'blown' : 'good');
      }
      case 'swap': {
        const left = this.faults.filter(({ curedBy }) => curedBy !== check.part).flatMap(({ changes }) => changes);
        const before = this.condition(check.function, check.state);
        const now = this.conditionWith(check.function, check.state, left);
        return word(now === 'works' && before !== 'works' ? 'cured' : 'same');
      }
      case 'inspect': {
        const isHere = this.faults.some(({ elements }) => elements.some((id) => this.touches(id, check.part)));
        return word(this.random.chance(isHere ? 0.5 : 0.03) ? 'damaged' : 'clean');
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
        return word(this.random.chance(moves ? 0.8 : 0.02) ? 'changes' : 'steady');
      }
    }
  }

  /** State in which fuses were put to the test; set by whoever reports the complaint. */
  lookState: StateChoice | null = null;

  private changesNow(): Change[] {
    return this.faults
      .filter(({ isIntermittent }) => !isIntermittent || this.random.chance(0.5))
      .flatMap(({ changes }) => [...changes]);
  }

  private conditionWith(id: string, choice: StateChoice, changes: readonly Change[]) {
    const fn = this.model.graph.functions.get(id);
    if (fn === undefined) throw new Error(`no function ${id}`);
    return seen(fn, this.solve(choice, changes));
  }

  private volts(choice: StateChoice, red: string, black: string): number {
    const meter: Change = { kind: 'bridge', from: red, to: black, ohms: METER_OHMS };
    const exact = this.solve(choice, [...this.changesNow(), meter])?.voltsBetween(red, black) ?? 0;
    return this.shown(exact);
  }

  /** 6,000 counts, ranges 0.6, 6, 60, 600 V: off by up to 0.5 % and 2 digits. */
  private shown(exact: number): number {
    const range = [0.6, 6, 60].find((limit) => Math.abs(exact) <= limit) ?? 600;
    const digit = range / 6000;
    const off = this.random.between(-1, 1) * (0.005 * Math.abs(exact) + 2 * digit);
    return Math.round((exact + off) / digit) * digit;
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
    const ohms = linearise(solution, [])
      .inject([
        { point: red, amps: 1 },
        { point: black, amps: -1 },
      ])
      .voltsBetween(red, black);
    return ohms === null || ohms > 6e7 ? null : ohms + LEAD_OHMS * this.random.between(0.7, 1.3);
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

function seen(fn: LoadFunction, solution: Solution | undefined): 'works' | 'weak' | 'dead' | 'reversed' {
  const condition = solution === undefined ? 'dead' : conditionOf(fn, solution);
  return condition === 'undefined' ? 'dead' : condition;
}

const word = (text: string): CheckResult => ({ kind: 'word', word: text });
const number = (value: number | null): CheckResult => ({ kind: 'number', value });

/** The element with its main parameter drawn from its declared spread. */
function scattered(element: Element, random: Random): Element {
  if (element.spread === null) return element;
  const z = Math.max(-3, Math.min(3, gaussian(random)));
  const { distribution, relative } = element.spread;
  const factor = distribution === 'lognormal' ? Math.exp(relative * z) : Math.max(0.1, 1 + relative * z);
  return { ...element, law: scaled(element.law, factor) };
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
