/**
 * Volts as a meter shows them where it is itself part of the circuit: on a stretch that hangs on a diode, an LED or a driver alone its ten
 * megohms draw the only current there is. It must not spread the value; `expect-check` does.
 */
import { METER_OHMS } from '../answers/meter-data.js';
import type { Model } from '../answers/model.js';
import type { Law } from '../graph/element.js';
import type { Hypothesis } from './hypotheses.js';
import type { Inquiry } from './inquiry.js';
import type { Prediction } from './prediction.js';
import type { StateChoice } from './shapes/check.js';

/** Less than this, amperes, drops nothing worth reading along wires, coils and filaments (engineering judgement). */
const NO_AMPS = 1e-5;
/** A stretch longer than this is a rail, and held by what feeds it. */
const MOST_POINTS = 80;
/** Laws that fix a voltage by the current through them, however small it is, or draw one whatever the voltage. */
const UNLIKE_A_WIRE: ReadonlySet<Law['kind']> = new Set(['diode', 'constant-power', 'draw', 'converter-input']);

/** Null across islands, as in the view itself. */
export function voltsAsMetered(
  inquiry: Inquiry,
  hypothesis: Hypothesis,
  state: StateChoice,
  red: string,
  black: string,
): number | null {
  const view = inquiry.view(hypothesis, state);
  const volts = view.voltsBetween(red, black);
  if (volts === null || Math.abs(volts) < 1) return volts;
  const [plus, minus] = [hangingFrom(inquiry.model, view, red), hangingFrom(inquiry.model, view, black)];
  if (plus === null && minus === null) return volts;
  const [from, to] = [plus ?? red, minus ?? black];
  const meter = { kind: 'bridge', from, to, ohms: METER_OHMS.voltmeter } as const;
  return inquiry.viewWith(hypothesis, state, [meter]).voltsBetween(from, to) ?? volts;
}

const stretches = new WeakMap<Prediction, Map<string, string | null>>();

/** A point that stands for the stretch where no current flows and no source ends; null: the point is held by something. */
function hangingFrom({ graph: { graph, elements } }: Model, view: Prediction, point: string): string | null {
  const known = stretches.get(view) ?? new Map<string, string | null>();
  stretches.set(view, known);
  const before = known.get(point);
  if (before !== undefined) return before;
  const stretch = new Set([point]);
  let [isHeld, hangs] = [false, false];
  for (const at of stretch) {
    for (const id of graph.edges(at)) {
      const element = elements.get(id);
      if (element === undefined || !view.conducts(id)) continue;
      if (element.role === 'source' || Math.abs(view.amps(id)) > NO_AMPS) isHeld = true;
      else if (UNLIKE_A_WIRE.has(element.law.kind)) hangs = true;
      else stretch.add(element.a).add(element.b);
    }
    if (isHeld || stretch.size > MOST_POINTS) break;
  }
  const stands = isHeld || !hangs || stretch.size > MOST_POINTS ? null : point;
  for (const at of stretch) known.set(at, stands);
  return stands;
}
