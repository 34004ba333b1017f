// A network in the making: branches that depend on flags, and what sets each flag. A flag is anything that is on or off:
// a coil that is pulled, a module that is awake, a diode that conducts, a motor that turns.
// It must not import anything of the graph or the circuit.

import type { Branch, Device } from './spice-net.js';

export type Flags = ReadonlySet<string>;

/** Volts between two points; null when they do not hang together. */
export type Meter = (plus: string, minus: string) => number | null;

interface FlaggedBranch {
  readonly id: string;
  readonly a: string;
  readonly b: string;
  /** Null: open. */
  readonly device: (flags: Flags) => Device | null;
}

/** SPICE's last digits must not flip a flag at its very threshold. */
const LEAST_VOLTS = 1e-7;

/** Whether volts are over a threshold; one that is set stays set at the threshold itself. */
function isOver(isSet: boolean, volts: number, threshold: number): boolean {
  return volts > threshold + (isSet ? -LEAST_VOLTS : LEAST_VOLTS);
}

type Decision = (isSet: boolean, meter: Meter, flags: Flags) => boolean;

/** Leak of a regulator that gives nothing, and of an electronic load that is off, ohms: as the project documents them. */
const REGULATOR_LEAK_OHMS = 1e9;
const OFF_INPUT_OHMS = 1e5;

export class Sketch {
  readonly points = new Set<string>();
  private readonly flagged: FlaggedBranch[] = [];
  private readonly decisions = new Map<string, Decision>();

  branch(id: string, a: string, b: string, device: (flags: Flags) => Device | null): void {
    this.points.add(a).add(b);
    this.flagged.push({ id, a, b, device });
  }

  /** What a flag is next, given what it is and what the meter shows. */
  decide(flag: string, next: Decision): void {
    this.decisions.set(flag, next);
  }

  resistor(id: string, a: string, b: string, ohms: number, isClosed: (flags: Flags) => boolean = () => true): void {
    this.branch(id, a, b, (flags) => (isClosed(flags) ? { kind: 'resistor', ohms } : null));
  }

  battery(id: string, a: string, b: string, volts: number, dischargeOhms: number, chargeOhms: number): void {
    const charging = `${id} charging`;
    this.branch(id, a, b, (flags) => ({
      kind: 'source',
      volts,
      ohms: flags.has(charging) ? chargeOhms : dischargeOhms,
    }));
    this.decide(charging, (isSet, meter) => isOver(isSet, meter(a, b) ?? 0, volts));
  }

  regulator(
    id: string,
    a: string,
    b: string,
    law: { volts: number; ohms: number; limitAmps: number; sense?: string | undefined },
    isOn: (flags: Flags) => boolean = () => true,
  ): void {
    const limited = `${id} limited`;
    const idle = `${id} idle`;
    this.branch(id, a, b, (flags) => {
      if (!isOn(flags)) return null;
      if (flags.has(limited)) return { kind: 'current', amps: law.limitAmps };
      if (flags.has(idle)) return { kind: 'resistor', ohms: REGULATOR_LEAK_OHMS };
      return { kind: 'source', volts: law.volts, ohms: law.ohms, sense: law.sense ?? null };
    });
    // Volts that are missing at the point of regulation.
    const missing = (meter: Meter): number => law.volts - (meter(law.sense ?? a, b) ?? 0);
    // From either end it regulates first, else two regulators could jump past each other for ever.
    this.decide(
      limited,
      (isSet, meter, flags) => isOver(isSet, missing(meter), law.limitAmps * law.ohms) && !flags.has(idle),
    );
    this.decide(idle, (isSet, meter, flags) => isOver(isSet, -missing(meter), 0) && !flags.has(limited));
  }

  filament(id: string, a: string, b: string, volts: number, amps: number, coldOhms: number): void {
    const hot = `${id} hot`;
    const coldVolts = volts * ((coldOhms * amps) / volts) ** (1 / 0.45);
    this.branch(id, a, b, (flags) =>
      flags.has(hot) ? { kind: 'filament', volts, amps } : { kind: 'resistor', ohms: coldOhms },
    );
    this.decide(hot, (isSet, meter) => isOver(isSet, Math.abs(meter(a, b) ?? 0), coldVolts));
  }

