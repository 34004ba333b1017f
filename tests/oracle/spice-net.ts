// A network as a SPICE engine wants it: branches between named points, written out as a netlist.
// It must not import anything of the graph or the circuit: it is what they are checked against.

/**
 * How a branch conducts, current from a to b, within one region: kinks (a diode's threshold, a regulator's limit) are
 * regions that the caller chooses and checks, since SPICE's Newton loses its way at them.
 */
export type Device =
  | { readonly kind: 'resistor'; readonly ohms: number }
  /** Volts behind ohms; with `sense` the volts stand between that point and b. */
  | { readonly kind: 'source'; readonly volts: number; readonly ohms: number; readonly sense?: string | null }
  /** So many amps out of a, whatever the volts. */
  | { readonly kind: 'current'; readonly amps: number }
  | { readonly kind: 'filament'; readonly volts: number; readonly amps: number }
  | { readonly kind: 'ptc'; readonly volts: number; readonly coldOhms: number; readonly hotOhms: number }
  /** Watts and amps; with `ramp` only coming on, between two resistances, over a share of the cut-off volts. */
  | { readonly kind: 'electronic'; readonly watts: number; readonly amps: number; readonly ramp?: Ramp }
  /** As `electronic`, the watts being those that another branch gives, over an efficiency. */
  | {
      readonly kind: 'converter';
      readonly outputBranch: string;
      readonly efficiency: number;
      readonly amps: number;
      readonly ramp?: Ramp;
    };

interface Ramp {
  readonly cutoffVolts: number;
  readonly share: number;
  readonly offOhms: number;
}

export interface Branch {
  readonly id: string;
  readonly a: string;
  readonly b: string;
  readonly device: Device;
}

export interface Net {
  readonly reference: string;
  readonly branches: readonly Branch[];
}

/** Number of the island of each point that a branch ends on; the reference's is 0. */
export function islandsOf({ reference, branches }: Net): ReadonlyMap<string, number> {
  const neighbours = new Map<string, string[]>();
  for (const { a, b } of branches) {
    neighbours.set(a, [...(neighbours.get(a) ?? []), b]);
    neighbours.set(b, [...(neighbours.get(b) ?? []), a]);
  }
  const islands = new Map<string, number>();
  let island = 0;
  for (const first of [reference, ...neighbours.keys()]) {
    if (islands.has(first)) continue;
    const reached = new Set([first]);
    for (const point of reached) for (const next of neighbours.get(point) ?? []) reached.add(next);
    for (const point of reached) islands.set(point, island);
    island += 1;
  }
  return islands;
}

/**
 * How a smooth law is written: as a behavioural source, or by its chord at the guessed volts, a plain resistance. SPICE
 * does not always find its way with dozens of behavioural sources; with chords the caller repeats until the volts that
 * come out are those that went in.
 */
export type Writing = 'behavioural' | 'chord';

export interface WrittenNet {
  readonly text: string;
  /** Point -> SPICE node number. */
  readonly nodes: ReadonlyMap<string, number>;
}

/**
 * The netlist of all branches; the reference is node 0, and one point of each island that floats is tied to it, through which no
 * current flows. ngspice is asked for all the digits it has: its default gmin alone would cost microvolts.
 */
export function writeNet(net: Net, guess: ReadonlyMap<string, number>, writing: Writing): WrittenNet {
  const islands = islandsOf(net);
  const nodes = new Map([[net.reference, 0]]);
  const lines = ['* written from a record', '.options reltol=1e-7 vntol=1e-9 abstol=1e-11 gmin=1e-18 itl1=500'];
  const tied = new Set([0]);
  for (const [point, island] of islands) {
    if (!nodes.has(point)) nodes.set(point, nodes.size);
    if (tied.has(island)) continue;
    tied.add(island);
    lines.push(`rt${island} ${nodes.get(point)} 0 1`);
  }
  net.branches.forEach((branch, i) => {
    const straight = writing === 'chord' ? straightened(branch, net, guess) : null;
    if (straight === null) {
      lines.push(...branchLines(branch, i, nodes, net));
      return;
    }
    const [plus, minus] = [nodes.get(branch.a), nodes.get(branch.b)];
    lines.push(`r${i} ${plus} ${minus} ${straight.ohms}`);
    if (straight.amps !== 0) lines.push(`i${i} ${plus} ${minus} ${straight.amps}`);
  });
  const start = [...guess].flatMap(([point, volts]) => {
    const node = nodes.get(point);
    return node === undefined || node === 0 ? [] : [`v(${node})=${volts}`];
  });
  if (start.length > 0 && writing === 'behavioural') lines.push(`.nodeset ${start.join(' ')}`);
  lines.push('.op', '.end');
  return { text: `${lines.join('\n')}\n`, nodes };
}

/** A resistance, beside amps that flow from a to b whatever the volts. */
interface Straight {
  readonly ohms: number;
  readonly amps: number;
}

