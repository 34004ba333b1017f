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

/** What is wrong with a branch, or lies between two points where nothing should. */
export type Alteration =
  | { readonly kind: 'open'; readonly branch: string }
  | { readonly kind: 'series'; readonly branch: string; readonly ohms: number }
  | { readonly kind: 'stuck'; readonly branch: string; readonly isClosed: boolean }
  | { readonly kind: 'moved'; readonly branch: string; readonly end: 'a' | 'b'; readonly to: string }
  | { readonly kind: 'ohmic'; readonly branch: string; readonly ohms: number }
  | { readonly kind: 'battery'; readonly branch: string; readonly volts: number; readonly dischargeOhms: number }
  | { readonly kind: 'bridge'; readonly from: string; readonly to: string; readonly ohms: number };

/** SPICE's last digits must not flip a flag at its very threshold. */
const LEAST_VOLTS = 1e-7;

/** Whether volts are over a threshold; one that is set stays set at the threshold itself. */
function isOver(isSet: boolean, volts: number, threshold: number): boolean {
  return volts > threshold + (isSet ? -LEAST_VOLTS : LEAST_VOLTS);
}

export interface Protection {
  /** Opens at this current. */
  readonly opensAtAmps: number;
  /** Electronics are quicker than any fuse. */
  readonly isElectronic: boolean;
  /** Closes again, once its supply or what it feeds is off. */
  readonly letsGo: boolean;
}

/** ISO 8820-3: a fuse opens at 1.35 of its rating (within 600 s; from memory). */
const OPENS_AT = 1.35;

type Decision = (isSet: boolean, meter: Meter, flags: Flags) => boolean;

/** Leak of a regulator that gives nothing, and of an electronic load that is off, ohms: as the project documents them. */
const REGULATOR_LEAK_OHMS = 1e9;
const OFF_INPUT_OHMS = 1e5;

/** Electronics come on over the last 2 % below their cut-off (as the project documents them), so that every load line meets them. */
const RAMP = 0.02;

export class Sketch {
  readonly points = new Set<string>();
  /** Contacts that part when a plug is pulled or a part taken out. */
  readonly matings = new Set<string>();
  /** Batteries and everything else that gives. */
  readonly sources = new Set<string>();
  /** Fuses, links, breakers and outputs that trip, by branch: what opens each, and whether it lets go by itself afterwards. */
  readonly protections = new Map<string, Protection>();
  /** By id: what was drawn, open or not. */
  readonly flagged = new Map<string, FlaggedBranch>();
  private readonly decisions = new Map<string, Decision>();
  private readonly wrong = new Map<string, Alteration[]>();

  /** `factors`: the main figure of a branch over the recorded one. */
  constructor(
    private readonly alterations: readonly Alteration[] = [],
    private readonly factors: ReadonlyMap<string, number> = new Map(),
  ) {
    for (const it of alterations)
      if (it.kind !== 'bridge') this.wrong.set(it.branch, [...(this.wrong.get(it.branch) ?? []), it]);
  }

  /** `closed` is what a contact is while it is closed, for one that is stuck. */
  branch(
    id: string,
    a: string,
    b: string,
    device: (flags: Flags) => Device | null,
    closed: Device | null = null,
  ): void {
    this.points.add(a).add(b);
    const stuck = this.altered(id, 'stuck');
    const isOpen = this.altered(id, 'open') !== undefined || stuck?.isClosed === false;
    const drawn = isOpen ? () => null : stuck?.isClosed === true ? () => closed : device;
    this.flagged.set(id, { id, a, b, device: drawn });
  }

  /** Call last: links that nobody drew. */
  drawBridges(): void {
    this.alterations.forEach((it, i) => {
      if (it.kind === 'bridge') this.resistor(`bridge ${i}`, it.from, it.to, it.ohms);
    });
  }

  protect(branch: string, ratingAmps: number, letsGo = false): void {
    this.protections.set(branch, { opensAtAmps: OPENS_AT * ratingAmps, isElectronic: false, letsGo });
  }

  private altered<K extends Alteration['kind']>(id: string, kind: K): Extract<Alteration, { kind: K }> | undefined {
    return this.wrong.get(id)?.find((it): it is Extract<Alteration, { kind: K }> => it.kind === kind);
  }

  /** Where the ends of a branch sit, which may not be where they belong. */
  private ends(id: string, a: string, b: string): [string, string] {
    const ends: [string, string] = [a, b];
    for (const it of this.wrong.get(id) ?? []) if (it.kind === 'moved') ends[it.end === 'a' ? 0 : 1] = it.to;
    return ends;
  }

  private factor(id: string): number {
    return this.factors.get(id) ?? 1;
  }

