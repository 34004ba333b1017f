/**
 * What a check costs in minutes: reach, panels, change of state, work of the hands, risk. Engineering judgement throughout.
 * It must not know what a check would tell.
 */
import type { Model } from '../answers/model.js';
import type { ResolvedState } from '../circuit/resolved-state.js';
import type { Access } from '../record/kinds/common.js';
import type { Check, CheckKind } from './shapes/check.js';

/** A glance. */
export const LOOK_MINUTES = 0.4;
/** Minutes of the work itself, leads in hand. A swap is there and back. Ohms include the battery off and on again and both plugs out and in. */
const WORK_MINUTES: Readonly<Record<CheckKind, number>> = {
  observe: LOOK_MINUTES,
  volts: 0.6,
  lamp: 0.6,
  clamp: 0.8,
  ohms: 5,
  isolation: 5,
  look: 0.7,
  swap: 2.5,
  inspect: 2.5,
  link: 2,
  wiggle: 1.5,
};

const REACH_MINUTES: Readonly<Record<Access, number>> = { open: 0.5, 'behind-panel': 0.7, buried: 30 };
/** Taking a cover off, once; it stays off. */
export const PANEL_MINUTES = 3;
const ENGINE_MINUTES = 1;
const SETTING_MINUTES = 0.3;
const MOST_SETTING_MINUTES = 2.5;
/** A new fuse, and the chance that it goes too. */
export const NEW_FUSE_MINUTES = 1;
/** Pulling a plug can cure what comes and goes, or break another contact. */
const DISTURBANCE_MINUTES = 1;

export interface Place {
  readonly access: Access;
  readonly panel: string | null;
}

/** Cost with panels open and the state set. */
export function workMinutes(check: Check, places: readonly Place[]): number {
  const reach = places.reduce((sum, { access }) => sum + REACH_MINUTES[access], 0);
  const disturbs =
    check.kind === 'ohms' || check.kind === 'isolation' || check.kind === 'inspect' || check.kind === 'swap';
  return WORK_MINUTES[check.kind] + reach + (disturbs ? DISTURBANCE_MINUTES : 0);
}

/** From one state to another: switches to move, the engine to start or stop. */
export function changeMinutes(from: ResolvedState | null, to: ResolvedState): number {
  if (from === null) return SETTING_MINUTES;
  const keys = new Set([...from.positions.keys(), ...to.positions.keys()]);
  let moved = [...keys].filter((part) => from.positions.get(part) !== to.positions.get(part)).length;
  moved += [...new Set([...from.commands.keys(), ...to.commands.keys()])].filter(
    (output) => (from.commands.get(output) ?? 0) !== (to.commands.get(output) ?? 0),
  ).length;
  moved +=
    2 *
    [...new Set([...from.unplugged, ...to.unplugged])].filter(
      (part) => from.unplugged.has(part) !== to.unplugged.has(part),
    ).length;
  moved +=
    4 *
    [...new Set([...from.detached, ...to.detached])].filter((end) => from.detached.has(end) !== to.detached.has(end))
      .length;
  const engine = from.engineRuns === to.engineRuns ? 0 : ENGINE_MINUTES;
  return Math.min(MOST_SETTING_MINUTES, moved * SETTING_MINUTES) + engine;
}

/** Panel that must come off to reach a point; its name stands for it, a part without one has its own. */
export function panelOf(model: Model, point: string): string | null {
  const found = model.graph.points.get(point);
  if (found === undefined || found.access !== 'behind-panel') return null;
  return found.panel ?? `cover at ${found.location ?? found.owner}`;
}
