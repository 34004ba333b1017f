/**
 * First power-up, in stages: all fuses out behind a current limit, then one fuse at a time, then the recorded states one by one.
 * What must and must not come alive, the expected current, and when to stop. Refused while findings of the highest severity stand.
 */
import { namedState, restState } from '../../circuit/resolve-state.js';
import type { ResolvedState } from '../../circuit/resolved-state.js';
import { settle } from '../../circuit/settle.js';
import { type Change, type Solution, solutionsOf } from '../../circuit/solution.js';
import type { Element } from '../../graph/element.js';
import { formatAmps } from '../../units/format.js';
import { isForbidden } from '../cautions.js';
import { conditionOf, isActive } from '../condition.js';
import { describePart } from '../describe.js';
import type { Model } from '../model.js';
import type { Plan, PlanStep } from '../shapes/plans.js';
import { fusesFromSource } from './fuse-order.js';
import { hangingRegion } from './hanging-region.js';
import { emptyPlan, severestFindings, stepId } from './plan-parts.js';
import { stateWords } from './state-words.js';

/** A stage stops above this: half as much again as expected and 50 mA for what nobody recorded (engineering judgement). */
const MOST_SHARE = 1.5;
const MOST_OVER_AMPS = 0.05;
const LIMIT_SOURCE = 'half as much again as predicted, plus 50 mA (engineering judgement)';
/** Recorded states tried after the fuses; more are left to the voltage-drop plan. */
const MOST_STATES = 30;
/** Fuses fitted singly; a vehicle with more is powered unit by unit. */
const MOST_FUSES = 120;

export function planFirstPower(model: Model): Plan {
  const first = severestFindings(model);
  const plan = { ...emptyPlan(model, 'first-power', 'First power-up'), first };
  if (first.length > 0) {
    return {
      ...plan,
      refused: `${first.length} finding${first.length > 1 ? 's' : ''} of the highest severity stand${first.length > 1 ? '' : 's'} (${[
        ...new Set(first.map(({ code, at }) => `${code} at ${at[0]}`)),
      ]
        .slice(0, 6)
        .join(
          '; ',
        )}${first.length > 6 ? '; and more' : ''}). Clear them, or accept each by name with a reason in the record.`,
    };
  }
  const all = fusesFromSource(model);
  const isMarked = (fuse: Element): boolean =>
    isForbidden(fuse.marks) || isForbidden(model.parts.get(fuse.owner)?.marks ?? []);
  const fuses = all.filter((fuse) => !isMarked(fuse)).slice(0, MOST_FUSES);
  const rest = restState(model.graph);
  const stages = new Stages(model, rest, all);
  const steps = [stages.bare(), ...fuses.flatMap((fuse) => stages.fit(fuse)), ...statesAfter(model)];
  const left = all.filter((fuse) => !fuses.includes(fuse)).map(({ owner }) => owner);
  return {
    ...plan,
    prepare: [
      'Continuity and isolation plans passed on this revision.',
      'Isolator within reach, extinguisher beside you, a second person at the isolator. Modules and restraint devices unplugged until their makers’ procedure says otherwise.',
      'All fuses out, all switches at rest, key off.',
      'Ohms from the main feed to chassis with the battery off: no dead short.',
      `Battery through a current limit: a bench supply set to 2 A, or a ${model.graph.record.systemVolts ?? 12} V, 21 W lamp in series with the battery’s positive. Lamp bright: stop.`,
      ...severalBatteries(model),
    ],
    steps,
    stopIf: [
      'Lamp in series lights brightly, or the supply goes into its limit, at a stage that expects less',
      'Current above the stage’s limit',
      'Anything comes alive that the stage does not name',
      'Smell, smoke, heat, a relay that chatters',
    ],
    onFailure: ['Battery off. Take the last fuse out again and test that branch with the isolation plan.'],
    leftOut:
      left.length === 0
        ? []
        : [`Fuses ${left.join(', ')}: marked circuits or beyond ${MOST_FUSES} fuses; by the maker’s procedure`],
    counts: { ...plan.counts, readings: steps.length, handMoves: 0 },
  };
}