  /** Draws what is left of a shorted part; false where the branch is what it should be. */
  private isReplaced(id: string, a: string, b: string): boolean {
    const own = this.altered(id, 'ohmic');
    if (this.altered(id, 'series') !== undefined) throw new Error(`${id} is no plain resistance`);
    if (own !== undefined) this.branch(id, a, b, () => ({ kind: 'resistor', ohms: own.ohms }));
    return own !== undefined;
  }

  /** What a flag is next, given what it is and what the meter shows. */
  decide(flag: string, next: Decision): void {
    this.decisions.set(flag, next);
  }

  resistor(id: string, a: string, b: string, ohms: number, isClosed: (flags: Flags) => boolean = () => true): void {
    const own = this.altered(id, 'ohmic')?.ohms ?? ohms * this.factor(id) + (this.altered(id, 'series')?.ohms ?? 0);
    const closed: Device = { kind: 'resistor', ohms: own };
    this.branch(id, ...this.ends(id, a, b), (flags) => (isClosed(flags) ? closed : null), closed);
  }

  /** The driver of an output: a resistance up to its limit, from there a steady current, whichever way it flows. */
  driver(
    id: string,
    a: string,
    b: string,
    law: { ohms: number; limitAmps: number; tripsAtAmps?: number | undefined },
    isClosed: (flags: Flags) => boolean,
  ): void {
    if (law.tripsAtAmps !== undefined) {
      // Held at its limit it gets hot and goes as well; it is held there but for the last digits.
      const opensAtAmps = Math.min(law.tripsAtAmps, law.limitAmps) * (1 - 1e-9);
      this.protections.set(id, { opensAtAmps, isElectronic: true, letsGo: false });
    }
    const own = this.altered(id, 'ohmic')?.ohms ?? law.ohms * this.factor(id) + (this.altered(id, 'series')?.ohms ?? 0);
    const closed: Device = { kind: 'resistor', ohms: own };
    const [from, to] = this.ends(id, a, b);
    const [onward, back] = [`${id} limited`, `${id} limited back`];
    this.branch(
      id,
      from,
      to,
      (flags) => {
        if (!isClosed(flags)) return null;
        if (flags.has(onward)) return { kind: 'current', amps: -law.limitAmps };
        return flags.has(back) ? { kind: 'current', amps: law.limitAmps } : closed;
      },
      closed,
    );
    const limitVolts = law.limitAmps * own;
    this.decide(onward, (isSet, meter, flags) => isClosed(flags) && isOver(isSet, meter(from, to) ?? 0, limitVolts));
    this.decide(back, (isSet, meter, flags) => isClosed(flags) && isOver(isSet, meter(to, from) ?? 0, limitVolts));
  }

  /** A coil and the flag that it sets: pulled in at or above one voltage, kept down to another. An open one pulls nothing. */
  coil(
    id: string,
    flag: string,
    a: string,
    b: string,
    { ohms, pullIn, dropOut }: { ohms: number; pullIn: number; dropOut: number },
  ): void {
    this.resistor(id, a, b, ohms);
    const isWhole = this.altered(id, 'open') === undefined;
    this.decide(flag, (isSet, meter) => isWhole && Math.abs(meter(a, b) ?? 0) >= (isSet ? dropOut : pullIn));
  }

  battery(id: string, a: string, b: string, volts: number, dischargeOhms: number, chargeOhms: number): void {
    this.sources.add(id);
    const charging = `${id} charging`;
    const own = this.altered(id, 'battery') ?? { volts: volts * this.factor(id), dischargeOhms };
    this.branch(id, a, b, (flags) => ({
      kind: 'source',
      volts: own.volts,
      ohms: flags.has(charging) ? chargeOhms : own.dischargeOhms,
    }));
    this.decide(charging, (isSet, meter) => isOver(isSet, meter(a, b) ?? 0, own.volts));
  }

  regulator(
    id: string,
    a: string,
    b: string,
    law: { volts: number; ohms: number; limitAmps: number; sense?: string | undefined },
    isOn: (flags: Flags) => boolean = () => true,
  ): void {
    this.sources.add(id);
    const set = law.volts * this.factor(id);
    const limited = `${id} limited`;
    const idle = `${id} idle`;
    this.branch(id, a, b, (flags) => {
      if (!isOn(flags)) return null;
      if (flags.has(limited)) return { kind: 'current', amps: law.limitAmps };
      if (flags.has(idle)) return { kind: 'resistor', ohms: REGULATOR_LEAK_OHMS };
      return { kind: 'source', volts: set, ohms: law.ohms, sense: law.sense ?? null };
    });
    // Volts that are missing at the point of regulation.
    const missing = (meter: Meter): number => set - (meter(law.sense ?? a, b) ?? 0);
    // From either end it regulates first, else two regulators could jump past each other for ever.
    this.decide(
      limited,
      (isSet, meter, flags) => isOver(isSet, missing(meter), law.limitAmps * law.ohms) && !flags.has(idle),
    );
    this.decide(idle, (isSet, meter, flags) => isOver(isSet, -missing(meter), 0) && !flags.has(limited));
  }

