/**
 * How each kind of element conducts: one table of laws, each one formula that holds for both signs of the volts.
 * It must not know the network: volts in, amps and slope out.
 *
 * Every law is given as a curve that never falls: the solver then minimises a convex function and cannot lose its way. A
 * law that does fall somewhere (constant power, a heater that chokes itself) is frozen at the volts `assumed`; the solver
 * moves `assumed` to the volts that it finds until the two agree.
 */
import type { Law } from '../graph/element.js';
import { demandSlope, type ElectronicDemand, frozenAmps, frozenSlope } from './electronic-load.js';

/** An ohmic element that holds its current at a limit: the driver of a module output. */
export interface DriverLaw {
  readonly kind: 'driver';
  readonly ohms: number;
  readonly limitAmps: number;
}

/** The laws of the graph, and the one that the circuit makes of a driver and its limit. */
export type CircuitLaw = Law | DriverLaw;

type LawOf<K extends CircuitLaw['kind']> = Extract<CircuitLaw, { kind: K }>;

/** What one element remembers between two steps of the solver. */
export interface LawMemory {
  /** Volts at which a falling law is frozen. */
  assumedVolts: number;
  /** The last step: what was assumed, and what was found with it. */
  lastAssumedVolts: number;
  lastFoundVolts: number;
  /** Added to the open-circuit volts of a source: for a sense point, or for a measured battery. */
  offsetVolts: number;
  /** Watts that a converter passes to its output. */
  outputWatts: number;
  /** Motor: running, not stalled. */
  isTurning: boolean;
}

export interface LawForm<L extends CircuitLaw> {
  /** Current from a to b, amps, of the law frozen at `memory`. Never falls with rising volts. */
  amps(law: L, volts: number, memory: LawMemory): number;
  /** Its slope, siemens, always positive. */
  slope(law: L, volts: number, memory: LawMemory): number;
  /** Slope of the law itself, siemens; negative where it falls. */
  trueSlope(law: L, volts: number, memory: LawMemory): number;
  /**
   * Where the law jumps, or a source stops holding its volts for all others: volts across it, or amps through it. Knees that
   * bend one branch alone (a diode, a filament going cold) move no reading by leaps and are left out.
   */
  thresholds?(law: L, amps: number): readonly LawThreshold[];
}

export interface LawThreshold {
  readonly of: 'volts' | 'amps';
  readonly at: number;
}

/** Leak of a regulator that is off or at its limit, siemens: keeps the slope positive, 12 nA at 12 V. */
const REGULATOR_LEAK_SIEMENS = 1e-9;

/** I ~ V^0.55 for incandescent filaments: common practice, after the IES lamp-life formulas (current exponent 0.541). */
const FILAMENT_EXPONENT = 0.55;

/** Ohm's law. */
const ohmic: LawForm<LawOf<'ohmic'>> = {
  amps: (law, volts) => volts / law.ohms,
  slope: (law) => 1 / law.ohms,
  trueSlope: (law) => 1 / law.ohms,
};

/** Ohm's law up to the limit, then a steady current, odd in V: common practice for protected drivers. */
const driver: LawForm<LawOf<'driver'>> = {
  amps: (law, volts) =>
    Math.max(-law.limitAmps, Math.min(law.limitAmps, volts / law.ohms)) + volts * REGULATOR_LEAK_SIEMENS,
  slope: driverSlope,
  trueSlope: driverSlope,
  thresholds: (law) => (law.limitAmps < Number.POSITIVE_INFINITY ? [{ of: 'amps', at: law.limitAmps }] : []),
};

function driverSlope(law: LawOf<'driver'>, volts: number): number {
  return REGULATOR_LEAK_SIEMENS + (Math.abs(volts) < law.limitAmps * law.ohms ? 1 / law.ohms : 0);
}

/** Thevenin source, I = (V - E) / R, with one resistance for discharge (V < E) and one for charge. Open book, DC ch. 11. */
const battery: LawForm<LawOf<'battery'>> = {
  amps: (law, volts, memory) => (volts - emf(law, memory)) / branchOhms(law, volts, memory),
  slope: (law, volts, memory) => 1 / branchOhms(law, volts, memory),
  trueSlope: (law, volts, memory) => 1 / branchOhms(law, volts, memory),
};

/** Resistance of a winding behind the volts that its inductance takes: a source that is the same in both directions. */
export function windingLaw(ohms: number, inductiveVolts: number): Law {
  return { kind: 'battery', volts: inductiveVolts, dischargeOhms: ohms, chargeOhms: ohms };
}

