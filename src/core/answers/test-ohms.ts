/**
 * What an ohmmeter's own volts drive through a dead circuit: sources silent, diodes conducting where the test volts suffice.
 * It must not read live circuits; who asks has looked.
 *
 * The meter is `openVolts` behind openVolts / mostAmps. Diodes are piecewise linear (as in the table of laws): those that
 * conduct are a conductance with a current source beside it, and the set of them is found by trying until it repeats.
 */
import { linearise, type Response } from '../circuit/linearised.js';
import type { Solution } from '../circuit/solution.js';
import type { Element } from '../graph/element.js';
import { OHMMETER } from './meter-data.js';

export interface TestOhms {
  /** Volts over amps at the tips; null when nothing leads from one to the other. */
  readonly ohms: number | null;
  /** Diodes that the test volts open, and those that carry a hundredth of the test current or more, open or not. */
  readonly conducting: readonly string[];
  readonly onTheWay: readonly string[];
}

type Diode = Element & { readonly law: Extract<Element['law'], { kind: 'diode' }> };

const SOURCE_OHMS = OHMMETER.openVolts / OHMMETER.mostAmps;
const NOTICEABLE_SHARE = 0.01;
const MOST_ROUNDS = 20;

export function testOhms(solution: Solution, red: string, black: string): TestOhms {
  const closed = drive(solution, red, black, []);
  if (closed === null) return { ohms: null, conducting: [], onTheWay: [] };
  let now = closed;
  let open: readonly Diode[] = [];
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const next = now.diodes.filter(({ a, b, law }) => (now.response.voltsBetween(a, b) ?? 0) > law.forwardVolts);
    if (next.length === open.length && next.every((diode) => open.includes(diode))) break;
    open = next;
    now = drive(solution, red, black, open) ?? now;
  }
  const carrying = new Set([...noticeable(closed), ...open.map(({ id }) => id)]);
  return { ohms: now.volts / now.amps, conducting: open.map(({ id }) => id), onTheWay: [...carrying] };
}

interface Driven {
  readonly volts: number;
  readonly amps: number;
  readonly response: Response;
  readonly diodes: readonly Diode[];
}

/** The circuit at the meter's tips with these diodes open; null when the tips do not hang together. */
function drive(solution: Solution, red: string, black: string, open: readonly Diode[]): Driven | null {
  const slopes = new Map(open.map(({ id, law }) => [id, 1 / law.seriesOhms + 1 / law.leakOhms]));
  const view = linearise(solution, [], slopes);
  const thresholds = open.flatMap(({ a, b, law }) => pair(a, b, law.forwardVolts / law.seriesOhms));
  const perAmp = view.inject(pair(red, black, 1)).voltsBetween(red, black);
  if (perAmp === null) return null;
  const alone = view.inject(thresholds).voltsBetween(red, black) ?? 0;
  const volts = (alone + perAmp * OHMMETER.mostAmps) / (1 + perAmp / SOURCE_OHMS);
  const amps = (OHMMETER.openVolts - volts) / SOURCE_OHMS;
  const response = view.inject([...pair(red, black, amps), ...thresholds]);
  const diodes = [...response.branches()].map(({ element }) => element).filter(isDiode);
  return { volts, amps, response, diodes };
}

const pair = (into: string, outOf: string, amps: number) => [
  { point: into, amps },
  { point: outOf, amps: -amps },
];

const isDiode = (element: Element): element is Diode => element.law.kind === 'diode';

function noticeable({ response, amps }: Driven): string[] {
  return [...response.branches()].flatMap(({ element, amps: own }) =>
    isDiode(element) && Math.abs(own) >= NOTICEABLE_SHARE * Math.abs(amps) ? [element.id] : [],
  );
}
