// Checks of one part against the rest of the record and within itself, by kind.
// It must not hold the rules of switches, modules and connectors; each has a file.

import type { Part } from '../part.js';
import { terminalsOf } from '../terminals.js';
import { checkConnector } from './check-connector.js';
import { checkLoad } from './check-load.js';
import { checkModule } from './check-module.js';
import { checkSwitch } from './check-switch.js';
import type { CheckContext, PartEntry } from './draft.js';
import { findBody, findPoint } from './find.js';

export function checkParts(context: CheckContext): void {
  for (const entry of context.draft.parts) {
    checkAssembly(context, entry);
    checkBodies(context, entry);
    checkTerminalNames(context, entry);
    checkKind(context, entry);
  }
}

function checkAssembly(context: CheckContext, { value: part, path }: PartEntry): void {
  if (part.assembly === undefined) return;
  const assembly = context.assembly(part.assembly);
  if (assembly !== null) part.assembly = assembly;
  else if (!context.isDeclared(part.assembly)) {
    context.issues.add(
      'unknown-assembly',
      `${path}/assembly`,
      part.assembly,
      `there is no assembly ${part.assembly}`,
      'an address of the assemblies',
      part.address,
    );
  }
}

function checkBodies(context: CheckContext, { value: part, path }: PartEntry): void {
  const owner = part.address;
  if ('caseOn' in part && part.caseOn !== undefined) {
    part.caseOn = findBody(context, part.caseOn, { path: `${path}/caseOn`, part: owner }) ?? part.caseOn;
  }
  if ('on' in part && part.on !== undefined) {
    part.on = findBody(context, part.on, { path: `${path}/on`, part: owner }) ?? part.on;
  }
  if (part.kind === 'strap' || part.kind === 'tie') {
    for (const i of [0, 1] as const) {
      const at = { path: `${path}/between/${i}`, part: owner };
      const found =
        part.kind === 'strap'
          ? findBody(context, part.between[i], at)
          : (findPoint(context, part.between[i], at)?.address ?? null);
      part.between[i] = found ?? part.between[i];
    }
    if (part.between[0] === part.between[1]) {
      context.issues.add(
        'joined-to-itself',
        `${path}/between/1`,
        part.between[1],
        `${owner} joins ${part.between[0]} to itself`,
        'two different ends',
        owner,
      );
    }
  }
}

/** Addresses are found in any case, so two terminals of one part may not differ by case alone. */
function checkTerminalNames(context: CheckContext, { value: part, path }: PartEntry): void {
  // The roles of a module's terminals are checked one by one.
  if (part.kind === 'module') return;
  const first = new Map<string, string>();
  for (const terminal of terminalsOf(part)) {
    const key = terminal.toLowerCase();
    const earlier = first.get(key);
    if (earlier !== undefined) {
      context.issues.add(
        'terminal-named-twice',
        path,
        terminal,
        `${part.address} has the terminals ${earlier} and ${terminal}`,
        'terminal names of one part that differ by more than case',
        part.address,
      );
    }
    first.set(key, terminal);
  }
}

function checkKind(context: CheckContext, { value: part, path }: PartEntry): void {
  switch (part.kind) {
    case 'load':
      checkLoad(context, part, path);
      return;
    case 'module':
      checkModule(context, part, path);
      return;
    case 'switch':
      checkSwitch(context, part, path);
      return;
    case 'connector':
      checkConnector(context, part, path);
      return;
    case 'alternator':
      if (part.sense !== undefined) {
        part.sense =
          findPoint(context, part.sense, { path: `${path}/sense`, part: part.address })?.address ?? part.sense;
      }
      return;
    case 'relay': {
      tellOrder(context, part, path, 'dropOutVolts', part.dropOutVolts, 'pullInVolts', part.pullInVolts);
      const cathode = part.suppressor?.cathode;
      if (cathode !== undefined && cathode !== '85' && cathode !== '86') {
        context.issues.add(
          'unknown-terminal',
          `${path}/suppressor/cathode`,
          cathode,
          `the coil of ${part.address} has no terminal ${cathode}`,
          '85, 86',
          part.address,
        );
      }
      return;
    }
    case 'starter':
      tellOrder(context, part, path, 'dropOutVolts', part.dropOutVolts, 'pullInVolts', part.pullInVolts);
      return;
    case 'split-charge-relay':
      tellOrder(context, part, path, 'disconnectVolts', part.disconnectVolts, 'connectVolts', part.connectVolts);
      return;
    case 'thermistor': {
      const seen = new Set<number>();
      part.points.forEach(({ celsius }, i) => {
        if (seen.has(celsius)) {
          context.issues.add(
            'repeated-temperature',
            `${path}/points/${i}/celsius`,
            celsius,
            `${celsius} °C stands twice`,
            'each temperature once',
            part.address,
          );
        }
        seen.add(celsius);
      });
      return;
    }
    default:
      return;
  }
}

/** The lower of two thresholds may not be above the upper one. */
function tellOrder(
  context: CheckContext,
  part: Part,
  path: string,
  low: string,
  lower?: number,
  high?: string,
  upper?: number,
): void {
  if (lower === undefined || upper === undefined || lower <= upper) return;
  context.issues.add(
    'thresholds-crossed',
    `${path}/${low}`,
    lower,
    `${low} is above ${high} (${upper} V)`,
    `at most ${upper}`,
    part.address,
  );
}
