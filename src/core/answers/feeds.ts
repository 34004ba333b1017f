/**
 * What feeds this load: supply, return and control paths with volts, shares, single points of failure, conditions, fuses, neighbours.
 * Structure proposes, the solver disposes: nothing is shown as fed that the circuit does not feed.
 */

import type { ResolvedState } from '../circuit/resolved-state.js';
import type { Solution } from '../circuit/solution.js';
import type { LoadFunction } from '../graph/element.js';
import { basisOf } from './basis.js';
import { type CautionCode, cautions, isForbidden } from './cautions.js';
import { type CircuitPaths, circuitPaths, type SharedPath, type Walked } from './circuit-paths.js';
import { conditionOf, isActive } from './condition.js';
import { type ConditionLine, type RunConditions, runConditions, withSettings } from './conditions.js';
import { controlsOf } from './controls.js';
import { describeElement } from './describe.js';
import type { Model } from './model.js';
import { withoutBand } from './predicted.js';
import { type SettledState, settledState, type Workbench } from './settled-state.js';
import type { FeedsAnswer, Path, Step } from './shapes/feeds.js';
import { sharesOf } from './shares.js';
import { singlePointsOfFailure } from './single-points.js';
import type { IsCancelled } from './stopped.js';

export interface FeedsQuestion {
  readonly function: LoadFunction;
  readonly state: ResolvedState;
}

interface Shown {
  readonly bench: Workbench;
  readonly changes: { part: string; is: string }[];
}

/** Answers for the state asked; when the function does not run there, the paths are shown for the nearest state in which it does. */
export function answerFeeds(model: Model, question: FeedsQuestion, isCancelled?: IsCancelled): FeedsAnswer {
  const { function: fn, state } = question;
  const settled = (it: ResolvedState): SettledState => settledState(model, it, isCancelled);
  const { outcome, bench } = settled(state);
  const conditions = runConditions(model, fn, state);
  const shown = shownFor(question, bench, conditions, settled);
  const solution = shown?.bench.settled;
  const paths: CircuitPaths =
    solution === undefined ? { supplies: [], returns: [], more: 0 } : circuitPaths(solution, fn);
  const singlePoints = shown === null ? [] : singlePointsOfFailure(shown.bench, fn);
  const toPath = (path: SharedPath): Path => ({
    share: path.share,
    steps: path.steps.map((step) => stepOf(shown?.bench, step, singlePoints)),
  });
  const supplies = paths.supplies.map(toPath);
  const returns = paths.returns.map(toPath);
  const elements = [...paths.supplies, ...paths.returns].flatMap((path) => path.steps.map((step) => step.element.id));
  const controls = solution === undefined ? [] : controlsOf(model, solution, elements, toPath);
  return {
    function: fn.id,
    condition: bench === null ? 'undefined' : conditionOf(fn, bench.settled),
    shownFor: shown === null ? null : { asAsked: shown.changes.length === 0, changes: shown.changes },
    voltsAcross: shown?.bench.predictions.voltsBetween(fn.feed, fn.return) ?? withoutBand(null),
    amps: solution?.amps(fn.element) ?? null,
    supplies,
    returns,
    morePaths: paths.more,
    controls,
    singlePointsOfFailure: inOrder(singlePoints, [
      ...elements,
      ...controls.flatMap(({ paths: own }) => own.flatMap(elementsOf)),
    ]),
    fuses: solution === undefined ? [] : fusesAlong(solution, paths.supplies),
    conditions: {
      exact: conditions.exact,
      anyOf: conditions.lines.map((line) =>
        line.map(({ setting, values }) => ({ part: setting.name, is: [...values] })),
      ),
      note: noteOn(conditions),
    },
    shares: sharesOf(model, fn, elements),
    basis: basisOf(model, state.source.name, outcome, [fn.element, ...elements]),
    cautions: cautions(cautionsFor(fn)),
  };
}

/** The state asked when it runs there, else the line of the conditions that takes the fewest changes and that the solver confirms. */
function shownFor(
  { function: fn, state }: FeedsQuestion,
  asked: Workbench | null,
  conditions: RunConditions,
  settled: (state: ResolvedState) => SettledState,
): Shown | null {
  if (asked !== null && isActive(conditionOf(fn, asked.settled))) return { bench: asked, changes: [] };
  const candidates = conditions.lines
    .map((line) => changesFor(line, state))
    .sort((one, other) => one.length - other.length);
  for (const changes of candidates) {
    const settings = changes.map(({ setting }) => setting);
    const changed = withSettings(
      state,
      settings,
      changes.map(({ setting, is }) => setting.values.indexOf(is)),
    );
    const { bench } = settled(changed);
    if (bench === null || !isActive(conditionOf(fn, bench.settled))) continue;
    return { bench, changes: changes.map(({ setting, is }) => ({ part: setting.name, is })) };
  }
  return null;
}

function changesFor(
  line: ConditionLine,
  state: ResolvedState,
): { setting: ConditionLine[number]['setting']; is: string }[] {
  return line.flatMap(({ setting, values }) => {
    const now =
      setting.kind === 'position'
        ? state.positions.get(setting.name)
        : setting.kind === 'engine'
          ? state.engineRuns
            ? 'running'
            : 'stopped'
          : (state.commands.get(setting.name) ?? 0) > 0
            ? 'on'
            : 'off';
    return now !== undefined && values.includes(now) ? [] : [{ setting, is: values[0] }];
  });
}

function stepOf(bench: Workbench | undefined, walked: Walked, singlePoints: readonly string[]): Step {
  const { element } = walked;
  if (bench === undefined) throw new RangeError('a path needs the solution that it was found in');
  const { model, settled, predictions } = bench;
  return {
    element: element.id,
    owner: element.owner,
    role: element.role,
    from: walked.from,
    to: walked.to,
    volts: predictions.volts(walked.to),
    dropVolts: predictions.voltsBetween(walked.from, walked.to),
    amps: Math.abs(settled.amps(element.id)),
    description: describeElement(model, element),
    singlePointOfFailure: singlePoints.includes(element.id),
  };
}

function fusesAlong(solution: Solution, supplies: readonly SharedPath[]): FeedsAnswer['fuses'] {
  const fuses = new Map<string, FeedsAnswer['fuses'][number]>();
  for (const { steps } of supplies) {
    for (const { element } of steps) {
      if (element.protection === null) continue;
      const amps = Math.abs(solution.amps(element.id));
      fuses.set(element.id, { element: element.id, ratingAmps: element.protection.ratingAmps, amps });
    }
  }
  return [...fuses.values()];
}

function elementsOf(path: Path): string[] {
  return path.steps.map((step) => step.element);
}

/** The members of `wanted` as a person meets them: in the order of `met`, then the rest. */
function inOrder(wanted: readonly string[], met: readonly string[]): string[] {
  const left = new Set(wanted);
  return [...met.filter((id) => left.delete(id)), ...left];
}

function noteOn(conditions: RunConditions): string | null {
  if (conditions.leftOut.length > 0)
    return `left as in the state asked: ${conditions.leftOut.map((setting) => setting.name).join(', ')}`;
  if (conditions.lines.length === 0) return 'no combination of the recorded switches and commands feeds it';
  return null;
}

function cautionsFor(fn: LoadFunction): CautionCode[] {
  const codes: CautionCode[] = ['live-work'];
  if (fn.law === 'motor') codes.push('moving-parts');
  if (fn.law === 'filament' || fn.law === 'ptc') codes.push('hot-parts');
  if (isForbidden(fn.marks)) for (const mark of fn.marks) codes.push(mark);
  return codes;
}
