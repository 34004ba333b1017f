// One self-contained unit of a generated vehicle: bodies, battery, main fuse, fuse box, ignition feed, alternator, zones.
// Large harnesses are trains of such units, so that currents and bus voltages stay those of real vehicles at any size.

import type { HarnessDraft, Net } from './draft.js';
import type { Bar, Place, Placing, Zone } from './places.js';
import { chooseFuse } from './wire-choice.js';
import { ZonePlugs } from './zone-plugs.js';

interface OpenBlock {
  readonly address: string;
  readonly terminals: number;
  used: number;
}

/** Loads of a unit may draw at most so much in all, well inside its alternator and main fuse. */
const UNIT_AMPS = 60;

export class Unit {
  readonly plugs: ZonePlugs;
  private readonly bars = new Map<string, OpenBlock>();
  private readonly studs = new Map<string, OpenBlock>();
  readonly frame: string;
  readonly engine: string;
  readonly cab: string;
  readonly box: Zone;
  readonly dash: Zone;
  readonly rear: Zone;
  readonly roof: Zone;
  /** Address of the key switch. */
  ignition = '';
  /** Zone on the next unit's frame, behind the coupling plug; null on the last unit. */
  coupling: Zone | null = null;
  private ampsLeft = UNIT_AMPS;

  constructor(
    readonly draft: HarnessDraft,
    readonly number: number,
  ) {
    this.plugs = new ZonePlugs(draft, (zone) => this.placing(zone));
    this.frame = this.body('FRAME', 'frame');
    this.engine = this.body('ENGINE', 'engine');
    this.cab = this.body('CAB', 'cab');
    this.strap(this.frame, this.engine);
    this.strap(this.frame, this.cab);
    draft.assemblies.push({ address: `BOX${number}`, name: `Fuse box ${number}` });
    this.box = this.zone('box', 0.6, this.frame, 'splash', 'open');
    this.dash = this.zone('dash', 1.6, this.cab, 'dry', 'behind-panel');
    this.rear = this.zone('rear', 3.6, this.frame, 'splash', 'behind-panel');
    this.roof = this.zone('roof', 2.8, this.cab, 'salt', 'behind-panel');
  }

  get volts(): number {
    return this.draft.systemVolts;
  }

  /** A running current that the unit can still give, at most `wanted`; small when the unit is nearly full. */
  claimAmps(wanted: number): number {
    const given = Math.max(Math.min(wanted, this.ampsLeft), Math.min(wanted, 0.3));
    this.ampsLeft -= given;
    return given;
  }

  /** Where a part sits, for its `location`, `access`, `panel` and `exposure`. */
  placing(zone: Zone): Placing {
    return {
      location: `unit ${this.number}, ${zone.name}`,
      access: zone.access,
      ...(zone.access === 'behind-panel' ? { panel: `${zone.name} panel ${this.number}` } : {}),
      exposure: zone.exposure,
    };
  }

  /** A fuse fed from a bar; returns the place of its outlet and its rating. Lays one wire. */
  fuse(
    bar: Bar,
    amps: number,
    circuit: string,
    ratingAmps = chooseFuse(amps),
    style: 'blade' | 'maxi' | 'breaker' = 'blade',
  ): Place & Net {
    const { draft } = this;
    const address = draft.address('F');
    const assembly = `BOX${this.number}`;
    const place = this.placing(this.box);
    if (style === 'breaker')
      draft.add({ address, kind: 'breaker', ratingAmps, reset: 'automatic', assembly, ...place });
    else draft.add({ address, kind: 'fuse', ratingAmps, style, assembly, ...place });
    const net = { circuit, amps, fuseAmps: ratingAmps, colour: draft.colour() };
    draft.wire(this.terminal(bar), `${address}/in`, 0.15, { ...net, colour: 'RD' }, []);
    return { point: `${address}/out`, zone: this.box, ...net };
  }

  /** A relay in the fuse box, its coil suppressed by a diode, a resistor or not at all. */
  relay(contacts: 'make' | 'change-over', contactRatingAmps: number, fuseRatingAmps?: number): string {
    const { draft } = this;
    const address = draft.address('K');
    const style = draft.random.pick(['diode', 'resistor', 'none'] as const);
    const half = this.volts / 2;
    draft.add({
      address,
      kind: 'relay',
      contacts,
      nominalVolts: this.volts,
      coilOhms: this.volts === 24 ? 320 : 85,
      pullInVolts: half * 1.2,
      dropOutVolts: half * 0.4,
      contactRatingAmps,
      ...(fuseRatingAmps === undefined ? {} : { fuseRatingAmps }),
      ...(style === 'none'
        ? {}
        : { suppressor: style === 'diode' ? { style } : { style, resistanceOhms: half * 110 } }),
      assembly: `BOX${this.number}`,
      ...this.placing(this.box),
    });
    return address;
  }

