// An ohmmeter on a list of resistors: connectivity by walking, ohms by eliminating one node after the other (star-mesh transform).
// It must not use the project's own solver, graph or plans: it is the other side of the check.

import type { Conductor } from './bare-harness-netlist.js';

/** Reads ohms between points; null for OL. */
export class BareHarnessMeter {
  private readonly at = new Map<string, Conductor[]>();
  private readonly part = new Map<string, number>();

  constructor(conductors: readonly Conductor[]) {
    for (const conductor of conductors) {
      for (const end of [conductor.a, conductor.b]) {
        const list = this.at.get(end);
        if (list === undefined) this.at.set(end, [conductor]);
        else list.push(conductor);
      }
    }
    let number = 0;
    for (const start of this.at.keys()) {
      if (this.part.has(start)) continue;
      for (const point of this.walk(start)) this.part.set(point, number);
      number += 1;
    }
  }

  /** Number of the piece of metal that a point belongs to; points without any conductor are a piece each. */
  pieceOf(point: string): number | string {
    return this.part.get(point) ?? point;
  }

  /** Whether anything on one bar conducts to anything on the other. */
  conducts(red: readonly string[], black: readonly string[]): boolean {
    const pieces = new Set(red.map((point) => this.pieceOf(point)));
    return black.some((point) => pieces.has(this.pieceOf(point)));
  }

  ohms(red: string, black: string): number | null {
    if (red === black) return 0;
    if (this.pieceOf(red) !== this.pieceOf(black)) return null;
    return this.alongTheOnlyWay(red, black) ?? this.byElimination(red, black);
  }

  /** Points of the piece of metal around a point. */
  walk(start: string): ReadonlySet<string> {
    const points = new Set([start]);
    for (const point of points) for (const { a, b } of this.at.get(point) ?? []) points.add(a).add(b);
    return points;
  }

  /** Sum along the way where the piece is a tree, else null. */
  private alongTheOnlyWay(red: string, black: string): number | null {
    const back = new Map<string, Conductor | null>([[red, null]]);
    const queue = [red];
    for (const point of queue) {
      for (const conductor of this.at.get(point) ?? []) {
        if (conductor === back.get(point)) continue;
        const next = conductor.a === point ? conductor.b : conductor.a;
        if (back.has(next)) return null;
        back.set(next, conductor);
        queue.push(next);
      }
    }
    let ohms = 0;
    let at = black;
    for (let conductor = back.get(at); conductor != null; conductor = back.get(at)) {
      ohms += conductor.ohms;
      at = conductor.a === at ? conductor.b : conductor.a;
    }
    return ohms;
  }

  private byElimination(red: string, black: string): number {
    const siemens = new Map<string, Map<string, number>>();
    const join = (a: string, b: string, by: number): void => {
      for (const [one, other] of [
        [a, b],
        [b, a],
      ]) {
        const row = siemens.get(one) ?? new Map<string, number>();
        row.set(other, (row.get(other) ?? 0) + by);
        siemens.set(one, row);
      }
    };
    const points = this.walk(red);
    const seen = new Set<Conductor>();
    for (const point of points) {
      for (const conductor of this.at.get(point) ?? []) {
        if (seen.has(conductor) || conductor.a === conductor.b) continue;
        seen.add(conductor);
        join(conductor.a, conductor.b, 1 / conductor.ohms);
      }
    }
    const left = new Set([...points].filter((point) => point !== red && point !== black));
    while (left.size > 0) {
      let least: string | null = null;
      for (const point of left) {
        if (least === null || (siemens.get(point)?.size ?? 0) < (siemens.get(least)?.size ?? 0)) least = point;
        if ((siemens.get(least)?.size ?? 0) <= 2) break;
      }
      if (least === null) break;
      const star = [...(siemens.get(least) ?? [])];
      const sum = star.reduce((total, [, value]) => total + value, 0);
      for (const [point] of star) siemens.get(point)?.delete(least);
      siemens.delete(least);
      left.delete(least);
      star.forEach(([one, g], i) => {
        for (const [other, h] of star.slice(i + 1)) join(one, other, (g * h) / sum);
      });
    }
    return 1 / (siemens.get(red)?.get(black) ?? 0);
  }
}
