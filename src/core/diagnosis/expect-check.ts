/**
 * What a check is expected to show under a hypothesis, kind by kind.
 * It must not choose checks nor weigh results.
 */
import type { Element } from '../graph/element.js';
import { voltsAsMetered } from './as-metered.js';
import { expectIsolation, expectOhms } from './expect-ohms.js';
import { type Expected, meterVolts, words } from './expected.js';
import type { Fault } from './fault.js';
import { type Hypothesis, isIntermittent, nothingWrong, singlesOf, together, whileGone } from './hypotheses.js';
import type { Inquiry } from './inquiry.js';
import type { Prediction } from './prediction.js';
import type { Check, CheckOf } from './shapes/check.js';
import { looksOf } from './symptoms.js';

/** Battery and supply differ from the record by so much, relative (engineering judgement: state of charge, contacts). */
const SUPPLY_SPREAD = 0.012;
/** Drops scatter with contacts: so much of a small drop, levelling off at fractions of a volt. */
const DROP_SPREAD = 0.35;
/** Other loads lift grounds, and contacts have potentials of their own: no record knows a point to a few millivolts (engineering judgement). */
const LEAST_VOLTS = 0.005;
/** Of the volts across a short. Part shorts of a winding are as uncertain; a drop as large as half the supply says little. */
const SHORT_SPREAD = 1;
/** Meter left alone on a floating point: its own 10 MΩ pull it to 0 like any dead point, sometimes with hum, sometimes to a ghost. */
const HUM_SHARE = 0.22;
const GHOST_SHARE = 0.08;
/** A back-probe that misses its contact shows 0 V. */
const MISSED_CONTACT_SHARE = 0.15;
const TEST_LAMP_WATTS = 3;
const LINK_OHMS = 0.02;

/** A hypothesis that no circuit can show expects anything, the healthy value first. */
export function expectCheck(inquiry: Inquiry, hypothesis: Hypothesis, check: Check): Expected {
  if (hypothesis.kind === 'unknown' || hypothesis.kind === 'record-wrong') return blurred(inquiry, check);
  if (!isIntermittent(hypothesis)) return plain(inquiry, hypothesis, check);
  if (check.kind === 'wiggle' || check.kind === 'inspect' || check.kind === 'swap' || check.kind === 'look')
    return plain(inquiry, hypothesis, check);
  // There for half of the time: a good value at rest never clears it.
  return mixed(plain(inquiry, hypothesis, check), plain(inquiry, whileGone(hypothesis), check));
}

function plain(inquiry: Inquiry, hypothesis: Hypothesis, check: Check): Expected {
  switch (check.kind) {
    case 'observe':
      return words(looksAt(inquiry, inquiry.view(hypothesis, check.state), check.function));
    case 'volts':
      return expectVolts(inquiry, withNewFuse(hypothesis, check), check);
    case 'lamp':
      return expectLamp(inquiry, hypothesis, check);
    case 'clamp': {
      const amps = inquiry.view(hypothesis, check.state).amps(check.wire);
      return {
        kind: 'number',
        scale: 'linear',
        parts: [{ share: 1, mean: amps, sd: 0.15 * Math.abs(amps) + 0.05 }],
        span: 60,
      };
    }
    case 'ohms':
      return expectOhms(inquiry.model, hypothesis.faults, check);
    case 'isolation':
      return expectIsolation(inquiry.model, hypothesis.faults, check);
    case 'look':
      return expectLook(inquiry, hypothesis, check);
    case 'swap':
      return expectSwap(inquiry, hypothesis, check);
    case 'inspect':
      return expectInspection(inquiry, hypothesis, check);
    case 'link': {
      const bridge = { kind: 'bridge', from: check.from, to: check.to, ohms: LINK_OHMS } as const;
      return words(looksAt(inquiry, inquiry.viewWith(hypothesis, check.state, [bridge]), check.function));
    }
    case 'wiggle': {
      const here = hypothesis.faults.filter((fault) => check.elements.includes(fault.element ?? ''));
      const moves = here.some(({ mode }) => mode === 'intermittent') ? 0.8 : here.length > 0 ? 0.15 : 0.02;
      return words({ changes: moves, steady: 1 - moves });
    }
  }
}

function looksAt(inquiry: Inquiry, view: Prediction, id: string): Record<string, number> {
  const fn = inquiry.model.graph.functions.get(id);
  if (fn === undefined) throw new RangeError(`no function ${id}`);
  return { ...looksOf(fn, view) };
}

/** A new fuse mends what was wrong with the old one, not what blew it. */
function withNewFuse(hypothesis: Hypothesis, { newFuse }: CheckOf<'volts'>): Hypothesis {
  const mends = ({ faults }: Hypothesis): boolean => faults.some(({ repair }) => repair === `fuse ${newFuse}`);
  return mends(hypothesis) ? together(singlesOf(hypothesis).filter((single) => !mends(single))) : hypothesis;
}

