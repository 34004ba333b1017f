/**
 * Pins of an open connector that still carry voltage: how much, behind which fuse, and what a dead short there would draw.
 */
import { type Linearised, linearise } from '../circuit/linearised.js';
import type { Solution } from '../circuit/solution.js';
import { conductiveView, narrowView } from '../graph/conductive-view.js';
import type { Element, Point } from '../graph/element.js';
import { type FuseFinder, type FusesBehind, fuseFinder } from '../graph/fuses-behind.js';
import { naturalCompare } from '../graph/natural-compare.js';
import { isForbidden } from './cautions.js';
import type { Model } from './model.js';
import type { LivePin } from './shapes/unplug.js';

/** Below this a pin is not called live (half a diode drop; ghost millivolts are not worth a warning). Engineering judgement. */
const LIVE_VOLTS = 0.5;

/** Highest voltage first. Circuits that may not be probed are left out: their cautions speak instead. */
export function livePinsOf(model: Model, solution: Solution, plugs: readonly string[]): LivePin[] {
  const open = new Set(plugs);
  const network = linearise(solution, []);
  const fuseBehind = fusesIn(model, solution);
  const pins: LivePin[] = [];
  for (const point of model.graph.points.values()) {
    if (!open.has(point.owner) || point.side === null || isForbidden(point.marks)) continue;
    const volts = solution.volts(point.id);
    if (volts === null || Math.abs(volts) < LIVE_VOLTS) continue;
    pins.push(pinOf(model, fuseBehind(point.id), network, point, volts));
  }
  return pins.sort(
    (one, other) => Math.abs(other.volts ?? 0) - Math.abs(one.volts ?? 0) || naturalCompare(one.point, other.point),
  );
}

function pinOf(model: Model, fuse: Element | null, network: Linearised, point: Point, volts: number): LivePin {
  const part = model.parts.get(point.owner);
  const half =
    part?.kind === 'connector' && (point.side === 'plug' || point.side === 'receptacle') ? part[point.side] : undefined;
  return {
    point: point.id,
    half: point.side ?? 'socket',
    volts,
    fuse: fuse?.id ?? null,
    fuseRatingAmps: fuse?.protection?.ratingAmps ?? null,
    prospectiveAmps: prospectiveAmps(network, model.graph.reference, point.id, volts),
    contacts: half?.contacts ?? null,
    shroud: half?.shroud ?? null,
  };
}

/** Volts over the resistance seen from the pin (Thévenin), sources silent, loads at their operating point. */
function prospectiveAmps(network: Linearised, reference: string, point: string, volts: number): number | null {
  const response = network.inject([
    { point, amps: 1 },
    { point: reference, amps: -1 },
  ]);
  const rise = response.volts(point);
  return rise === null || rise <= 0 ? null : Math.abs(volts) / rise;
}

/** Looks for fuses by conductors and contacts alone first; a pin that only a load reaches is fed backwards through it. */
function fusesIn(model: Model, solution: Solution): (point: string) => Element | null {
  const conducting = conductiveView(
    model.graph,
    (element) => element.role !== 'source' && solution.conducts(element.id),
  );
  const sources = [...model.graph.elements.values()]
    .filter((element) => element.role === 'source')
    .map((element) => element.a);
  const direct = fuseFinder(narrowView(conducting, model.structure.passable), sources);
  let throughLoads: FuseFinder | undefined;
  const behindLoads = (point: string): FusesBehind | null => {
    throughLoads ??= fuseFinder(conducting, sources);
    return throughLoads.behind(point);
  };
  return (point) => {
    const behind = direct.behind(point) ?? behindLoads(point);
    if (behind === null || behind.hasUnfusedWay) return null;
    return model.graph.elements.get(behind.series.at(-1) ?? behind.parallel.at(-1) ?? '') ?? null;
  };
}
