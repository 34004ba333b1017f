// A connector: bridges and spare cavities name cavities that it has; a spare cavity holds no wire.
// It must not judge half-filled connectors; those are findings.

import type { PartOf } from '../part.js';
import { shortList } from '../record-issue.js';
import { terminalsOf } from '../terminals.js';
import type { CheckContext } from './draft.js';

export function checkConnector(context: CheckContext, part: PartOf<'connector'>, path: string): void {
  const cavities = new Map(terminalsOf(part).map((cavity) => [cavity.toLowerCase(), cavity]));

  function cavity(text: string, at: string): string {
    const found = cavities.get(text.toLowerCase());
    if (found === undefined) {
      context.issues.add(
        'unknown-terminal',
        at,
        text,
        `${part.address} has no cavity ${text}`,
        shortList([...cavities.values()], 16),
        part.address,
      );
    }
    return found ?? text;
  }

  part.bridges?.forEach((bridge, i) => {
    const at = `${path}/bridges/${i}/cavities`;
    bridge.cavities.forEach((text, k) => {
      bridge.cavities[k] = cavity(text, `${at}/${k}`);
    });
    if (new Set(bridge.cavities).size < bridge.cavities.length) {
      context.issues.add(
        'joined-to-itself',
        at,
        bridge.cavities.join(' '),
        'a bridge joins a cavity to itself',
        'each cavity once',
        part.address,
      );
    }
  });
  part.spare?.forEach((text, i) => {
    part.spare![i] = cavity(text, `${path}/spare/${i}`);
  });
}
