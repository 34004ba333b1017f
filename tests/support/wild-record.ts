// Small records of sound parts, wired half by sense and half by chance: what no builder would build, and no author of a solver foresaw.
// It must stay free of the code under test: of `src` it takes types alone.

import type { HarnessRecord } from '../../src/core/record/record.js';
import type { OperatingState } from '../../src/core/record/state.js';
import { type Random, seededRandom } from './random.js';
import { WILD_MAKERS } from './wild-parts.js';

type Part = HarnessRecord['parts'][number];

const STATES = 3;
const SENSIBLE = 0.8;

/** The same seed gives the same record: two batteries at least, 6 to 14 more parts, three states of its switches. */
export function wildRecord(seed: number): HarnessRecord {
  const random = seededRandom(seed);
  const parts: Part[] = [
    { kind: 'body', address: 'FRAME' },
    { kind: 'ground-block', address: 'GB', terminals: 24, on: 'FRAME' },
    { kind: 'busbar', address: 'BUS', terminals: 24 },
    { kind: 'busbar', address: 'BUS2', terminals: 24 },
    {
      kind: 'battery',
      address: 'BAT1',
      emfVolts: random.between(11.8, 12.9),
      internalOhms: random.between(0.005, 0.03),
    },
    {
      kind: 'battery',
      address: 'BAT2',
      emfVolts: random.between(11.8, 12.9),
      internalOhms: random.between(0.005, 0.03),
    },
  ];
  const wires: HarnessRecord['wires'][number][] = [];
  const free = new Map(['GB', 'BUS', 'BUS2'].map((bar) => [bar, 1]));
  const open: string[] = [];
  const barPoint = (bar: string): string => {
    const next = free.get(bar) ?? 1;
    free.set(bar, next + 1);
    return `${bar}/${next}`;
  };
  const join = (from: string, to: string): void => {
    const size = random.pick(['0.75 mm²', '2.5 mm²', '16 mm²']);
    wires.push({ label: `W${wires.length + 1}`, from, to, size, lengthMetres: random.logarithmic(0.1, 8) });
  };
  join('BAT1/pos', barPoint('BUS'));
  join('BAT1/neg', barPoint('GB'));
  join('BAT2/pos', barPoint('BUS2'));
  join('BAT2/neg', barPoint('GB'));
  const count = random.whole(6, 14);
  for (let i = 1; i <= count; i++) {
    const { part, terminals } = random.pick(WILD_MAKERS)(`P${i}`, random);
    parts.push(part);
    for (const [terminal, to] of terminals) {
      const point = `P${i}/${terminal}`;
      const end = random.chance(SENSIBLE) ? to : random.pick(['feed', 'ground', 'any', 'nowhere'] as const);
      const other = open.length > 0 && random.chance(end === 'any' ? 0.7 : 0.1) ? random.pick(open) : null;
      if (other !== null) join(point, other);
      else if (end === 'ground') join(point, barPoint('GB'));
      else if (end === 'feed') join(point, barPoint(random.pick(['BUS', 'BUS2'])));
      // What has no partner yet may be found by a later part.
      open.push(point);
    }
  }
  return {
    format: 'lastgood-record/1',
    name: `Wild record ${seed}`,
    invented: true,
    systemVolts: 12,
    reference: 'BAT1/neg',
    parts,
    wires,
    states: Array.from({ length: STATES }, (_, i) => stateOf(i + 1, { parts, wires }, random)),
  };
}

/** Switches, engine and flasher by chance; now and then a plug out, a wire off, a lead across, a command, a supply, warmth. */
function stateOf(
  number: number,
  { parts, wires }: Pick<HarnessRecord, 'parts' | 'wires'>,
  random: Random,
): OperatingState {
  const chosen = <T>(kinds: readonly Part['kind'][], share: number, value: (part: Part) => T): Record<string, T> =>
    Object.fromEntries(
      parts.flatMap((part) =>
        kinds.includes(part.kind) && random.chance(share) ? [[part.address, value(part)] as const] : [],
      ),
    );
  const outputs = parts.flatMap((part) =>
    part.kind === 'module' ? (part.outputs ?? []).map(({ terminal }) => `${part.address}/${terminal}`) : [],
  );
  const label = (): string => random.pick(wires).label;
  const ends = wires.flatMap(({ from, to }) => [from, to]);
  const across = [random.pick(ends), random.pick(ends)] as const;
  return {
    name: `state ${number}`,
    ...(number > 1 && random.chance(0.4) ? { after: `state ${number - 1}` } : {}),
    engine: random.pick(['running', 'stopped']),
    flash: random.pick(['lit', 'dark']),
    positions: chosen(['switch', 'master-switch', 'sensor-switch'], 1, () => random.pick(['on', 'off'])),
    commands: Object.fromEntries(
      outputs.filter(() => random.chance(0.3)).map((output) => [output, random.chance(0.5)] as const),
    ),
    unplugged: parts.flatMap((part) =>
      (part.kind === 'fuse' || part.kind === 'relay') && part.mount !== 'wired' && random.chance(0.1)
        ? [part.address]
        : [],
    ),
    detached: random.chance(0.15) ? [label()] : [],
    links: random.chance(0.15) && across[0] !== across[1] ? [{ from: across[0], to: across[1] }] : [],
    attached: chosen(['external-supply', 'jump-posts'], 0.6, () => ({})),
    measured: chosen(['battery'], 0.1, () => random.between(11.5, 12.8)),
    travel: chosen(['potentiometer'], 0.7, () => random.next()),
    celsius: chosen(['thermistor'], 0.7, () => random.between(-20, 110)),
    ...(random.chance(0.2) ? { ambientCelsius: random.between(-10, 40) } : {}),
  };
}