function expectVolts(inquiry: Inquiry, hypothesis: Hypothesis, check: CheckOf<'volts'>): Expected {
  const { model } = inquiry;
  const supply = model.graph.record.systemVolts ?? 12;
  const view = inquiry.view(hypothesis, check.state);
  const volts = voltsAsMetered(inquiry, hypothesis, check.state, check.red, check.black);
  const span = 3 * supply;
  if (volts === null) {
    const parts = [
      { share: 1 - HUM_SHARE - GHOST_SHARE, mean: 0, sd: spreadOfVolts(0, supply) },
      { share: HUM_SHARE, mean: 0, sd: 0.03 },
      { share: GHOST_SHARE, mean: supply / 2, sd: supply / 2 },
    ];
    return { kind: 'number', scale: 'linear', parts, span };
  }
  const own = spreadOfVolts(volts, supply);
  const short = shortSpread(inquiry, hypothesis, view);
  const { below, above } = gridSteps(inquiry, hypothesis, volts, check);
  const found = {
    share: 1,
    mean: volts,
    sd: Math.hypot(own, 0.35 * below, short),
    sdAbove: Math.hypot(own, 0.35 * above, short),
  };
  if (check.isBackProbed !== true) return { kind: 'number', scale: 'linear', parts: [found], span };
  const parts = [
    { ...found, share: 1 - MISSED_CONTACT_SHARE },
    { share: MISSED_CONTACT_SHARE, mean: 0, sd: 0.03 },
  ];
  return { kind: 'number', scale: 'linear', parts, span };
}

/**
 * How far the reading moves down and up from one point of the grid of ohms to the next. Each way by itself: volts that can only be lost
 * do not turn round.
 */
function gridSteps(inquiry: Inquiry, hypothesis: Hypothesis, volts: number, check: CheckOf<'volts'>) {
  let [below, above] = [0, 0];
  for (const near of inquiry.neighbours(hypothesis)) {
    const step = (inquiry.view(near, check.state).voltsBetween(check.red, check.black) ?? volts) - volts;
    if (step < 0) below = Math.max(below, -step);
    else above = Math.max(above, step);
  }
  if (!inquiry.endsGrid(hypothesis)) return { below, above };
  // Beyond the end of the grid as much is lost again, at most all.
  const onwards = Math.min(Math.max(below, above), Math.abs(volts));
  return volts < 0 ? { below, above: Math.max(above, onwards) } : { below: Math.max(below, onwards), above };
}

/** Nobody knows how good a short is: what drops across it may be thrice that much, or nothing. */
function shortSpread({ model }: Inquiry, { faults }: Hypothesis, view: Prediction): number {
  let most = 0;
  for (const { changes } of faults) {
    for (const change of changes) {
      const element = change.kind === 'law' ? model.graph.elements.get(change.element) : undefined;
      const [from, to] = change.kind === 'bridge' ? [change.from, change.to] : [element?.a, element?.b];
      if (from === undefined || to === undefined || (change.kind === 'law' && change.law.kind !== 'ohmic')) continue;
      most = Math.max(most, Math.abs(view.voltsBetween(from, to) ?? 0));
    }
  }
  return SHORT_SPREAD * most;
}

/** Supply scatter for what is carried over, contact scatter for what is dropped, and the meter. */
function spreadOfVolts(volts: number, supply: number): number {
  const size = Math.min(Math.abs(volts), supply);
  const dropped = Math.min(size, Math.max(0, supply * 1.05 - size));
  return Math.hypot(SUPPLY_SPREAD * size, (DROP_SPREAD * dropped) / (1 + dropped), meterVolts(volts), LEAST_VOLTS);
}

function expectLamp(inquiry: Inquiry, hypothesis: Hypothesis, check: CheckOf<'lamp'>): Expected {
  const rated = inquiry.model.graph.record.systemVolts ?? 12;
  const bridge = { kind: 'bridge', from: check.red, to: check.black, ohms: rated ** 2 / TEST_LAMP_WATTS } as const;
  const volts = inquiry.viewWith(hypothesis, check.state, [bridge]).voltsBetween(check.red, check.black) ?? 0;
  const share = Math.abs(volts) / rated;
  const lit = logistic((share - 0.15) / 0.03);
  const bright = logistic((share - 0.6) / 0.05) * lit;
  return words({ bright, dim: lit - bright, dark: 1 - lit });
}

