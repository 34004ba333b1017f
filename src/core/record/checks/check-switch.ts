// A switch: every position named once, joins that make sense, a rest that is a position.
// It must not look at wires.

import type { PartOf } from '../part.js';
import { shortList } from '../record-issue.js';
import type { CheckContext } from './draft.js';

export function checkSwitch(context: CheckContext, part: PartOf<'switch'>, path: string): void {
  const { issues } = context;
  if (part.positions === undefined) {
    if (part.style === 'rotary') {
      issues.add(
        'missing-field',
        `${path}/positions`,
        null,
        'a rotary switch has no usual contact table',
        'positions, each with the terminals that it joins',
        part.address,
      );
    }
    checkRest(context, part, path);
    return;
  }
  const names = new Set<string>();
  part.positions.forEach((position, i) => {
    const at = `${path}/positions/${i}`;
    const key = position.name.toLowerCase();
    if (names.has(key))
      issues.add(
        'duplicate-position',
        `${at}/name`,
        position.name,
        `${part.address} has two positions ${position.name}`,
        'a name for each position',
        part.address,
      );
    names.add(key);
    position.joins.forEach((set, k) => {
      if (new Set(set.map((terminal) => terminal.toLowerCase())).size < set.length) {
        issues.add(
          'joined-to-itself',
          `${at}/joins/${k}`,
          set.join(' '),
          `${position.name} joins a terminal to itself`,
          'each terminal once',
          part.address,
        );
      }
    });
  });
  if (part.positions.every((position) => position.joins.length === 0)) {
    issues.add(
      'switch-joins-nothing',
      `${path}/positions`,
      null,
      `${part.address} joins nothing in any position`,
      'at least one position that joins terminals',
      part.address,
    );
  }
  checkRest(context, part, path);
}

function checkRest(context: CheckContext, part: PartOf<'switch'>, path: string): void {
  if (part.rest === undefined) return;
  const names = positionNames(part);
  const rest = names.find((name) => name.toLowerCase() === part.rest?.toLowerCase());
  if (rest !== undefined) part.rest = rest;
  else
    context.issues.add(
      'unknown-position',
      `${path}/rest`,
      part.rest,
      `${part.address} has no position ${part.rest}`,
      shortList(names),
      part.address,
    );
}

function positionNames(part: PartOf<'switch'>): readonly string[] {
  if (part.positions !== undefined) return part.positions.map(({ name }) => name);
  if (part.style === 'ignition') return ['off', 'accessory', 'on', 'start'];
  return part.style === 'change-over' ? ['2', '3'] : ['off', 'on'];
}
