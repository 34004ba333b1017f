/**
 * Parasitic draw: key off and asleep, which fuse carries how much, told by the volts across each fuse without pulling it.
 * Fuse ohms come from the record or the table; a copy of a fuse may have others, and the plan says so.
 */
import { restState } from '../../circuit/resolve-state.js';
import type { ResolvedState } from '../../circuit/resolved-state.js';
import { settle } from '../../circuit/settle.js';
import { solutionsOf } from '../../circuit/solution.js';
import type { Element } from '../../graph/element.js';
import { typicalOhms } from '../../graph/law-ohms.js';
import { formatAmps } from '../../units/format.js';
import { isForbidden } from '../cautions.js';
import { describePart } from '../describe.js';
import type { Model } from '../model.js';
import type { Plan, PlanStep } from '../shapes/plans.js';
import { fusesFromSource } from './fuse-order.js';
import { handMoves, orderByHands } from './hand-order.js';
import { emptyPlan, placeOf, severestFindings, stepId } from './plan-parts.js';
import { stateWords } from './state-words.js';

/** Car total at rest (air-conditioning society's service report, common practice); one maker asks 20 to 40 mA. */
const TOTAL_AMPS = 0.05;
/** What one branch may take beyond its recorded draw before it is suspect (engineering judgement). */
const BRANCH_AMPS = 0.02;
/** Last digit of a common meter's millivolt range. */
const DIGIT_VOLTS = 0.0001;

/** Fuses with the largest expected draw first, then place by place; `state` is the sleeping vehicle, all at rest when absent. */
export function planParasiticDraw(model: Model, state: ResolvedState = restState(model.graph)): Plan {
  const solution = solutionsOf(settle(model.circuit, state))[0];
  const fuses = fusesFromSource(model).filter((fuse) => !isForbidden(fuse.marks) && isFuse(model, fuse));
  const readings = fuses
    .map((fuse) => ({
      fuse,
      amps: Math.abs(solution?.amps(fuse.id) ?? 0),
      ohms: typicalOhms(fuse.law),
      ...bladesOf(model, fuse),
    }))
    .sort((one, other) => other.amps - one.amps);
  const steps = [totalStep(model, solution === undefined ? null : drawOf(model, solution), state)];
  const inHand = orderByHands(
    readings,
    ({ red, black }) => ({ red: placeOf(model, red), black: placeOf(model, black) }),
    false,
  );
  for (const { item } of inHand) {
    const { fuse, amps, ohms, red, black } = item;
    const volts = solution?.voltsBetween(red, black) ?? amps * ohms;
    steps.push({
      id: stepId('parasitic-draw', [red], [black]),
      group: describePart(model, fuse.owner, fuse),
      red: [red],
      black: [black],
      meter: 'voltmeter',
      unit: 'V',
      set: [],
      expected: { nominal: Math.abs(volts), low: null, high: null, bandBasis: 'none' },
      least: null,
      most: (amps + BRANCH_AMPS) * ohms * 1.5 + DIGIT_VOLTS,
      limitSource: `recorded draw and ${formatAmps(BRANCH_AMPS)} over ${(1000 * ohms).toPrecision(2)} mΩ, half as much again for the fuse, one digit (engineering judgement)`,
      expect: `${amps < 1e-6 ? 'no current' : `${formatAmps(amps)} through the fuse`}${
        (amps + BRANCH_AMPS) * ohms < DIGIT_VOLTS ? '; too little for the meter: a milliampere clamp on its wire' : ''
      }`,
      failing: 'More: something behind this fuse stays awake. Pull it only now, and see whether the total falls.',
      tooSmallToJudge: (amps + BRANCH_AMPS) * ohms < DIGIT_VOLTS,
      elements: [fuse.id],
      cautions: ['live-work'],
    });
  }
  const held = steps
    .slice(1)
    .map(({ red, black }) => ({ red: placeOf(model, red[0]), black: placeOf(model, black[0]) }));
  const recorded = [...model.parts.keys()];
  return {
    ...emptyPlan(model, 'parasitic-draw', 'Parasitic draw'),
    first: severestFindings(model),
    prepare: [
      ...stateWords(state),
      'Doors shut or their switches held, key out; wait until every module sleeps (20 minutes to 2 hours, by the maker).',
      'Read across the two test points on the back of each fuse. Do not pull a fuse yet: that wakes modules.',
      'The volts hold for the recorded type of fuse; copies of fuses have other ohms.',
    ],
    steps,
    onFailure: [
      'Start with the fuse that is most above its expectation; pull it, and read the total again.',
      `If none stands out, pull in this order: ${readings
        .slice(0, 20)
        .map(({ fuse }) => fuse.owner)
        .join(', ')}.`,
    ],
    stopIf: ['Never start the engine or switch a heavy load on with an ammeter in series'],
    counts: {
      nets: 0,
      terminals: 0,
      readings: steps.length,
      leastPossible: null,
      pairwise: null,
      handMoves: handMoves(held),
      handMovesInRecordOrder: handMoves(
        readings
          .toSorted((one, other) => recorded.indexOf(one.fuse.owner) - recorded.indexOf(other.fuse.owner))
          .map(({ red, black }) => ({ red: placeOf(model, red), black: placeOf(model, black) })),
      ),
    },
  };
}

function totalStep(model: Model, amps: number | null, state: ResolvedState): PlanStep {
  const expected = amps ?? 0;
  return {
    id: stepId('parasitic-draw', [model.graph.reference], ['series']),
    group: 'Total',
    red: [model.graph.reference],
    black: [],
    meter: 'clamp',
    unit: 'A',
    set: stateWords(state),
    expected: { nominal: amps, low: null, high: null, bandBasis: 'none' },
    least: null,
    most: Math.max(TOTAL_AMPS, expected * 1.5),
    limitSource: 'under 50 mA in all (common practice), or half as much again as the record predicts',
    expect: expected > TOTAL_AMPS ? 'more than the customary 50 mA: the record itself draws so much' : 'asleep',
    failing: 'Go on with the fuses below, the largest expected draw first.',
    tooSmallToJudge: false,
    elements: [],
    cautions: ['live-work'],
  };
}

function drawOf(model: Model, solution: { amps(element: string): number }): number {
  let sum = 0;
  for (const { role, law, id } of model.graph.elements.values())
    if (role === 'source' && law.kind === 'battery') sum -= solution.amps(id);
  return sum;
}

function isFuse(model: Model, { owner }: Element): boolean {
  return model.parts.get(owner)?.kind === 'fuse';
}

/** The fuse's own test points: its part side where it is plugged in. */
function bladesOf(model: Model, fuse: Element): { red: string; black: string } {
  const [red, black] = ['in', 'out'].map((terminal) => {
    const inside = `${fuse.owner}.body/${terminal}`;
    return model.graph.points.has(inside) ? inside : `${fuse.owner}/${terminal}`;
  });
  return { red, black };
}
