// A vehicle with a hidden fault that SPICE answers for: the netlist comes from the record, with the fault and the drawn figures put in.
// It must not use the graph, the circuit or any prediction; of the diagnosis it takes the shapes of checks alone.

import type { Check, CheckOf, CheckResult, StateChoice } from '../../src/core/diagnosis/shapes/check.js';
import type { HarnessRecord } from '../../src/core/record/record.js';
import type { OperatingState } from '../../src/core/record/state.js';
import * as person from '../support/person-with-meter.js';
import type { Random } from '../support/random.js';
import { ampsOf, type SpiceRest, settleBySpice, voltsBetween } from './settle-by-spice.js';
import type { Alteration, Sketch } from './sketch.js';
import { sketchRecord } from './sketch-record.js';
import { type SpiceStart, solveBySpice } from './solve-by-spice.js';
import type { SpiceEngine } from './spice-engine.js';
import { functionOf } from './spice-function.js';

/** A digital ohmmeter's own current, and the smaller one of its higher ranges. */
const OHMS_AMPS = [1e-3, 1e-6];
/** Above this the meter goes to a higher range: no junction conducts below it. */
const OHMS_VOLTS = 0.3;

/** One hidden fault, in the names of the record. */
export interface SpiceFault {
  readonly alterations: readonly Alteration[];
  readonly elements: readonly string[];
  /** Part whose replacement cures it; null: none. */
  readonly curedBy: string | null;
  readonly fuseLook: { readonly fuse: string; readonly word: string } | null;
  readonly isIntermittent: boolean;
}

export class SpiceVehicle {
  private readonly settled = new Map<string, Promise<SpiceRest>>();
  /** State in which fuses were put to the test. */
  lookState: StateChoice | null = null;
  /**
   * Where SPICE begins in a state of a large harness, with dozens of kinks at once: somebody's guess, of which it confirms every
   * relay, module and diode by its own voltages; and what is pulled in, where what holds a relay would not pull it in. Null: from
   * nothing pulled.
   */
  startIn: ((choice: StateChoice) => SpiceStart) | null = null;

  constructor(
    private readonly record: HarnessRecord,
    private faults: readonly SpiceFault[],
    /** By branch: its main figure over the recorded one. */
    private readonly factors: ReadonlyMap<string, number>,
    private readonly engine: SpiceEngine,
    private readonly random: Random,
  ) {}

  mend(isMended: (fault: SpiceFault) => boolean): boolean {
    const left = this.faults.filter((fault) => !isMended(fault));
    const mended = left.length < this.faults.length;
    this.faults = left;
    return mended;
  }

  /** As the person reads it: accuracy of the meter, no slip. */
  async answer(check: Check): Promise<CheckResult> {
    switch (check.kind) {
      case 'observe':
        return word(await this.condition(check.function, check.state, this.now()));
      case 'volts':
        return number(person.shownVolts(await this.volts(check), this.random));
      case 'lamp': {
        const rated = this.record.systemVolts ?? 12;
        const ohms = person.lampOhms(rated);
        const lit = await this.solve(check.state, [
          ...this.now(),
          { kind: 'bridge', from: check.red, to: check.black, ohms },
        ]);
        return word(person.lampWord(voltsBetween(lit, check.red, check.black) ?? 0, rated));
      }
      case 'clamp':
        return number(await this.amps(check.state, check.wire));
      case 'ohms':
        return number(person.shownOhms(await this.ohms(check.red, check.black, check.elements), this.random));
      case 'isolation':
        return number(person.shownOhms(await this.ohms(check.point, check.body, check.elements), this.random));
      case 'look':
        return word(await this.fuseLook(check.fuse));
      case 'swap': {
        const left = this.faults
          .filter(({ curedBy }) => curedBy !== check.part)
          .flatMap(({ alterations }) => alterations);
        const before = await this.condition(check.function, check.state, this.now());
        const after = await this.condition(check.function, check.state, left);
        return word(after === 'works' && before !== 'works' ? 'cured' : 'same');
      }
      case 'inspect':
        return word(person.inspectWord(this.isAt(check.part), this.random));
      case 'link': {
        const link: Alteration = { kind: 'bridge', from: check.from, to: check.to, ohms: 0.02 };
        const seen = await this.condition(check.function, check.state, [...this.now(), link]);
        return word(seen === 'reversed' ? 'works' : seen);
      }
      case 'wiggle': {
        const moves = this.faults.some(
          ({ isIntermittent, elements }) => isIntermittent && elements.some((id) => check.elements.includes(id)),
        );
        return word(person.wiggleWord(moves, this.random));
      }
    }
  }

  /** Volts, amperes or a condition before any error of the meter; null for the other kinds of check. */
  async truly(check: Check): Promise<number | person.SeenCondition | null> {
    switch (check.kind) {
      case 'observe':
        return this.condition(check.function, check.state, this.now());
      case 'volts':
        return this.volts(check);
      case 'clamp':
        return this.amps(check.state, check.wire);
      default:
        return null;
    }
  }