const emf = (law: LawOf<'battery'>, memory: LawMemory): number => law.volts + memory.offsetVolts;
const branchOhms = (law: LawOf<'battery'>, volts: number, memory: LawMemory): number =>
  volts < emf(law, memory) ? law.dischargeOhms : law.chargeOhms;

/**
 * Regulator: holds its volts over a small resistance, gives at most its limit (then it is a current source), takes nothing
 * back. I = -min(limit, max(0, (E - V) / R)) + V * leak. Common practice for alternators and bench supplies.
 */
const regulated: LawForm<LawOf<'regulated'>> = {
  amps: (law, volts, memory) =>
    volts * REGULATOR_LEAK_SIEMENS - Math.min(law.limitAmps, Math.max(0, regulatorDrive(law, volts, memory))),
  slope: regulatorSlope,
  trueSlope: regulatorSlope,
  // At its limit only the volts tell how near it is to regulating again.
  thresholds: (law, amps) =>
    isAtLimit(law, amps) ? [{ of: 'volts', at: law.volts }] : [{ of: 'amps', at: law.limitAmps }],
};

/** What the regulator would give if nothing limited it, amps. */
const regulatorDrive = (law: LawOf<'regulated'>, volts: number, memory: LawMemory): number =>
  (law.volts + memory.offsetVolts - volts) / law.ohms;

function regulatorSlope(law: LawOf<'regulated'>, volts: number, memory: LawMemory): number {
  const drive = regulatorDrive(law, volts, memory);
  return REGULATOR_LEAK_SIEMENS + (drive > 0 && drive < law.limitAmps ? 1 / law.ohms : 0);
}

/** Whether a source or driver gives all that it may; the leak of one that is at its limit is below a millionth of that. */
export function isAtLimit(law: CircuitLaw, amps: number): boolean {
  return (law.kind === 'regulated' || law.kind === 'driver') && Math.abs(amps) >= law.limitAmps * (1 - 1e-6);
}

/**
 * I = Ir * (V / Vr)^0.55, odd in V; ohmic with the cold resistance below the volts at which V / I has come down to it, which
 * is where the cold resistance would let less through.
 */
const filament: LawForm<LawOf<'filament'>> = {
  amps: (law, volts) => Math.sign(volts) * Math.min(Math.abs(volts) / law.coldOhms, hotAmps(law, volts)),
  slope: filamentSlope,
  trueSlope: filamentSlope,
};

const hotAmps = (law: LawOf<'filament'>, volts: number): number =>
  law.ratedAmps * (Math.abs(volts) / law.ratedVolts) ** FILAMENT_EXPONENT;

function filamentSlope(law: LawOf<'filament'>, volts: number): number {
  const magnitude = Math.abs(volts);
  const hot = hotAmps(law, volts);
  const isCold = magnitude < DARK_VOLTS || magnitude / law.coldOhms <= hot;
  return isCold ? 1 / law.coldOhms : (FILAMENT_EXPONENT * hot) / magnitude;
}

/** Its resistance once it glows as at these volts; what RMS volts of pulses come to. */
export function filamentOhms(law: LawOf<'filament'>, volts: number): number {
  return volts < DARK_VOLTS ? law.coldOhms : Math.max(law.coldOhms, volts / hotAmps(law, volts));
}

/** No filament is warm at a nanovolt; powers of still smaller numbers underflow. */
const DARK_VOLTS = 1e-9;

/**
 * Diodes and LEDs, piecewise linear: I = V / leak + max(0, V - Vf) / series. In reverse only the leak flows; breakdown is
 * not modelled. Open book, vol. III ch. 3 (piecewise-linear diode).
 */
const diode: LawForm<LawOf<'diode'>> = {
  amps: (law, volts) => volts / law.leakOhms + Math.max(0, volts - law.forwardVolts) / law.seriesOhms,
  slope: diodeSlope,
  trueSlope: diodeSlope,
};

function diodeSlope(law: LawOf<'diode'>, volts: number): number {
  return 1 / law.leakOhms + (volts > law.forwardVolts ? 1 / law.seriesOhms : 0);
}

/**
 * Turning: current in proportion to volts through the rated point (pump and fan loads, common practice). Standing: the
 * winding alone. Which of the two holds is a discrete state with hysteresis, see `shouldTurn`.
 */
const motor: LawForm<LawOf<'motor'>> = {
  amps: (law, volts, memory) => volts / motorOhms(law, memory),
  slope: (law, _volts, memory) => 1 / motorOhms(law, memory),
  trueSlope: (law, _volts, memory) => 1 / motorOhms(law, memory),
  thresholds: (law) => [{ of: 'volts', at: law.startVolts }],
};

const motorOhms = (law: LawOf<'motor'>, memory: LawMemory): number =>
  memory.isTurning ? law.ratedVolts / law.ratedAmps : law.stallOhms;