  filament(id: string, a: string, b: string, volts: number, amps: number, coldOhms: number): void {
    if (this.isReplaced(id, a, b)) return;
    const own = amps * this.factor(id);
    const hot = `${id} hot`;
    const coldVolts = volts * ((coldOhms * own) / volts) ** (1 / 0.45);
    this.branch(id, a, b, (flags) =>
      flags.has(hot) ? { kind: 'filament', volts, amps: own } : { kind: 'resistor', ohms: coldOhms },
    );
    this.decide(hot, (isSet, meter) => isOver(isSet, Math.abs(meter(a, b) ?? 0), coldVolts));
  }

  /** Above its threshold the leak and the forward branch together are one source behind one resistance. */
  diode(id: string, a: string, k: string, recordedVolts: number, seriesOhms: number, leakOhms: number): void {
    const [anode, cathode] = this.ends(id, a, k);
    if (this.isReplaced(id, anode, cathode)) return;
    const forwardVolts = recordedVolts * this.factor(id);
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
    if (this.isReplaced(id, a, b)) return;
    const turning = `${id} turning`;
    this.branch(id, a, b, (flags) => ({
      kind: 'resistor',
      ohms: flags.has(turning) ? law.volts / (law.amps * this.factor(id)) : law.stallOhms,
    }));
    this.decide(turning, (_isSet, meter) => {
      const volts = meter(a, b) ?? 0;
      return (law.reversible ? Math.abs(volts) : volts) >= law.startVolts;
    });
  }

  ptc(id: string, a: string, b: string, volts: number, recordedCold: number, recordedHot: number): void {
    if (this.isReplaced(id, a, b)) return;
    const [coldOhms, hotOhms] = [recordedCold * this.factor(id), recordedHot * this.factor(id)];
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
    if (this.isReplaced(id, a, b)) return;
    const [fed, coming] = [`${id} fed`, `${id} coming`];
    const { cutoffVolts, amps } = law;
    const watts = law.watts * this.factor(id);
    this.branch(id, a, b, (flags) => {
      if (!isOn(flags)) return null;
      if (flags.has(fed)) return { kind: 'electronic', watts, amps };
      const offOhms = Math.max(OFF_INPUT_OHMS, cutoffVolts / (watts / cutoffVolts + amps));
      return flags.has(coming)
        ? { kind: 'electronic', watts, amps, ramp: { cutoffVolts, share: RAMP, offOhms } }
        : { kind: 'resistor', ohms: offOhms };
    });
    this.comeOn(fed, coming, cutoffVolts, (meter) => meter(a, b) ?? 0);
  }

  /** On over a ramp that is passed from either side, else a load could jump over it for ever. */
  private comeOn(fed: string, coming: string, cutoffVolts: number, voltsBy: (meter: Meter) => number): void {
    this.decide(
      fed,
      (isSet, meter, flags) => (isSet || flags.has(coming)) && isOver(isSet, voltsBy(meter), cutoffVolts),
    );
    this.decide(coming, (isSet, meter, flags) => {
      const volts = voltsBy(meter);
      return (
        isOver(isSet, volts, cutoffVolts * (1 - RAMP)) &&
        !((isSet || flags.has(fed)) && isOver(flags.has(fed), volts, cutoffVolts))
      );
    });
  }

  converter(
    address: string,
    ends: { in: string; neg: string; out: string; outneg: string },
    law: { volts: number; ohms: number; limitAmps: number; efficiency: number; idleAmps: number; cutoffVolts: number },
  ): void {
    const on = `${address} on`;
    this.regulator(`${address}:output`, ends.out, ends.outneg, law, (flags) => flags.has(on));
    this.decide(on, (_isSet, meter) => (meter(ends.in, ends.neg) ?? 0) >= law.cutoffVolts);
    const [fed, coming] = [`${address} fed`, `${address} coming`];
    const { efficiency, idleAmps: amps, cutoffVolts } = law;
    this.branch(`${address}:input`, ends.in, ends.neg, (flags) => {
      const input = { kind: 'converter', outputBranch: `${address}:output`, efficiency, amps } as const;
      if (flags.has(fed)) return input;
      const offOhms = Math.max(OFF_INPUT_OHMS, cutoffVolts / amps);
      return flags.has(coming)
        ? { ...input, ramp: { cutoffVolts, share: RAMP, offOhms } }
        : { kind: 'resistor', ohms: offOhms };
    });
    this.comeOn(fed, coming, cutoffVolts, (meter) => meter(ends.in, ends.neg) ?? 0);
  }

  branches(flags: Flags): readonly Branch[] {
    return [...this.flagged.values()].flatMap(({ id, a, b, device }) => {
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