/** More than one battery: each is limited, and the clamp follows the one that the stage concerns. */
function severalBatteries(model: Model): string[] {
  const batteries = batteriesOf(model);
  if (batteries.length < 2) return [];
  return [
    `${batteries.map(({ owner }) => owner).join(' and ')}: each behind a limit of its own. The clamp goes on the negative cable that the step names.`,
  ];
}

function batteriesOf(model: Model): Element[] {
  return [...model.graph.elements.values()].filter(({ role, law }) => role === 'source' && law.kind === 'battery');
}

class Stages {
  private readonly out: Set<string>;
  private before: ReadonlySet<string>;
  private last: Solution | undefined;
  /** Volts of points that came alive since the last settling, without anything that draws. */
  private readonly hanging = new Map<string, number>();

  constructor(
    private readonly model: Model,
    private readonly state: ResolvedState,
    fuses: readonly Element[],
  ) {
    this.out = new Set(fuses.map(({ id }) => id));
    this.before = new Set();
  }

  bare(): PlanStep {
    const solution = this.solve();
    const alive = this.alive(solution);
    this.before = alive;
    this.last = solution;
    return clampStep(
      this.model,
      'All fuses out',
      [],
      solution,
      undefined,
      this.state,
      listed(alive, 'Nothing comes alive', 'Alive'),
    );
  }

  /** Two steps: the current, and the volts behind the fuse. */
  fit(fuse: Element): PlanStep[] {
    this.out.delete(fuse.id);
    const solution = this.changesNothing(fuse) ? this.last : this.solve();
    const alive = this.alive(solution);
    const fresh = new Set([...alive].filter((id) => !this.before.has(id)));
    this.before = alive;
    const name = describePart(this.model, fuse.owner, fuse);
    const group = `Fit ${name}`;
    const clamp = clampStep(
      this.model,
      group,
      [group],
      solution,
      this.last,
      this.state,
      listed(fresh, 'Nothing new comes alive', 'Comes alive'),
    );
    this.last = solution;
    const part = this.model.parts.get(fuse.owner);
    const point = part === undefined ? fuse.b : `${fuse.owner}/out`;
    if (!this.model.graph.points.has(point)) return [clamp];
    const volts = this.voltsAt(part === undefined ? fuse.b : point);
    const system = this.model.graph.record.systemVolts ?? 12;
    return [
      clamp,
      {
        id: stepId('first-power', [point], [this.model.graph.reference], group),
        group,
        red: [point],
        black: [this.model.graph.reference],
        meter: 'voltmeter',
        unit: 'V',
        set: [],
        expected: { nominal: volts, low: null, high: null, bandBasis: 'none' },
        least: volts === null ? null : volts - 0.05 * system,
        most: volts === null ? null : volts + 0.15 * system,
        limitSource: 'predicted, 5 % below to 15 % above for another state of charge (engineering judgement)',
        ...wordsBehindFuse(volts),
        tooSmallToJudge: false,
        elements: [fuse.id],
        cautions: ['live-work'],
      },
    ];
  }

  /** Between two dead points, or before bare conductors that nothing draws from: no need to settle again. */
  private changesNothing({ id, a, b }: Element): boolean {
    if (this.last === undefined) return false;
    const isDead = (point: string): boolean => Math.abs(this.voltsAt(point) ?? 0) < DEAD_VOLTS;
    if (isDead(a) && isDead(b)) return true;
    if (!isDead(a) && !isDead(b)) return false;
    const [live, dead] = isDead(a) ? [b, a] : [a, b];
    const region = hangingRegion(this.model, this.last, dead, (element) => element === id || this.out.has(element));
    for (const point of region ?? []) this.hanging.set(point, this.voltsAt(live) ?? 0);
    return region !== null;
  }

  private voltsAt(point: string): number | null {
    return this.hanging.get(point) ?? this.last?.volts(point) ?? null;
  }

  private solve(): Solution | undefined {
    this.hanging.clear();
    const changes = [...this.out].map((element): Change => ({ kind: 'open', element }));
    // a stage goes on from where the one before it came to rest, as the vehicle does
    return solutionsOf(settle(this.model.circuit, this.state, { changes, from: this.last }))[0];
  }

  private alive(solution: Solution | undefined): ReadonlySet<string> {
    if (solution === undefined) return new Set();
    const running = [...this.model.graph.functions.values()].filter((fn) => isActive(conditionOf(fn, solution)));
    return new Set([
      ...running.map(({ id }) => id),
      ...solution.awakeModules,
      ...[...solution.pulledCoils].map((coil) => `relay ${coil.split(':')[0]}`),
    ]);
  }
}

