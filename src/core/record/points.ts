// The points that each part brings to the harness: address, side, whether a wire may end there.
// It must not add the inner points of wires and parts; those belong to the graph.

import type { Mount } from './kinds/common.js';
import type { Part } from './part.js';
import { terminalsOf } from './terminals.js';

type PointSpecRole = 'terminal' | 'cavity' | 'splice' | 'stud' | 'bar' | 'body' | 'post';
type PointSide = 'plug' | 'receptacle' | 'socket' | 'body';

export interface PointSpec {
  /** As printed: `X4.plug/3`, `K2/87`, `K2.body/87`, `G1`. */
  readonly address: string;
  /** Terminal or cavity; null for a part of one point and for the bar of a busbar or ground block. */
  readonly terminal: string | null;
  readonly side: PointSide | null;
  readonly role: PointSpecRole;
  /** A wire may end here. */
  readonly wireable: boolean;
}

/** How a part meets the harness: as recorded, else as its kind usually does (common practice). */
export function mountOf(part: Part): Mount {
  if (part.mount !== undefined) return part.mount;
  switch (part.kind) {
    case 'fuse':
      return part.style === 'midi' || part.style === 'mega' || part.style === 'strip' ? 'bolted' : 'plug-in';
    case 'relay':
    case 'flasher':
    case 'module':
      return 'plug-in';
    case 'load':
      return part.functions.some((fn) => fn.law === 'filament') ? 'plug-in' : 'wired';
    case 'battery':
    case 'alternator':
    case 'starter':
    case 'ground':
    case 'ground-block':
    case 'busbar':
    case 'master-switch':
    case 'jump-posts':
    case 'strap':
    case 'shunt':
      return 'bolted';
    default:
      return 'wired';
  }
}

/** Kinds that never have a harness side and a part side, whatever their mount says: they are what joins wires. */
const NEVER_PLUGGED: ReadonlySet<Part['kind']> = new Set([
  'connector',
  'splice',
  'busbar',
  'ground',
  'ground-block',
  'body',
  'strap',
  'tie',
]);

/** True when the part has a harness side (`K2/87`) and a part side (`K2.body/87`). */
export function isPlugIn(part: Part): boolean {
  return mountOf(part) === 'plug-in' && !NEVER_PLUGGED.has(part.kind);
}

/** All points of a part, harness side before part side. */
export function pointsOf(part: Part): readonly PointSpec[] {
  const terminals = terminalsOf(part);
  switch (part.kind) {
    case 'connector':
      return (['plug', 'receptacle'] as const).flatMap((side) =>
        terminals.map((terminal) => ({
          address: `${part.address}.${side}/${terminal}`,
          terminal,
          side,
          role: 'cavity' as const,
          wireable: true,
        })),
      );
    case 'splice':
      return [single(part, 'splice', true)];
    case 'ground':
      return [single(part, 'stud', true)];
    case 'body':
      return [single(part, 'body', false)];
    case 'busbar':
    case 'ground-block':
      return [single(part, 'bar', false), ...harnessPoints(part, terminals, 'terminal')];
    case 'tie':
      return [];
    case 'battery':
    case 'jump-posts':
      return terminalPoints(part, terminals, 'post');
    default:
      return terminalPoints(part, terminals, 'terminal');
  }
}

/** Address of a terminal on the side where wires end. */
export function harnessPointAddress(part: Part, terminal: string): string {
  return `${part.address}/${terminal}`;
}

/** Address of a terminal on the part's own side: behind the contact of a plug-in part, else the terminal itself. */
export function partPointAddress(part: Part, terminal: string): string {
  return isPlugIn(part) && terminal !== 'case' ? `${part.address}.body/${terminal}` : `${part.address}/${terminal}`;
}

function terminalPoints(part: Part, terminals: readonly string[], role: PointSpecRole): readonly PointSpec[] {
  const harness = harnessPoints(part, terminals, role);
  if (!isPlugIn(part)) return harness;
  const plugged = terminals.filter((terminal) => terminal !== 'case');
  return [
    ...harness,
    ...plugged.map((terminal) => ({
      address: partPointAddress(part, terminal),
      terminal,
      side: 'body' as const,
      role,
      wireable: false,
    })),
  ];
}

function harnessPoints(part: Part, terminals: readonly string[], role: PointSpecRole): readonly PointSpec[] {
  const plugIn = isPlugIn(part);
  return terminals.map((terminal) => ({
    address: harnessPointAddress(part, terminal),
    terminal,
    // The case is screwed to its body, not pushed into a contact: one point on both sides.
    side: plugIn && terminal !== 'case' ? ('socket' as const) : null,
    role,
    wireable: true,
  }));
}

function single(part: Part, role: PointSpecRole, wireable: boolean): PointSpec {
  return { address: part.address, terminal: null, side: null, role, wireable };
}