/** A motor turns while the volts reach its start volts; against its direction only when it is reversible. */
export function shouldTurn(law: LawOf<'motor'>, volts: number): boolean {
  return (law.reversible ? Math.abs(volts) : volts) >= law.startVolts;
}

/**
 * Heater that raises its own resistance: R = Rcold + (Rhot - Rcold) * min(1, (V / Vr)^2), the rise taken in proportion to
 * the power of the fixed resistance (our own simplification). Frozen at the assumed volts.
 */
const ptc: LawForm<LawOf<'ptc'>> = {
  amps: (law, volts, memory) => volts / ptcOhms(law, memory.assumedVolts),
  slope: (law, _volts, memory) => 1 / ptcOhms(law, memory.assumedVolts),
  trueSlope: (law, volts) => {
    const ohms = ptcOhms(law, volts);
    const rise =
      Math.abs(volts) < law.ratedVolts ? (2 * (law.hotOhms - law.coldOhms) * volts) / law.ratedVolts ** 2 : 0;
    return (ohms - volts * rise) / ohms ** 2;
  },
};

/** Its resistance when it is as warm as at these volts; what RMS volts of pulses come to. */
export function ptcOhms(law: LawOf<'ptc'>, volts: number): number {
  return law.coldOhms + (law.hotOhms - law.coldOhms) * Math.min(1, (volts / law.ratedVolts) ** 2);
}

/** I = P / V from the cut-off up: a switching supply behind the terminals. */
const constantPower = electronicForm<LawOf<'constant-power'>>((law) => ({
  cutoffVolts: law.cutoffVolts,
  watts: law.watts,
  amps: 0,
}));

/** Input of a converter: I = output watts / (efficiency * V) + idle amps, from the cut-off up. */
const converterInput = electronicForm<LawOf<'converter-input'>>((law, memory) => ({
  cutoffVolts: law.cutoffVolts,
  watts: memory.outputWatts / law.efficiency,
  amps: law.idleAmps,
}));

/** A steady draw (the idle current of a module) from its least volts up. */
const draw = electronicForm<LawOf<'draw'>>((law) => ({ cutoffVolts: law.minimumVolts, watts: 0, amps: law.amps }));

function electronicForm<L extends CircuitLaw>(demandOf: (law: L, memory: LawMemory) => ElectronicDemand): LawForm<L> {
  return {
    amps: (law, volts, memory) => frozenAmps(demandOf(law, memory), volts, memory.assumedVolts),
    slope: (law, volts, memory) => frozenSlope(demandOf(law, memory), volts, memory.assumedVolts),
    trueSlope: (law, volts, memory) => demandSlope(demandOf(law, memory), volts),
    thresholds: (law) => [{ of: 'volts', at: demandOf(law, freshMemory()).cutoffVolts }],
  };
}

const LAWS: { readonly [K in CircuitLaw['kind']]: LawForm<LawOf<K>> } = {
  ohmic,
  driver,
  battery,
  regulated,
  filament,
  diode,
  motor,
  ptc,
  'constant-power': constantPower,
  'converter-input': converterInput,
  draw,
};

/** The row of the table for a law. */
export function formOf<L extends CircuitLaw>(law: L): LawForm<L> {
  // The table's type says that row and law belong together; TypeScript cannot follow it through a union.
  return LAWS[law.kind] as unknown as LawForm<L>;
}

/** Whether a law depends on more than the volts of now: on what it is frozen at, on its source's offset, on a motor that turns. */
export function hasMemory({ kind }: CircuitLaw): boolean {
  return kind !== 'ohmic' && kind !== 'filament' && kind !== 'diode' && kind !== 'driver';
}

/** Memory of an element that has not yet seen any volts. */
export function freshMemory(): LawMemory {
  return { assumedVolts: 0, lastAssumedVolts: 0, lastFoundVolts: 0, offsetVolts: 0, outputWatts: 0, isTurning: false };
}

/** Numbers of a law that must be positive for it to have a meaning; the first bad one, or null. */
export function badLawValue(law: CircuitLaw): { readonly name: string; readonly value: number } | null {
  if (law.kind === 'ohmic' && law.ohms > 0 && law.ohms < Number.POSITIVE_INFINITY) return null;
  for (const [name, value] of Object.entries(law)) {
    if (typeof value !== 'number') continue;
    const mayBeZero =
      name === 'volts' || name === 'idleAmps' || name === 'amps' || name === 'watts' || name.endsWith('Volts');
    const isGood = name === 'limitAmps' ? value > 0 : Number.isFinite(value) && (mayBeZero ? value >= 0 : value > 0);
    if (!isGood) return { name, value };
  }
  return null;
}