  /** With a new fuse in, what was wrong with the old one is gone. */
  private now(newFuse?: string): Alteration[] {
    return this.faults
      .filter(({ isIntermittent }) => !isIntermittent || this.random.chance(0.5))
      .filter(({ fuseLook }) => newFuse === undefined || fuseLook?.fuse !== newFuse)
      .flatMap(({ alterations }) => [...alterations]);
  }

  private async condition(
    id: string,
    choice: StateChoice,
    alterations: readonly Alteration[],
  ): Promise<person.SeenCondition> {
    const fn = functionOf(this.record, id);
    const solved = await this.solve(choice, alterations);
    const device = solved.sketch.flagged.get(fn.branch)?.device(solved.flags) ?? null;
    const volts = voltsBetween(solved, fn.feed, fn.return);
    if (device === null || volts === null || Math.abs(volts) < fn.deadBelowVolts) return 'dead';
    if (volts < 0 && fn.law === 'led') return 'dead';
    if (volts < 0 && fn.law === 'motor') return 'reversed';
    return Math.abs(volts) < fn.weakBelowVolts ? 'weak' : 'works';
  }

  private async volts({ state, red, black, newFuse }: CheckOf<'volts'>): Promise<number> {
    const meter: Alteration = { kind: 'bridge', from: red, to: black, ohms: person.METER_OHMS };
    return voltsBetween(await this.solve(state, [...this.now(newFuse), meter]), red, black) ?? 0;
  }

  private async amps(choice: StateChoice, wire: string): Promise<number> {
    return ampsOf(await this.solve(choice, this.now()), wire);
  }

  private async fuseLook(fuse: string): Promise<string> {
    const own = this.faults.find(({ fuseLook }) => fuseLook?.fuse === fuse)?.fuseLook;
    if (own !== undefined && own !== null) return own.word;
    if (this.lookState === null) return 'good';
    const { opened } = await this.solve(this.lookState, this.now());
    return opened.some((branch) => branch.startsWith(`${fuse}:`)) ? 'blown' : 'good';
  }

  /** Sources out, plugs at the ends of the stretch pulled, the meter's own small current through. Null: no way. */
  private async ohms(red: string, black: string, stretch: readonly string[]): Promise<number | null> {
    const rest: OperatingState = { name: 'at rest' };
    const { sketch } = sketchRecord(this.record, rest);
    const ends = new Set([red, black]);
    for (const id of stretch) {
      const branch = sketch.flagged.get(id);
      if (branch !== undefined) ends.add(branch.a).add(branch.b);
    }
    const pulled = [...sketch.matings].filter((id) => {
      const branch = sketch.flagged.get(id);
      return branch !== undefined && !stretch.includes(id) && (ends.has(branch.a) || ends.has(branch.b));
    });
    const open = [...sketch.sources, ...pulled].map((branch): Alteration => ({ kind: 'open', branch }));
    const alterations = [...this.now(), ...open];
    for (const amps of OHMS_AMPS) {
      const dead = sketchRecord(this.record, rest, alterations, this.factors).sketch;
      dead.branch('ohmmeter', red, black, () => ({ kind: 'current', amps }));
      if (!hangsTogether(dead, red, black)) return null;
      const { volts } = await solveBySpice(dead, black, this.engine, { writing: 'chord' });
      const shown = volts.get(red) ?? null;
      if (shown === null || Math.abs(shown) < OHMS_VOLTS) return shown === null ? null : shown / amps;
    }
    return null;
  }

  private solve(choice: StateChoice, alterations: readonly Alteration[]): Promise<SpiceRest> {
    const state = typeof choice === 'string' ? this.record.states?.find(({ name }) => name === choice) : choice;
    if (state === undefined) throw new Error(`no state ${JSON.stringify(choice)}`);
    const key = JSON.stringify([state, alterations]);
    const { factors } = this;
    const settled =
      this.settled.get(key) ??
      settleBySpice(this.record, state, this.engine, {
        ...this.startIn?.(choice),
        alterations,
        factors,
        writing: 'chord',
      });
    this.settled.set(key, settled);
    return settled;
  }

  private isAt(part: string): boolean {
    const { sketch } = sketchRecord(this.record, { name: 'at rest' });
    const owner = (name: string): string => name.split(/[./:@]/)[0];
    return this.faults.some(({ elements }) =>
      elements.some((id) => {
        const branch = sketch.flagged.get(id);
        return owner(id) === part || [branch?.a, branch?.b].some((at) => at !== undefined && owner(at) === part);
      }),
    );
  }
}

const word = (text: string): CheckResult => ({ kind: 'word', word: text });
const number = (value: number | null): CheckResult => ({ kind: 'number', value });

function hangsTogether(sketch: Sketch, red: string, black: string): boolean {
  const branches = sketch.branches(new Set()).filter(({ id }) => id !== 'ohmmeter');
  const neighbours = new Map<string, string[]>();
  for (const { a, b } of branches) {
    neighbours.set(a, [...(neighbours.get(a) ?? []), b]);
    neighbours.set(b, [...(neighbours.get(b) ?? []), a]);
  }
  const reached = new Set([black]);
  for (const point of reached) for (const next of neighbours.get(point) ?? []) reached.add(next);
  return reached.has(red);
}