/** Less is dead, volts. */
const DEAD_VOLTS = 1e-6;

/** A fuse behind a switch or relay that rests open must stay dead. */
function wordsBehindFuse(volts: number | null): Pick<PlanStep, 'expect' | 'failing'> {
  return volts !== null && Math.abs(volts) > 1
    ? { expect: 'Live from this stage on', failing: 'Dead: the fuse or its holder. Other volts: fed from elsewhere.' }
    : {
        expect: 'Still dead: something before it is off at rest',
        failing: 'Live: a contact before it is closed that should rest open, or it is fed from elsewhere.',
      };
}

function statesAfter(model: Model): PlanStep[] {
  return (model.graph.record.states ?? []).slice(0, MOST_STATES).flatMap(({ name }) => {
    const resolved = namedState(model.graph, name);
    if (!resolved.ok) return [];
    const solution = solutionsOf(settle(model.circuit, resolved.state))[0];
    if (solution === undefined) return [];
    const running = [...model.graph.functions.values()]
      .filter((fn) => isActive(conditionOf(fn, solution)))
      .map(({ id }) => id);
    const words = stateWords(resolved.state);
    return [
      clampStep(
        model,
        `State ${name}, without the limit`,
        words,
        solution,
        undefined,
        resolved.state,
        listed(new Set(running), 'Nothing runs', 'Runs'),
      ),
    ];
  });
}

/** Below this a battery counts as at rest, amps; and this is rounding of the solution. */
const AT_REST_AMPS = 1e-3;
const NO_AMPS = 1e-6;

/** The battery whose current changed most with the stage, or without a stage before it gives the most; else the reference's own. */
function batteryToClamp(
  model: Model,
  solution: Solution | undefined,
  before: Solution | undefined,
): Element | undefined {
  const batteries = batteriesOf(model);
  const main = batteries.find(({ b }) => b === model.graph.reference) ?? batteries[0];
  if (solution === undefined) return main;
  const change = ({ id }: Element): number => -solution.amps(id) + (before?.amps(id) ?? 0);
  const rank = (battery: Element): number => (before === undefined ? change(battery) : Math.abs(change(battery)));
  return batteries.reduce<Element | undefined>(
    (best, next) =>
      best === undefined || rank(next) > Math.max(AT_REST_AMPS, rank(best)) * CLEARLY_MORE ? next : best,
    main,
  );
}

/** The clamp stays where it is unless another battery gives clearly more (engineering judgement). */
const CLEARLY_MORE = 1.5;

function clampStep(
  model: Model,
  group: string,
  set: readonly string[],
  solution: Solution | undefined,
  before: Solution | undefined,
  state: ResolvedState,
  expect: string,
): PlanStep {
  const main = batteryToClamp(model, solution, before);
  const given = solution === undefined || main === undefined ? null : -solution.amps(main.id);
  const amps = given !== null && Math.abs(given) < NO_AMPS ? 0 : given;
  const at = main?.b ?? model.graph.reference;
  return {
    id: stepId('first-power', [at], ['clamp'], group),
    group,
    red: [at],
    black: [],
    meter: 'clamp',
    unit: 'A',
    set: [...set],
    expected: { nominal: amps, low: null, high: null, bandBasis: 'none' },
    least: null,
    most: amps === null ? null : Math.max(0, amps) * MOST_SHARE + MOST_OVER_AMPS,
    limitSource: LIMIT_SOURCE,
    expect: `${expect}. ${main === undefined ? 'The battery' : main.owner} gives ${amps === null ? 'an unknown current' : formatAmps(amps)}${state.engineRuns ? ' (below 0: it is charged)' : ''}.`,
    failing: 'More: a short or an unrecorded load behind the last fuse. Less: that branch is open.',
    tooSmallToJudge: amps !== null && Math.abs(amps) < 0.02,
    elements: main === undefined ? [] : [main.id],
    cautions: ['live-work', 'moving-parts'],
  };
}

function listed(ids: ReadonlySet<string>, none: string, some: string): string {
  return ids.size === 0 ? none : `${some}: ${[...ids].join(', ')}`;
}
