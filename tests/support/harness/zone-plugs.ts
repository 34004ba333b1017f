// The plugs between the fuse box and the zones of a generated unit: hands out cavities, adds a plug when one is full.
// It must not lay wires.

import type { PartOf } from '../../../src/core/record/part.js';
import type { HarnessDraft } from './draft.js';
import type { Placing, Zone } from './places.js';

interface OpenConnector {
  readonly fields: PartOf<'connector'>;
  readonly address: string;
  readonly cavities: number;
  used: number;
  readonly boxHalf: 'plug' | 'receptacle';
}

export class ZonePlugs {
  private readonly open = new Map<string, OpenConnector>();

  constructor(
    private readonly draft: HarnessDraft,
    private readonly placing: (zone: Zone) => Placing,
  ) {}

  /** A cavity of the zone's plug: its point on the zone's side and on the box's side. */
  crossing(zone: Zone): readonly [near: string, far: string] {
    let open = this.open.get(zone.name);
    if (open === undefined || open.used >= open.cavities) {
      if (open !== undefined) close(open);
      open = this.connector(zone);
      this.open.set(zone.name, open);
    }
    open.used += 1;
    const zoneHalf = open.boxHalf === 'plug' ? 'receptacle' : 'plug';
    return [`${open.address}.${zoneHalf}/${open.used}`, `${open.address}.${open.boxHalf}/${open.used}`];
  }

  /** Records the cavities that stay empty. */
  close(): void {
    for (const open of this.open.values()) close(open);
  }

  private connector(zone: Zone): OpenConnector {
    const { draft } = this;
    const address = draft.address('X');
    const cavities = draft.random.pick([8, 12, 16, 24]);
    const boxHalf = draft.random.pick(['plug', 'receptacle'] as const);
    const zoneHalf = boxHalf === 'plug' ? 'receptacle' : 'plug';
    const fields: PartOf<'connector'> = {
      address,
      kind: 'connector',
      cavities,
      rows: 2,
      view: 'mating',
      contactRatingAmps: 25,
      [boxHalf]: { contacts: 'sockets', shroud: 'shrouded', staysWith: 'main loom' },
      [zoneHalf]: { contacts: 'pins', shroud: 'shrouded', staysWith: `${zone.name} loom` },
      ...this.placing(zone),
    };
    draft.add(fields);
    return { fields, address, cavities, used: 0, boxHalf };
  }
}

function close(open: OpenConnector): void {
  const spare = Array.from({ length: open.cavities - open.used }, (_, i) => String(open.used + 1 + i));
  if (spare.length > 0) open.fields.spare = spare;
}
