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
  | { readonly kind: 'electronic'; readonly watts: number; readonly amps: number }
  /** As `electronic`, the watts being those that another branch gives, over an efficiency. */
  | {
      readonly kind: 'converter';
      readonly outputBranch: string;
      readonly efficiency: number;
      readonly amps: number;
    };

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

/** Points that hang on the reference through the branches; all others float and are none of SPICE's business. */
export function attachedPoints({ reference, branches }: Net): ReadonlySet<string> {
  const neighbours = new Map<string, string[]>();
  for (const { a, b } of branches) {
    neighbours.set(a, [...(neighbours.get(a) ?? []), b]);
    neighbours.set(b, [...(neighbours.get(b) ?? []), a]);
  }
  const reached = new Set([reference]);
  for (const point of reached) for (const next of neighbours.get(point) ?? []) reached.add(next);
  return reached;
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
 * The netlist of all branches that hang on the reference, node 0. ngspice is asked for all the digits it has: its default
 * gmin alone would cost microvolts.
 */
export function writeNet(net: Net, guess: ReadonlyMap<string, number>, writing: Writing): WrittenNet {
  const attached = attachedPoints(net);
  const nodes = new Map([[net.reference, 0]]);
  for (const point of attached) if (!nodes.has(point)) nodes.set(point, nodes.size);
  const lines = ['* written from a record', '.options reltol=1e-7 vntol=1e-9 abstol=1e-11 gmin=1e-18 itl1=500'];
  net.branches.forEach((branch, i) => {
    if (!attached.has(branch.a)) return;
    const chord = writing === 'chord' ? chordOhms(branch, net, guess) : null;
    const written: Branch = chord === null ? branch : { ...branch, device: { kind: 'resistor', ohms: chord } };
    lines.push(...branchLines(written, i, nodes, net));
  });
  const start = [...guess].flatMap(([point, volts]) => {
    const node = nodes.get(point);
    return node === undefined || node === 0 ? [] : [`v(${node})=${volts}`];
  });
  if (start.length > 0 && writing === 'behavioural') lines.push(`.nodeset ${start.join(' ')}`);
  lines.push('.op', '.end');
  return { text: `${lines.join('\n')}\n`, nodes };
}

/** Ohms of a smooth law's chord at the guessed volts; null for laws that are straight lines themselves. */
function chordOhms({ a, b, device }: Branch, net: Net, guess: ReadonlyMap<string, number>): number | null {
  const between = (plus: string, minus: string): number => (guess.get(plus) ?? 0) - (guess.get(minus) ?? 0);
  const volts = between(a, b);
  switch (device.kind) {
    case 'filament':
      return Math.abs(volts) / (device.amps * (Math.abs(volts) / device.volts) ** 0.55);
    case 'ptc':
      return device.coldOhms + (device.hotOhms - device.coldOhms) * (volts / device.volts) ** 2;
    case 'electronic':
      return volts / (device.watts / volts + device.amps);
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
      return volts / ((across * amps) / device.efficiency / volts + device.amps);
    }
    case 'resistor':
    case 'source':
    case 'current':
      return null;
  }
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
      return source(`${device.watts}/max(${volts},0.5)+${device.amps}`);
    case 'converter': {
      const output = net.branches.findIndex(({ id }) => id === device.outputBranch);
      const branch = net.branches[output];
      const isGiving = branch !== undefined && branch.device.kind !== 'resistor';
      const watts = !isGiving ? '0' : `(-v(${nodes.get(branch.a)},${nodes.get(branch.b)})*i(v${output}))`;
      return source(`${watts}/${device.efficiency}/max(${volts},0.5)+${device.amps}`);
    }
  }
}