function expectLook(inquiry: Inquiry, hypothesis: Hypothesis, check: CheckOf<'look'>): Expected {
  const own = hypothesis.faults.find((fault) => fault.owner === check.fuse && fault.repair === `fuse ${check.fuse}`);
  if (own?.mode === 'missing') return words({ missing: 0.98, blown: 0.01, good: 0.01 });
  if (own?.mode === 'wrong-rating') return words({ 'wrong-rating': 0.9, blown: 0.1 });
  const { blown } = inquiry.view(hypothesis, inquiry.mainState).lists;
  const isBlown = own?.mode === 'premature-open' || [...blown].some((id) => ownerOf(inquiry, id)?.owner === check.fuse);
  return isBlown ? words({ blown: 0.97, good: 0.03 }) : words({ good: 0.997, blown: 0.003 });
}

function ownerOf(inquiry: Inquiry, id: string): Element | undefined {
  return inquiry.model.graph.elements.get(id);
}

/**
 * A good one in its place cures what was wrong inside it. A dull contact of its socket can be better for the pulling, but then it stays
 * better with the old one back in (common practice: swap there and back); few fail again just then, an open one hardly ever.
 */
function expectSwap({ model }: Inquiry, hypothesis: Hypothesis, check: CheckOf<'swap'>): Expected {
  // An old fuse does not go back in.
  const isFuse = model.parts.get(check.part)?.kind === 'fuse';
  const socket = ({ mode }: Fault): number => (isFuse ? 0.25 : mode === 'open' ? 0.01 : 0.05);
  const cures = (fault: Fault): number => {
    if (fault.owner !== check.part) return 0;
    return fault.repair === `replace ${check.part}` || fault.repair === `fuse ${check.part}` ? 0.97 : socket(fault);
  };
  const cured =
    hypothesis.kind === 'healthy'
      ? 0.03
      : hypothesis.faults.length === 1
        ? Math.max(0.01, ...hypothesis.faults.map(cures))
        : 0.05;
  return words({ cured, same: 1 - cured });
}

/** What eyes find at a plug, a stud or a crimp: about half of what is wrong there. */
function expectInspection(inquiry: Inquiry, hypothesis: Hypothesis, check: CheckOf<'inspect'>): Expected {
  const visible = (fault: Fault): number => {
    const element = ownerOf(inquiry, fault.element ?? '');
    const isHere =
      fault.owner === check.part || [element?.a, element?.b].some((point) => partOf(inquiry, point) === check.part);
    if (!isHere) return 0;
    switch (fault.mode) {
      case 'swapped-cavities':
        return 0.9;
      case 'short-to-neighbour':
        return 0.6;
      case 'open':
      case 'high-resistance':
      case 'intermittent':
        return element?.role === 'conductor' ? 0.1 : 0.5;
      default:
        return 0.1;
    }
  };
  const seen = Math.max(0.04, ...hypothesis.faults.map(visible));
  return words({ damaged: seen, clean: 1 - seen });
}

function partOf(inquiry: Inquiry, point: string | undefined): string | undefined {
  const found = point === undefined ? undefined : inquiry.model.graph.points.get(point);
  return found?.role === 'inner' && found.owner !== undefined ? found.owner : found?.owner;
}

/** Something that is not in the catalogue, or a harness other than recorded: as recorded, dead, or anything at all. */
function blurred(inquiry: Inquiry, check: Check): Expected {
  const healthy = plain(inquiry, nothingWrong, check);
  if (healthy.kind === 'words') {
    const count = healthy.shares.size;
    return {
      kind: 'words',
      shares: new Map([...healthy.shares].map(([word, share]) => [word, 0.5 * share + 0.5 / count])),
    };
  }
  const middle = healthy.scale === 'log' ? 3 : (inquiry.model.graph.record.systemVolts ?? 12) / 2;
  const low = healthy.scale === 'log' ? 8 : 0;
  const parts = [
    ...healthy.parts.map((part) => ({ ...part, share: 0.4 * part.share })),
    { share: 0.2, mean: low, sd: healthy.scale === 'log' ? 0.3 : 0.05 },
    { share: 0.4, mean: middle, sd: middle },
  ];
  return { kind: 'number', scale: healthy.scale, parts, span: healthy.span };
}

function mixed(faulty: Expected, healthy: Expected): Expected {
  if (faulty.kind === 'words' && healthy.kind === 'words') {
    const shares = new Map<string, number>();
    for (const { shares: some } of [faulty, healthy])
      for (const [word, share] of some) shares.set(word, (shares.get(word) ?? 0) + share / 2);
    return { kind: 'words', shares };
  }
  if (faulty.kind === 'number' && healthy.kind === 'number') {
    const parts = [...faulty.parts, ...healthy.parts].map((part) => ({ ...part, share: part.share / 2 }));
    return { kind: 'number', scale: faulty.scale, parts, span: faulty.span };
  }
  return faulty;
}

function logistic(x: number): number {
  return 1 / (1 + Math.exp(-x));
}
