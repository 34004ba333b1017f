// Small arbitrary records with one assembly, few enough ties to look through every set of detachments.
// It must not know how an assembly is freed.

import fc from 'fast-check';

/** Some parts inside the assembly, some on the vehicle, a splice, up to two plugs; wires between any two of their ends. */
export const smallAssembly = fc
  .record({
    inside: fc.integer({ min: 1, max: 3 }),
    outside: fc.integer({ min: 1, max: 3 }),
    plugs: fc.array(
      fc.record({
        access: fc.constantFrom('open', 'behind-panel', 'buried'),
        plugStays: fc.constantFrom(undefined, 'BOX', 'vehicle'),
      }),
      { maxLength: 2 },
    ),
    bolted: fc.boolean(),
    wires: fc.array(fc.tuple(fc.nat(), fc.nat(), fc.constantFrom('open', 'behind-panel', 'buried')), {
      minLength: 2,
      maxLength: 7,
    }),
  })
  .map(({ inside, outside, plugs, bolted, wires }) => {
    const load = (address: string, assembly?: string): Record<string, unknown> => ({
      address,
      kind: 'load',
      ...(assembly === undefined ? {} : { assembly }),
      functions: [{ name: 'heat', law: 'resistive', ratedVolts: 12, ratedWatts: 12 }],
    });
    const parts: Record<string, unknown>[] = [
      { address: 'BAT1', kind: 'battery', access: bolted ? 'open' : 'behind-panel' },
      { address: 'SP1', kind: 'splice' },
      ...Array.from({ length: inside }, (_, i) => load(`E1${i}`, 'BOX')),
      ...Array.from({ length: outside }, (_, i) => load(`E2${i}`)),
      ...(bolted ? [{ address: 'B1', kind: 'busbar', terminals: 12, assembly: 'BOX' }] : []),
      ...plugs.map(({ access, plugStays }, i) => ({
        address: `X${i + 1}`,
        kind: 'connector',
        cavities: 14,
        access,
        ...(plugStays === undefined ? {} : { plug: { staysWith: plugStays } }),
      })),
    ];
    let next = 0;
    const ends = (): string[] => [
      'BAT1/pos',
      'BAT1/neg',
      'SP1',
      ...Array.from({ length: inside }, (_, i) => `E1${i}/feed`),
      ...Array.from({ length: outside }, (_, i) => `E2${i}/feed`),
      ...(bolted ? [`B1/${(next % 12) + 1}`] : []),
      ...plugs.flatMap((_, i) => [`X${i + 1}.plug/${(next % 14) + 1}`, `X${i + 1}.receptacle/${(next % 14) + 1}`]),
    ];
    const laid = wires.flatMap(([one, other, access], i) => {
      next += 1;
      const from = ends()[one % ends().length];
      next += 1;
      const to = ends()[other % ends().length];
      return from.split('/')[0] === to.split('/')[0]
        ? []
        : [{ label: `L${i + 1}`, from, to, size: '1.5 mm²', lengthMetres: 1, access }];
    });
    return {
      format: 'lastgood-record/1',
      name: 'Small assembly',
      systemVolts: 12,
      parts,
      wires: laid,
      assemblies: [{ address: 'BOX', name: 'Box' }],
    };
  });
