// What an expansion needs to know of its part's place, and the one way in which it makes elements.
// It must not hold any figure: those come from the record or from the table of defaults.

import type { Figure } from '../../record/figure.js';
import type { Access, Exposure, Mark } from '../../record/kinds/common.js';
import type { Part } from '../../record/part.js';
import { isPlugIn, partPointAddress } from '../../record/points.js';
import type { Coil, Element, ElementRole, Gate, Law, LoadFunction, Point, Protection } from '../element.js';
import type { ModuleInfo } from '../harness-graph.js';
import { spreadOfElement } from './element-spread.js';

/** What the whole record says and every part may need. */
export interface Surroundings {
  /** Nominal volts of the system: what unrated parts are made for. */
  readonly systemVolts: Figure;
}

/** What one part brings to the graph besides its points and its plug-in contacts. */
export interface Expansion {
  readonly inner: readonly Point[];
  readonly elements: readonly Element[];
  readonly functions: readonly LoadFunction[];
  readonly module: ModuleInfo | null;
}

export interface ElementDraft {
  /** Name within the part: `coil`, `30-87`. The id is `part:name`. */
  readonly name: string;
  readonly role: ElementRole;
  readonly a: string;
  readonly b: string;
  readonly law: Law;
  /** The figures that the law, coil or protection stands on: their defaults are named with the element. */
  readonly from?: readonly Figure[];
  readonly gates?: readonly Gate[];
  readonly coil?: Coil;
  readonly protection?: Protection;
  /** Row of the table of spreads where role and law do not tell. */
  readonly spreadRow?: string;
}

/** A part in its surroundings: the addresses of its points and a maker of its elements. */
export class PartSite {
  private readonly taken = new Set<string>();

  constructor(
    readonly part: Part,
    readonly surroundings: Surroundings,
  ) {}

  get volts(): number {
    return this.surroundings.systemVolts.value;
  }

  get isPlugIn(): boolean {
    return isPlugIn(this.part);
  }

  /** Point behind the plug-in contact where there is one, else the terminal itself. */
  at(terminal: string): string {
    return partPointAddress(this.part, terminal);
  }

  /** Id of an element or inner point of this part. */
  id(name: string): string {
    return `${this.part.address}:${name}`;
  }

  /** A point inside the part, which no probe reaches. */
  inner(name: string): Point {
    return {
      id: this.id(name),
      role: 'inner',
      owner: this.part.address,
      terminal: null,
      side: null,
      probeable: false,
      access: accessOf(this.part),
      location: this.part.location ?? null,
      panel: this.part.panel ?? null,
      marks: marksOf(this.part),
    };
  }

  /** Whoever comes first keeps the plain id; a later element of the same name is told apart by its role. */
  element(draft: ElementDraft): Element {
    return {
      id: this.freeId(draft.name, draft.role),
      role: draft.role,
      owner: this.part.address,
      a: draft.a,
      b: draft.b,
      law: draft.law,
      gates: draft.gates ?? [],
      coil: draft.coil ?? null,
      protection: draft.protection ?? null,
      spread: spreadOfElement(draft.role, draft.law, draft.spreadRow),
      exposure: exposureOf(this.part),
      marks: marksOf(this.part),
      defaults: defaultsOf([...(draft.from ?? []), ...this.assumedVolts(draft.role)]),
    };
  }

  /** Where nobody said what volts the system has, whatever is rated by volts may lean on that. */
  private assumedVolts(role: ElementRole): readonly Figure[] {
    return RATED_BY_VOLTS.has(role) ? [this.surroundings.systemVolts] : [];
  }

  /** A dot is in no name of a terminal or function, so `E1:case.joint` can be nothing else. */
  private freeId(name: string, role: ElementRole): string {
    let free = name;
    for (let n = 1; this.taken.has(free.toLowerCase()); n++)
      free = n === 1 ? `${name}.${role}` : `${name}.${role}.${n}`;
    this.taken.add(free.toLowerCase());
    return this.id(free);
  }
}

/** An expansion of elements alone, or with more. */
export function expansion(elements: readonly Element[], more: Partial<Expansion> = {}): Expansion {
  return { inner: [], functions: [], module: null, ...more, elements };
}

export function ohmic(ohms: Figure): Law {
  return { kind: 'ohmic', ohms: ohms.value };
}

/** Ids of the defaults behind some figures, each once, sorted. */
export function defaultsOf(figures: readonly Figure[]): readonly string[] {
  const ids = new Set(figures.flatMap((figure) => figure.defaults));
  return ids.size === 0 ? NONE : [...ids].sort();
}

/** A part behind a recorded panel is behind it even where its access was not written down. */
export function accessOf(part: Part): Access {
  return part.access ?? (part.panel === undefined ? 'open' : 'behind-panel');
}

export function exposureOf(part: Part): Exposure {
  return part.exposure ?? 'dry';
}

export function marksOf(part: Part): readonly Mark[] {
  return part.marks ?? NO_MARKS;
}

const NO_MARKS: readonly Mark[] = [];
const NONE: readonly string[] = [];
const RATED_BY_VOLTS: ReadonlySet<ElementRole> = new Set<ElementRole>(['source', 'coil', 'load', 'bias']);
