// Record -> harness graph: every part and wire becomes points and conductive elements, in natural order of their names.
// It must not check the record (that is done) nor decide what conducts in a state.

import { MultiUndirectedGraph } from 'graphology';
import { indexAddresses } from '../record/addresses.js';
import { contactTableOf } from '../record/contact-tables.js';
import { figure } from '../record/figure.js';
import type { Part } from '../record/part.js';
import type { HarnessRecord } from '../record/record.js';
import { systemVolts } from '../record/resolve-sources.js';
import type { Element, LoadFunction, Point } from './element.js';
import { PartSite } from './expand/part-site.js';
import { expandPart } from './expand/registry.js';
import type { HarnessGraph, ModuleInfo, PositionedPart } from './harness-graph.js';
import { naturalCompare } from './natural-compare.js';
import { partPoint, plugInContacts } from './part-points.js';
import { createResolver } from './resolve-address.js';
import {
  expandDoubleCrimp,
  expandWire,
  sharedCrimps,
  unionOfMarks,
  type WireEnd,
  type WireSurroundings,
} from './wires.js';

/**
 * Builds the graph of a checked record. Parts come before wires, each in natural order, so that the order of the sheets
 * changes nothing. Throws a RangeError when the record names what it does not have: it was not checked.
 */
export function buildHarnessGraph(record: HarnessRecord): HarnessGraph {
  const builder = new GraphBuilder(record);
  for (const part of [...record.parts].sort((a, b) => naturalCompare(a.address, b.address))) builder.addPart(part);
  builder.addWires();
  return builder.finish();
}

class GraphBuilder {
  private readonly points = new Map<string, Point>();
  private readonly elements = new Map<string, Element>();
  private readonly functions = new Map<string, LoadFunction>();
  private readonly modules = new Map<string, ModuleInfo>();
  private readonly positioned = new Map<string, PositionedPart>();
  private readonly addresses;
  private readonly surroundings;

  constructor(private readonly record: HarnessRecord) {
    this.addresses = indexAddresses(record.parts);
    this.surroundings = { systemVolts: systemVolts(record) };
  }

  addPart(part: Part): void {
    const site = new PartSite(part, this.surroundings);
    const specs = this.addresses.pointsOf(part);
    for (const spec of specs) this.addPoint(partPoint(part, spec));
    const expansion = expandPart(part, site);
    for (const point of expansion.inner) this.addPoint(point);
    for (const element of expansion.elements) this.addElement(element);
    for (const element of plugInContacts(part, specs, site)) this.addElement(element);
    for (const fn of expansion.functions) this.functions.set(fn.id, fn);
    if (expansion.module !== null) this.modules.set(part.address, expansion.module);
    const table = contactTableOf(part);
    if (table !== null) {
      const positions = table.positions.map((position) => position.name);
      this.positioned.set(part.address, { part: part.address, positions, rest: table.rest });
    }
  }

  /** Marks of wires reach the terminals they end on before anything is made of those points. */
  addWires(): void {
    const { record } = this;
    const surroundings: WireSurroundings = {
      celsius: figure(record.ambientCelsius, 'system.ambientCelsius'),
      segments: new Map((record.segments ?? []).map((segment) => [segment.address, segment])),
      sharedCrimps: sharedCrimps(record),
    };
    const wires = [...record.wires].sort((a, b) => naturalCompare(a.label, b.label));
    for (const wire of wires) {
      if (wire.marks === undefined) continue;
      for (const end of [wire.from, wire.to]) this.markPoint(end, wire.marks);
    }
    for (const { point } of record.doubleCrimps ?? []) this.addExpansion(expandDoubleCrimp(this.wireEnd(point)));
    for (const wire of wires) {
      this.addExpansion(expandWire(wire, this.wireEnd(wire.from), this.wireEnd(wire.to), surroundings));
    }
  }

  finish(): HarnessGraph {
    const { record, points, elements, functions, modules, positioned } = this;
    for (const { id, a, b } of elements.values()) {
      for (const end of [a, b]) {
        if (!points.has(end)) throw new RangeError(`${id} ends on ${end}, which is no point of the record`);
      }
    }
    let library: MultiUndirectedGraph<Point, Element> | null = null;
    return {
      record,
      // A quarter of the work of building, and a solution alone does without: made when first asked for.
      get graph() {
        library ??= libraryGraph(points, elements);
        return library;
      },
      points,
      elements,
      functions,
      modules,
      positioned,
      reference: this.reference(),
      ...createResolver(record, this.addresses, { points, elements, functions }),
    };
  }

  /** As recorded, else the first battery's negative post, else any negative post, else the first point there is. */
  private reference(): string {
    const { record, points } = this;
    if (record.reference !== undefined) return this.wireEndOrBody(record.reference);
    for (const kinds of [['battery'], ['external-supply', 'jump-posts']]) {
      const source = record.parts.find((part) => kinds.includes(part.kind));
      if (source !== undefined) return `${source.address}/neg`;
    }
    const body = record.parts.find((part) => part.kind === 'body');
    return body?.address ?? points.keys().next().value ?? '';
  }

  private wireEndOrBody(address: string): string {
    return this.addresses.point(address)?.point.address ?? address;
  }

  private addExpansion(expansion: { readonly inner: readonly Point[]; readonly elements: readonly Element[] }): void {
    for (const point of expansion.inner) this.addPoint(point);
    for (const element of expansion.elements) this.addElement(element);
  }

  private addPoint(point: Point): void {
    if (this.points.has(point.id)) throw new RangeError(`point ${point.id} exists twice`);
    this.points.set(point.id, point);
  }

  private addElement(element: Element): void {
    if (this.elements.has(element.id)) throw new RangeError(`element ${element.id} exists twice`);
    this.elements.set(element.id, element);
  }

  private wireEnd(address: string): WireEnd {
    const found = this.addresses.point(address);
    const point = found === null ? undefined : this.points.get(found.point.address);
    if (found === null || point === undefined) throw new RangeError(`no point ${address} to end a wire on`);
    return { point, part: found.part };
  }

  /** A splice, stud, bar or post serves other circuits as well, so a wire's mark stops there. */
  private markPoint(address: string, marks: Point['marks']): void {
    const { point } = this.wireEnd(address);
    if (point.role !== 'terminal' && point.role !== 'cavity') return;
    this.points.set(point.id, { ...point, marks: unionOfMarks(point.marks, marks) });
  }
}

function libraryGraph(
  points: ReadonlyMap<string, Point>,
  elements: ReadonlyMap<string, Element>,
): MultiUndirectedGraph<Point, Element> {
  const graph = new MultiUndirectedGraph<Point, Element>();
  for (const point of points.values()) graph.addNode(point.id, point);
  for (const element of elements.values()) graph.addEdgeWithKey(element.id, element.a, element.b, element);
  return graph;
}
