/**
 * What the meter should read between two points, in a state, with the kind of meter that is used; and with the load there unplugged.
 * The meter is part of the circuit: where a point floats, what it shows depends on the meter itself.
 */

import type { ResolvedState } from '../circuit/resolved-state.js';
import type { Change } from '../circuit/solution.js';
import { basisOf } from './basis.js';
import { type CautionCode, cautions, isForbidden } from './cautions.js';
import { displayOf } from './display.js';
import { loadBehind } from './load-behind.js';
import { calibratedState } from './measured-values.js';
import { readMeter, type Shown } from './meter.js';
import type { Model } from './model.js';
import { withoutBand } from './predicted.js';
import type { Workbench } from './settled-state.js';
import type { MeasuredValue } from './shapes/measured.js';
import type { MeterKind, Reading, ReadingsAnswer } from './shapes/readings.js';
import type { IsCancelled } from './stopped.js';

export interface ReadingsQuestion {
  /** Points, canonical; for the clamp `red` is a wire or element. `black` defaults to the reference. */
  readonly pairs: readonly { readonly red: string; readonly black?: string }[];
  readonly state: ResolvedState;
  readonly meter: MeterKind;
  /** Values measured in this state, names canonical: the bands of all readings are those of a harness that shows them. */
  readonly measured?: readonly MeasuredValue[];
}

/** One reading per pair, in order. Throws `AnswerStopped` when cancelled. A point of a circuit that may not be probed gives no value and says why. */
export function answerReadings(
  model: Model,
  { pairs, state, meter, measured = [] }: ReadingsQuestion,
  isCancelled?: IsCancelled,
): ReadingsAnswer {
  const { outcome, bench, weighed } = calibratedState(model, state, measured, isCancelled);
  const codes = new Set<CautionCode>(meter === 'ohmmeter' ? ['ohms-dead-only', 'battery-off'] : ['live-work']);
  const readings = pairs.map(({ red, black = model.graph.reference }) => {
    const marks = [red, black].flatMap(
      (id) => model.graph.points.get(id)?.marks ?? model.graph.elements.get(id)?.marks ?? [],
    );
    for (const mark of marks) codes.add(mark);
    if (isForbidden(marks)) return refused(red, black, meter, `not to be probed: ${marks.join(', ')}`);
    if (marks.includes('data-bus') && meter === 'test-lamp')
      return refused(red, black, meter, 'no test lamp on a data-bus pair');
    if (bench === null) return refused(red, black, meter, 'the circuit does not settle in this state');
    return readingOf(bench, meter, red, black);
  });
  return {
    readings,
    measured: [...weighed],
    basis: basisOf(model, state.source.name, outcome, []),
    cautions: cautions(codes),
  };
}

function readingOf(bench: Workbench, meter: MeterKind, red: string, black: string): Reading {
  const shown = readMeter(bench, meter, red, black, []);
  const load = meter === 'clamp' ? null : loadBehind(bench.model, bench.settled, red);
  const without: readonly Change[] = load === null ? [] : [{ kind: 'open', element: load }];
  const unplugged = load === null ? null : readMeter(bench, meter, red, black, without);
  return {
    red,
    black,
    meter,
    unit: UNITS[meter],
    connected: shown.band ?? withoutBand(shown.value),
    loadUnplugged: unplugged === null ? null : (unplugged.band ?? withoutBand(unplugged.value)),
    shows: displayOf(meter, shown),
    ghostVolts: shown.ghostVolts,
    lamp: shown.lamp,
    floating: shown.floating,
    overLimit: shown.overLimit,
    note: noteOn(shown, load),
  };
}

const UNITS = {
  voltmeter: 'V',
  'low-impedance-voltmeter': 'V',
  ohmmeter: 'Ω',
  clamp: 'A',
  'test-lamp': 'lamp',
} as const;

function noteOn(shown: Shown, load: string | null): string | null {
  const notes = [shown.note, load === null ? null : `load unplugged: ${load}`].filter((note) => note !== null);
  return notes.length === 0 ? null : notes.join('; ');
}

function refused(red: string, black: string, meter: MeterKind, note: string): Reading {
  return {
    red,
    black,
    meter,
    unit: UNITS[meter],
    connected: withoutBand(null),
    loadUnplugged: null,
    shows: null,
    ghostVolts: null,
    lamp: null,
    floating: false,
    overLimit: true,
    note,
  };
}
