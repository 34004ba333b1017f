// A load: functions named once, each between two terminals, thresholds in order, states that exist.
// It must not compute ratings.

import type { PartOf } from '../part.js';
import { shortList } from '../record-issue.js';
import type { CheckContext } from './draft.js';

export function checkLoad(context: CheckContext, part: PartOf<'load'>, path: string): void {
  const { issues } = context;
  const names = new Set<string>();
  part.functions.forEach((fn, i) => {
    const at = `${path}/functions/${i}`;
    const key = fn.name.toLowerCase();
    if (names.has(key))
      issues.add(
        'duplicate-function',
        `${at}/name`,
        fn.name,
        `${part.address} has two functions ${fn.name}`,
        'a name for each function',
        part.address,
      );
    if (key === 'case')
      issues.add(
        'reserved-name',
        `${at}/name`,
        fn.name,
        'case is the name of the part`s mounting joint',
        'another name',
        part.address,
      );
    names.add(key);
    if ((fn.feed ?? 'feed').toLowerCase() === (fn.return ?? 'return').toLowerCase()) {
      issues.add(
        'joined-to-itself',
        `${at}/return`,
        fn.return ?? 'return',
        `${fn.name} begins and ends on one terminal`,
        'two different terminals',
        part.address,
      );
    }
    if (fn.weakBelowVolts !== undefined && fn.deadBelowVolts !== undefined && fn.deadBelowVolts > fn.weakBelowVolts) {
      issues.add(
        'thresholds-crossed',
        `${at}/deadBelowVolts`,
        fn.deadBelowVolts,
        `deadBelowVolts is above weakBelowVolts (${fn.weakBelowVolts} V)`,
        `at most ${fn.weakBelowVolts}`,
        part.address,
      );
    }
    fn.runsIn?.forEach((text, k) => {
      const state = context.state(text);
      if (state !== null) fn.runsIn![k] = state;
      else
        issues.add(
          'unknown-state',
          `${at}/runsIn/${k}`,
          text,
          `there is no state ${text}`,
          shortList(context.stateNames()),
          part.address,
        );
    });
  });
  part.limitContacts?.forEach((contact, i) => {
    if (contact.between[0].toLowerCase() === contact.between[1].toLowerCase()) {
      issues.add(
        'joined-to-itself',
        `${path}/limitContacts/${i}/between`,
        contact.between.join(' '),
        'a contact joins a terminal to itself',
        'two different terminals',
        part.address,
      );
    }
  });
}
