/**
 * One settled state on which changes are tried: each is imposed, comes to rest with all that follows from it, and is taken back.
 * It costs what the change moves. It must not give an end that `settle` would not: where it cannot tell, it says nothing.
 */
import type { Circuit } from './compile.js';
import { type Conduction, closedEdges, conductionOf, firmEdges } from './conduction.js';
import type { MeasuredVolts } from './curve-lines.js';
import { type Imposed, imposedBy } from './imposed.js';
import { impossibleSources } from './impossible.js';
import { edgeNumber, type Network } from './network.js';
import { type Accuracy, OperatingPointSolver } from './operating-point.js';
import type { Picture } from './picture.js';
import { firstToOpen, type Opening } from './protection.js';
import type { ResolvedState } from './resolved-state.js';
import { type Carry, carryOf } from './settled-solution.js';
import { situationOf } from './situation.js';
import type { Change, Solution } from './solution.js';

/** A law and its line may differ by this share of the current, plus some amps: well below a millivolt on any wire. */
const PROBE: Accuracy = { share: 1e-6, amps: 1e-7, picture: 'sketch', residual: 1e-14 };
const PROBE_PICTURE: Accuracy = { ...PROBE, picture: 'fine' };

/** A change at rest. The picture is a sketch (see Accuracy) and stands until the next change is tried. */
export interface Rest {
  readonly picture: Picture;
  readonly imposed: Imposed;
  /** How the circuit's variables stand, 1 = on. */
  readonly variables: Uint8Array;
  /** What opened for it, in order. */
  readonly opened: readonly Opening[];
}

export class WhatIf {
  readonly carry: Carry;
  readonly network: Network;
  readonly conduction: Conduction;
  readonly solver: OperatingPointSolver;
  private readonly measured: MeasuredVolts;
  private readonly baseVariables: Uint8Array;
  private readonly baseOpened: readonly number[];
  private isAway = false;

  /** `base` must come from `settle` of the same circuit and state without changes, and have no pulsed outputs. */
  constructor(
    private readonly circuit: Circuit,
    private readonly state: ResolvedState,
    base: Solution,
  ) {
    this.carry = carryOf(base);
    const { picture, variablesOn, blown, tripped } = this.carry;
    this.network = picture.network;
    const { forced, measured } = situationOf(circuit, state, []);
    this.measured = measured;
    this.conduction = conductionOf(circuit, this.network, state, forced);
    this.baseVariables = Uint8Array.from(circuit.variables, ({ name }) => (variablesOn.has(name) ? 1 : 0));
    this.baseOpened = [...blown, ...tripped].map(({ element }) => edgeNumber(this.network, element));
    this.solver = new OperatingPointSolver(this.network, measured, () => null, firmEdges(this.conduction));
    this.solver.warmStart(this.carry);
    const found = this.solver.find(picture.closed, PROBE);
    if (found.kind !== 'found') throw new RangeError('a settled picture must be a solvable network');
    this.solver.makeBase();
  }

  /**
   * The end of some changes, or null when they do not come to rest round after round, or have no place in the pattern.
   * Throws a RangeError on a change that names an element or point that the harness lacks.
   */
  tryOut(changes: readonly Change[]): Rest | null {
    const imposed = imposedBy(this.network, this.measured, changes);
    if (imposed === null) return null;
    if (this.isAway) this.solver.takeBack();
    this.isAway = true;
    this.solver.impose(imposed.laws, imposed.extras);
    const opened: Opening[] = [];
    const seen = new Set<string>();
    let variables = this.baseVariables;
    for (;;) {
      const found = this.solver.find(this.closed(imposed, variables, opened), PROBE);
      if (found.kind !== 'found') return null;
      const { picture } = found;
      const wanted = this.decideAll(variables, picture);
      if (wanted !== null) {
        seen.add(variables.join(''));
        if (seen.has(wanted.join(''))) return null;
        variables = wanted;
        continue;
      }
      const opening = firstToOpen(picture, this.conduction);
      if (opening === null) {
        return impossibleSources(picture) === null ? { picture, imposed, variables, opened } : null;
      }
      if (opening.how === 'cycling' || imposed.forced.has(opening.edge)) return null;
      opened.push(opening);
      seen.clear();
    }
  }

  /** All volts and amps, slopes and proof of the change that was tried last. */
  fullPicture(): Picture {
    return this.solver.picture(PROBE_PICTURE);
  }

  private closed(imposed: Imposed, variables: Uint8Array, opened: readonly Opening[]): Uint8Array {
    const closed = closedEdges(this.conduction, variables, this.baseOpened, 0);
    for (const { edge } of opened) closed[edge] = 0;
    for (const [edge, isClosed] of imposed.forced) closed[edge] = isClosed ? 1 : 0;
    for (const edge of imposed.moved.keys()) closed[edge] = 0;
    return closed;
  }

  /** What the variables want to be; null when they are content. */
  private decideAll(variables: Uint8Array, picture: Picture): Uint8Array | null {
    let wanted: Uint8Array | null = null;
    for (let i = 0; i < variables.length; i++) {
      const isOn = this.circuit.variables[i].decide(variables[i] === 1, picture, this.state) ? 1 : 0;
      if (isOn === variables[i]) continue;
      wanted ??= variables.slice();
      wanted[i] = isOn;
    }
    return wanted;
  }
}
