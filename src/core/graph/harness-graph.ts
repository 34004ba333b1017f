/**
 * The harness graph: a graphology multigraph of points and conductive elements, with look-up by address.
 * Built once per record revision by `buildHarnessGraph`; never mutated afterwards.
 */
import type { MultiUndirectedGraph } from 'graphology';
import type { HarnessRecord } from '../record/record.js';
import type { Element, LoadFunction, Point } from './element.js';

export interface ModuleInfo {
  readonly part: string;
  readonly supplies: readonly { readonly point: string; readonly minimumVolts: number }[];
  readonly grounds: readonly string[];
  readonly inputs: readonly {
    readonly terminal: string;
    readonly point: string;
    readonly ground: string;
    readonly thresholdVolts: number;
    readonly active: 'high' | 'low';
  }[];
  readonly outputs: readonly {
    readonly terminal: string;
    readonly point: string;
    readonly element: string;
    readonly on: string | null;
    readonly limitAmps: number;
    /** Switches itself off at or above this current; null when it only limits. */
    readonly tripsAtAmps: number | null;
    readonly pulsed: boolean;
  }[];
}

/** A contact table: what a state sets by position. */
export interface PositionedPart {
  readonly part: string;
  readonly positions: readonly string[];
  readonly rest: string;
}

export interface HarnessGraph {
  readonly record: HarnessRecord;
  /** Node key = point id; edge key = element id. */
  readonly graph: MultiUndirectedGraph<Point, Element>;
  readonly points: ReadonlyMap<string, Point>;
  readonly elements: ReadonlyMap<string, Element>;
  readonly functions: ReadonlyMap<string, LoadFunction>;
  readonly modules: ReadonlyMap<string, ModuleInfo>;
  readonly positioned: ReadonlyMap<string, PositionedPart>;
  /** Point that voltages are read against. */
  readonly reference: string;
  /**
   * Any-case address or alias -> canonical id. One text can name several things (`G1` is a part and its point, `E1` a part
   * and its only function): the first of point, wire, part, function, element.
   */
  resolve(text: string): Resolved | null;
  /** The same, looking for one kind of thing only. */
  resolveAs(kind: Resolved['kind'], text: string): string | null;
}

export type Resolved =
  | { readonly kind: 'point'; readonly id: string }
  | { readonly kind: 'element'; readonly id: string }
  | { readonly kind: 'part'; readonly id: string }
  | { readonly kind: 'wire'; readonly id: string }
  | { readonly kind: 'function'; readonly id: string };
