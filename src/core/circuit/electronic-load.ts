/**
 * The curve shared by all loads with a switching supply or a regulator at their input: off, coming on, on.
 * It must not know which part it belongs to.
 *
 * Such a load draws `watts / V + amps` from its cut-off up, and is a high resistance below. It comes on over a short ramp,
 * so that every load line meets the curve. With f(V) rising from 0 to 1 over the ramp,
 *
 *     I(V) = f(V) (watts / V + amps) + (1 - f(V)) V Goff
 *
 * The falling part is frozen at the assumed volts u as the conductance G = I(u) / u: min(I(V), G V) on the ramp and G V
 * above never falls, is continuous, and equals I(V) where u = V.
 */

export interface ElectronicDemand {
  readonly cutoffVolts: number;
  readonly watts: number;
  readonly amps: number;
}

/** The ramp's share of the cut-off (our own choice: wide enough to converge, too narrow to see on a meter). */
const RAMP = 0.02;

/** Input while off, siemens: filter and start-up resistor of 100 kilohms (order of magnitude from memory). */
const OFF_SIEMENS = 1e-5;

/** Keeps every slope positive, siemens. */
const LEAST_SIEMENS = 1e-9;

const LEAST_CUTOFF_VOLTS = 0.1;

/** Amps at `volts`, the falling part frozen at `assumedVolts`. */
export function frozenAmps(demand: ElectronicDemand, volts: number, assumedVolts: number): number {
  const on = fractionOn(demand, volts);
  if (on === 0) return volts * offSiemens(demand);
  const frozen = volts * frozenSiemens(demand, assumedVolts);
  return on === 1 ? frozen : Math.min(rampAmps(demand, volts, on), frozen);
}

/** Slope of `frozenAmps`, siemens. */
export function frozenSlope(demand: ElectronicDemand, volts: number, assumedVolts: number): number {
  const on = fractionOn(demand, volts);
  if (on === 0) return offSiemens(demand);
  const siemens = frozenSiemens(demand, assumedVolts);
  return on < 1 && rampAmps(demand, volts, on) < volts * siemens ? demandSlope(demand, volts) : siemens;
}

/** Slope of the curve itself, siemens: negative from the cut-off up wherever watts are drawn. */
export function demandSlope(demand: ElectronicDemand, volts: number): number {
  const on = fractionOn(demand, volts);
  if (on === 0) return offSiemens(demand);
  const falling = -demand.watts / volts ** 2;
  if (on === 1) return falling;
  const off = offSiemens(demand);
  const rise = 1 / (cutoffOf(demand) * RAMP);
  return rise * (onAmps(demand, volts) - volts * off) + on * falling + (1 - on) * off;
}

const cutoffOf = (demand: ElectronicDemand): number => Math.max(demand.cutoffVolts, LEAST_CUTOFF_VOLTS);

const onAmps = (demand: ElectronicDemand, volts: number): number => demand.watts / volts + demand.amps;

function fractionOn(demand: ElectronicDemand, volts: number): number {
  const cutoff = cutoffOf(demand);
  return Math.min(1, Math.max(0, 1 - (cutoff - volts) / (cutoff * RAMP)));
}

function frozenSiemens(demand: ElectronicDemand, assumedVolts: number): number {
  const volts = Math.max(assumedVolts, cutoffOf(demand));
  return Math.max(LEAST_SIEMENS, onAmps(demand, volts) / volts);
}

/** Never more than what the load draws at its cut-off, so that the ramp rises. */
function offSiemens(demand: ElectronicDemand): number {
  const cutoff = cutoffOf(demand);
  return Math.max(LEAST_SIEMENS, Math.min(OFF_SIEMENS, onAmps(demand, cutoff) / cutoff));
}

function rampAmps(demand: ElectronicDemand, volts: number, on: number): number {
  return on * onAmps(demand, volts) + (1 - on) * volts * offSiemens(demand);
}