/** A smooth law's chord at the guessed volts, or its tangent where it is steep; null for laws that are straight lines themselves. */
function straightened({ a, b, device }: Branch, net: Net, guess: ReadonlyMap<string, number>): Straight | null {
  const between = (plus: string, minus: string): number => (guess.get(plus) ?? 0) - (guess.get(minus) ?? 0);
  const volts = between(a, b);
  const chord = (amps: number): Straight => ({ ohms: volts / amps, amps: 0 });
  switch (device.kind) {
    case 'filament':
      return chord(Math.sign(volts) * device.amps * (Math.abs(volts) / device.volts) ** 0.55);
    case 'ptc':
      return {
        ohms: device.coldOhms + (device.hotOhms - device.coldOhms) * (volts / device.volts) ** 2,
        amps: 0,
      };
    case 'electronic':
      return demandLine(device, volts);
    case 'converter': {
      const output = net.branches.find(({ id }) => id === device.outputBranch);
      const across = output === undefined ? 0 : between(output.a, output.b);
      const source = output?.device;
      const amps =
        source?.kind === 'source'
          ? (source.volts - across) / source.ohms
          : source?.kind === 'current'
            ? source.amps
            : 0;
      return demandLine({ ...device, watts: Math.max(0, across * amps) / device.efficiency }, volts);
    }
    case 'resistor':
    case 'source':
    case 'current':
      return null;
  }
}

interface Demand {
  readonly watts: number;
  readonly amps: number;
  readonly ramp?: Ramp;
}

/** The chord of a load that is on; the tangent of one that is coming on, which is steep. */
function demandLine({ watts, amps, ramp }: Demand, volts: number): Straight {
  if (ramp === undefined) return { ohms: volts / (watts / volts + amps), amps: 0 };
  const width = ramp.cutoffVolts * ramp.share;
  const drawn = (at: number): number => {
    const on = 1 - (ramp.cutoffVolts - at) / width;
    return on * (watts / at + amps) + ((1 - on) * at) / ramp.offOhms;
  };
  const at = Math.min(ramp.cutoffVolts, Math.max(ramp.cutoffVolts - width, volts));
  const step = 1e-6 * width;
  const siemens = (drawn(at + step) - drawn(at - step)) / (2 * step);
  return { ohms: 1 / siemens, amps: drawn(at) - siemens * at };
}

function branchLines({ a, b, device }: Branch, i: number, nodes: ReadonlyMap<string, number>, net: Net): string[] {
  const plus = nodes.get(a);
  const minus = nodes.get(b);
  const volts = `v(${plus},${minus})`;
  const source = (expression: string): string[] => [`b${i} ${plus} ${minus} i=${expression}`];
  switch (device.kind) {
    case 'resistor':
      return [`r${i} ${plus} ${minus} ${device.ohms}`];
    case 'source': {
      const sense = nodes.get(device.sense ?? a) ?? plus;
      // The 0 V source measures the branch's current, so that a converter can follow it.
      return [
        `v${i} ${plus} y${i} 0`,
        `r${i} y${i} x${i} ${device.ohms}`,
        ...(sense === plus
          ? [`vv${i} x${i} ${minus} ${device.volts}`]
          : [`b${i} x${i} ${minus} v=${device.volts}+v(${plus},${sense})`]),
      ];
    }
    case 'current':
      // The leak, as documented, keeps a point that hangs on nothing else from being undetermined.
      return [`v${i} ${plus} y${i} 0`, `i${i} ${minus} y${i} ${device.amps}`, `r${i} ${plus} ${minus} 1e9`];
    case 'filament':
      return source(`sgn(${volts})*${device.amps}*pwr(max(abs(${volts}),0.001)/${device.volts},0.55)`);
    case 'ptc': {
      const share = `(${volts}/${device.volts})`;
      return source(`${volts}/(${device.coldOhms}+${device.hotOhms - device.coldOhms}*${share}*${share})`);
    }
    case 'electronic':
      return source(demandText(String(device.watts), device, volts));
    case 'converter': {
      const output = net.branches.findIndex(({ id }) => id === device.outputBranch);
      const branch = net.branches[output];
      const isGiving = branch !== undefined && branch.device.kind !== 'resistor';
      const given = `max(0,-v(${nodes.get(branch?.a ?? '')},${nodes.get(branch?.b ?? '')})*i(v${output}))`;
      return source(demandText(isGiving ? `${given}/${device.efficiency}` : '0', device, volts));
    }
  }
}

function demandText(watts: string, { amps, ramp }: Omit<Demand, 'watts'>, volts: string): string {
  const full = `(${watts}/max(${volts},0.5)+${amps})`;
  if (ramp === undefined) return full;
  const on = `min(1,max(0,1-(${ramp.cutoffVolts}-${volts})/${ramp.cutoffVolts * ramp.share}))`;
  return `${on}*${full}+(1-${on})*${volts}/${ramp.offOhms}`;
}