  /** Lays a net from place to place, through the plugs of the zones between. Two to four points, one to three wires. */
  run(from: Place, to: Place, net: Net): void {
    const { random } = this.draft;
    if (from.zone.name === to.zone.name) {
      this.draft.wire(from.point, to.point, random.between(0.2, 0.9), net, [from.zone.branch]);
      return;
    }
    let point = from.point;
    const route: string[] = [];
    let metres = 0;
    if (from.zone.name !== 'box') {
      const [near, far] = this.plugs.crossing(from.zone);
      this.draft.wire(point, near, random.between(0.3, 0.9), net, [from.zone.branch]);
      point = far;
      route.push(from.zone.trunk);
      metres += from.zone.metres;
    }
    if (to.zone.name === 'box') {
      this.draft.wire(point, to.point, metres * random.between(0.9, 1.15), net, route);
      return;
    }
    const [near, far] = this.plugs.crossing(to.zone);
    metres += to.zone.metres;
    route.push(to.zone.trunk);
    this.draft.wire(point, far, metres * random.between(0.9, 1.15), net, route);
    this.draft.wire(near, to.point, random.between(0.3, 0.9), net, [to.zone.branch]);
  }

  /** Lays a return from a part to a ground of its zone: a shared stud, or the block in the fuse box. One wire. */
  ground(from: Place, net: Net): void {
    const colour = { ...net, colour: 'BN' };
    if (from.zone.name === 'box') {
      this.draft.wire(from.point, this.groundTerminal(), 0.3, colour, [this.box.branch]);
      return;
    }
    const stud = this.stud(from.zone);
    this.draft.wire(from.point, stud, this.draft.random.between(0.2, 0.7), colour, [from.zone.branch], {
      toEnd: 'lug',
    });
  }

  splice(zone: Zone): Place {
    const address = this.draft.address('SP');
    this.draft.add({ address, kind: 'splice', style: 'crimp', ...this.placing(zone), access: 'buried' });
    return { point: address, zone };
  }

  /** A free terminal of a bar. Throws when the bar is full: ask `terminalsLeft` first. */
  terminal(bar: Bar): string {
    const open = this.bars.get(bar)!;
    open.used += 1;
    if (open.used > open.terminals) throw new Error(`bar ${open.address} is full`);
    return `${open.address}/${open.used}`;
  }

  /** Terminals still free on a bar. */
  terminalsLeft(bar: Bar): number {
    const open = this.bars.get(bar)!;
    return open.terminals - open.used;
  }

  addBar(bar: Bar, terminals: number): string {
    const address = this.draft.address('B');
    this.draft.add({ address, kind: 'busbar', terminals, assembly: `BOX${this.number}`, ...this.placing(this.box) });
    this.bars.set(bar, { address, terminals, used: 0 });
    return address;
  }

  groundTerminal(): string {
    let open = this.studs.get('block');
    if (open === undefined || open.used >= open.terminals) {
      const address = this.draft.address('GB');
      open = { address, terminals: 10, used: 0 };
      this.draft.add({ address, kind: 'ground-block', terminals: 10, on: this.frame, ...this.placing(this.box) });
      this.studs.set('block', open);
    }
    open.used += 1;
    return `${open.address}/${open.used}`;
  }

  /** A stud that at most five wires share. */
  private stud(zone: Zone): string {
    let open = this.studs.get(zone.name);
    if (open === undefined || open.used >= open.terminals) {
      const address = this.draft.address('G');
      open = { address, terminals: this.draft.random.whole(2, 5), used: 0 };
      this.draft.add({ address, kind: 'ground', on: zone.body, ...this.placing(zone) });
      this.studs.set(zone.name, open);
    }
    open.used += 1;
    return open.address;
  }

  couple(next: Unit): void {
    this.coupling = this.zone('coupling', 4.5, next.frame, 'salt', 'open');
  }

  /** One more wire from the ground block to a stud of its own: fills a harness up to the wire. */
  bond(): void {
    const stud = this.draft.address('G');
    this.draft.add({ address: stud, kind: 'ground', on: this.frame, ...this.placing(this.box) });
    const net = { circuit: 'Second ground of the fuse box', amps: 5, fuseAmps: 20, colour: 'BK' };
    this.draft.wire(this.groundTerminal(), stud, 0.4, net, [], { toEnd: 'lug' });
  }

  private body(letters: string, name: string): string {
    const address = `${letters}${this.number}`;
    this.draft.add({ address, kind: 'body', name: `${name} of unit ${this.number}` });
    return address;
  }

  strap(from: string, to: string): void {
    const address = this.draft.address('ST');
    this.draft.add({ address, kind: 'strap', between: [from, to], exposure: 'splash', resistanceOhms: 0.0003 });
  }

  zone(name: Zone['name'], metres: number, body: string, exposure: Zone['exposure'], access: Zone['access']): Zone {
    const trunk = this.draft.address('R');
    const branch = this.draft.address('R');
    const to = `${name} ${this.number}`;
    const hazards = name === 'rear' ? (['grommet', 'wet'] as const) : (['grommet'] as const);
    this.draft.segments.push(
      {
        address: trunk,
        lengthMetres: metres,
        from: `fuse box ${this.number}`,
        to,
        access,
        exposure,
        hazards: [...hazards],
        passes: body,
      },
      { address: branch, lengthMetres: 1, from: to, to, access, exposure, passes: body },
    );
    return { name, metres, body, exposure, access, trunk, branch };
  }
}