  /** Above its threshold the leak and the forward branch together are one source behind one resistance. */
  diode(id: string, anode: string, cathode: string, forwardVolts: number, seriesOhms: number, leakOhms: number): void {
    const conducting = `${id} conducting`;
    const ohms = 1 / (1 / seriesOhms + 1 / leakOhms);
    this.branch(id, anode, cathode, (flags) =>
      flags.has(conducting)
        ? { kind: 'source', volts: (forwardVolts * ohms) / seriesOhms, ohms }
        : { kind: 'resistor', ohms: leakOhms },
    );
    this.decide(conducting, (isSet, meter) => isOver(isSet, meter(anode, cathode) ?? 0, forwardVolts));
  }

  motor(
    id: string,
    a: string,
    b: string,
    law: { volts: number; amps: number; stallOhms: number; startVolts: number; reversible: boolean },
  ): void {
    const turning = `${id} turning`;
    this.branch(id, a, b, (flags) => ({
      kind: 'resistor',
      ohms: flags.has(turning) ? law.volts / law.amps : law.stallOhms,
    }));
    this.decide(turning, (_isSet, meter) => {
      const volts = meter(a, b) ?? 0;
      return (law.reversible ? Math.abs(volts) : volts) >= law.startVolts;
    });
  }

  ptc(id: string, a: string, b: string, volts: number, coldOhms: number, hotOhms: number): void {
    const hot = `${id} hot`;
    this.branch(id, a, b, (flags) =>
      flags.has(hot) ? { kind: 'resistor', ohms: hotOhms } : { kind: 'ptc', volts, coldOhms, hotOhms },
    );
    this.decide(hot, (_isSet, meter) => Math.abs(meter(a, b) ?? 0) >= volts);
  }

  /** Watts and amps from a cut-off up: a switching supply, or the electronics of a module. */
  electronic(
    id: string,
    a: string,
    b: string,
    law: { watts: number; amps: number; cutoffVolts: number },
    isOn: (flags: Flags) => boolean = () => true,
  ): void {
    const fed = `${id} fed`;
    this.branch(id, a, b, (flags) => {
      if (!isOn(flags)) return null;
      if (!flags.has(fed)) return { kind: 'resistor', ohms: OFF_INPUT_OHMS };
      return { kind: 'electronic', watts: law.watts, amps: law.amps };
    });
    this.decide(fed, (_isSet, meter) => (meter(a, b) ?? 0) >= law.cutoffVolts);
  }

  converter(
    address: string,
    ends: { in: string; neg: string; out: string; outneg: string },
    law: { volts: number; ohms: number; limitAmps: number; efficiency: number; idleAmps: number; cutoffVolts: number },
  ): void {
    const fed = `${address} fed`;
    const { efficiency, idleAmps: amps } = law;
    this.regulator(`${address}:output`, ends.out, ends.outneg, law, (flags) => flags.has(fed));
    this.branch(`${address}:input`, ends.in, ends.neg, (flags) =>
      flags.has(fed)
        ? { kind: 'converter', outputBranch: `${address}:output`, efficiency, amps }
        : { kind: 'resistor', ohms: OFF_INPUT_OHMS },
    );
    this.decide(fed, (_isSet, meter) => (meter(ends.in, ends.neg) ?? 0) >= law.cutoffVolts);
  }

  branches(flags: Flags): readonly Branch[] {
    return this.flagged.flatMap(({ id, a, b, device }) => {
      const made = device(flags);
      return made === null ? [] : [{ id, a, b, device: made }];
    });
  }

  next(flags: Flags, meter: Meter): Flags {
    return new Set(
      [...this.decisions].filter(([flag, next]) => next(flags.has(flag), meter, flags)).map(([flag]) => flag),
    );
  }
}
