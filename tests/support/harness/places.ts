// Where things are in a generated unit: its zones, and a point with the zone that it lies in.
// Types only.

export type Bar = 'permanent' | 'ignition';

export interface Zone {
  readonly name: 'box' | 'dash' | 'rear' | 'roof' | 'coupling';
  readonly metres: number;
  readonly body: string;
  readonly exposure: 'dry' | 'splash' | 'salt';
  readonly access: 'open' | 'behind-panel';
  /** Segment from the fuse box to the zone's plug, and the one beyond it. */
  readonly trunk: string;
  readonly branch: string;
}

export interface Place {
  readonly point: string;
  readonly zone: Zone;
}

/** What a part says of where it sits. */
export interface Placing {
  readonly location: string;
  readonly access: Zone['access'];
  readonly panel?: string;
  readonly exposure: Zone['exposure'];
}
