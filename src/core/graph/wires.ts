// Wires: a conductor between two bare ends, and a termination at each end, alone or in a recorded double crimp.
// It must not add anything of the parts that the wires end on.

import type { Figure } from '../record/figure.js';
import type { Exposure, Mark } from '../record/kinds/common.js';
import type { Part } from '../record/part.js';
import type { HarnessRecord, Segment, Wire } from '../record/record.js';
import { doubleCrimpOhms, terminationOhms } from '../record/resolve-joints.js';
import type { Element, ElementRole, Gate, Point } from './element.js';
import { spreadOfElement } from './expand/element-spread.js';
import { exposureOf, marksOf, ohmic } from './expand/part-site.js';
import { conductorOhms } from './wire-ohms.js';

/** Where a wire ends: the point and its part. */
export interface WireEnd {
  readonly point: Point;
  readonly part: Part;
}

export interface WireSurroundings {
  readonly celsius: Figure;
  readonly segments: ReadonlyMap<string, Segment>;
  /** Wire label and point of every wire end in a double crimp. */
  readonly sharedCrimps: ReadonlySet<string>;
}

export interface WireExpansion {
  readonly inner: readonly Point[];
  readonly elements: readonly Element[];
}

/** Inner point in which the wires of a double crimp meet. */
export function sharedCrimpPoint(point: string): string {
  return `@${point}:inner`;
}

/** Key of one wire end among the shared crimps. */
export function wireEndKey(label: string, point: string): string {
  return `${label}@${point}`;
}

/** Three elements in a row: `L12@from`, `L12`, `L12@to`. */
export function expandWire(wire: Wire, from: WireEnd, to: WireEnd, surroundings: WireSurroundings): WireExpansion {
  const marks = unionOfMarks(wire.marks ?? [], marksOf(from.part), marksOf(to.part));
  const fromInner = `${wire.label}:from`;
  const toInner = `${wire.label}:to`;
  const ohms = conductorOhms(wire, surroundings.celsius);
  const exposure = worstExposure((wire.route ?? []).map((segment) => surroundings.segments.get(segment)?.exposure));
  return {
    inner: [innerPoint(wire, fromInner, from, marks), innerPoint(wire, toInner, to, marks)],
    elements: [
      termination(wire, from, fromInner, wire.fromEnd, marks, surroundings),
      plainElement(wire.label, 'conductor', wire.label, fromInner, toInner, ohms, exposure, marks),
      termination(wire, to, toInner, wire.toEnd, marks, surroundings),
    ],
  };
}

/** The crimp that several wires share: one inner point, one element to the terminal. */
export function expandDoubleCrimp(end: WireEnd): WireExpansion {
  const ohms = doubleCrimpOhms();
  const inner = sharedCrimpPoint(end.point.id);
  return {
    inner: [
      { ...end.point, id: inner, role: 'inner', owner: end.part.address, terminal: null, side: null, probeable: false },
    ],
    elements: [
      plainElement(
        `@${end.point.id}`,
        'double-crimp',
        end.part.address,
        inner,
        end.point.id,
        ohms,
        exposureOf(end.part),
        end.point.marks,
      ),
    ],
  };
}

export function sharedCrimps(record: Pick<HarnessRecord, 'doubleCrimps'>): ReadonlySet<string> {
  return new Set(
    (record.doubleCrimps ?? []).flatMap(({ point, wires }) => wires.map((label) => wireEndKey(label, point))),
  );
}

/** Each mark once, in the order in which it is first met. */
export function unionOfMarks(...lists: readonly (readonly Mark[])[]): readonly Mark[] {
  const marks = lists.flat();
  return marks.length < 2 ? marks : [...new Set(marks)];
}

function termination(
  wire: Wire,
  end: WireEnd,
  inner: string,
  style: Wire['fromEnd'],
  marks: readonly Mark[],
  { sharedCrimps: shared }: WireSurroundings,
): Element {
  const key = wireEndKey(wire.label, end.point.id);
  const to = shared.has(key) ? sharedCrimpPoint(end.point.id) : end.point.id;
  const ohms = terminationOhms(end.part, style);
  return plainElement(key, 'termination', wire.label, inner, to, ohms, exposureOf(end.part), marks);
}

/** A bare end sits in its crimp: as hard to reach as the part there. */
function innerPoint(wire: Wire, id: string, end: WireEnd, marks: readonly Mark[]): Point {
  return {
    id,
    role: 'inner',
    owner: wire.label,
    terminal: null,
    side: null,
    probeable: false,
    access: end.point.access,
    location: end.point.location,
    panel: end.point.panel,
    marks,
  };
}

const SEVERITY: readonly Exposure[] = ['dry', 'splash', 'salt'];

function worstExposure(exposures: readonly (Exposure | undefined)[]): Exposure {
  return exposures.reduce<Exposure>(
    (worst, next) => (next !== undefined && SEVERITY.indexOf(next) > SEVERITY.indexOf(worst) ? next : worst),
    'dry',
  );
}

/** Same fields in the same order as a part's elements, so that engines see one shape of object. */
function plainElement(
  id: string,
  role: ElementRole,
  owner: string,
  a: string,
  b: string,
  ohms: Figure,
  exposure: Exposure,
  marks: readonly Mark[],
): Element {
  const law = ohmic(ohms);
  return {
    id,
    role,
    owner,
    a,
    b,
    law,
    gates: NO_GATES,
    coil: null,
    protection: null,
    spread: spreadOfElement(role, law),
    exposure,
    marks,
    defaults: ohms.defaults,
  };
}

const NO_GATES: readonly Gate[] = [];
