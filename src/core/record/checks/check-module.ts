// A module: each terminal has one role, outputs and inputs refer to supplies and grounds that it has, conditions can be read.
// It must not decide when an output is on.

import { EXPRESSION_ACCEPTED, expressionText, parseExpression, renameTerminals, terminalsIn } from '../expression.js';
import type { PartOf } from '../part.js';
import { shortList } from '../record-issue.js';
import type { CheckContext } from './draft.js';

type ModulePart = PartOf<'module'>;

export function checkModule(context: CheckContext, part: ModulePart, path: string): void {
  checkRoles(context, part, path);
  const supplies = part.supplies.map((pin) => pin.terminal);
  const grounds = part.grounds.map((pin) => pin.terminal);
  const inputs = (part.inputs ?? []).map((pin) => pin.terminal);
  const sensors = (part.sensorSupplies ?? []).map((pin) => pin.terminal);

  function own(text: string, among: readonly string[], what: string, at: string): string {
    const found = among.find((terminal) => terminal.toLowerCase() === text.toLowerCase());
    if (found === undefined) {
      context.issues.add(
        'unknown-terminal',
        at,
        text,
        `${part.address} has no ${what} ${text}`,
        shortList(among),
        part.address,
      );
    }
    return found ?? text;
  }

  part.outputs?.forEach((pin, i) => {
    const at = `${path}/outputs/${i}`;
    if (pin.from !== undefined) {
      pin.from =
        pin.side === 'high'
          ? own(pin.from, supplies, 'supply', `${at}/from`)
          : own(pin.from, grounds, 'ground', `${at}/from`);
    }
    if (pin.on !== undefined) pin.on = condition(pin.on, `${at}/on`);
  });
  part.inputs?.forEach((pin, i) => {
    if (pin.to === undefined) return;
    const among =
      pin.pull === 'up'
        ? [...supplies, ...sensors]
        : pin.pull === 'down'
          ? grounds
          : [...supplies, ...sensors, ...grounds];
    pin.to = own(pin.to, among, 'supply or ground', `${path}/inputs/${i}/to`);
  });
  part.sensorSupplies?.forEach((pin, i) => {
    if (pin.ground !== undefined) pin.ground = own(pin.ground, grounds, 'ground', `${path}/sensorSupplies/${i}/ground`);
  });

  /** The condition with canonical terminals; unreadable ones stay as they are. */
  function condition(text: string, at: string): string {
    const parsed = parseExpression(text);
    if (!parsed.ok) {
      context.issues.add('bad-condition', at, text, parsed.reason, EXPRESSION_ACCEPTED, part.address);
      return text;
    }
    const among = [...inputs, ...supplies];
    const spelled = new Map(
      terminalsIn(parsed.expression).map((name) => [name, own(name, among, 'input or supply', at)]),
    );
    return expressionText(renameTerminals(parsed.expression, (name) => spelled.get(name) ?? name));
  }
}

function checkRoles(context: CheckContext, part: ModulePart, path: string): void {
  const lists = {
    supplies: part.supplies,
    grounds: part.grounds,
    outputs: part.outputs ?? [],
    inputs: part.inputs ?? [],
    sensorSupplies: part.sensorSupplies ?? [],
  };
  const first = new Map<string, string>();
  for (const [list, pins] of Object.entries(lists)) {
    pins.forEach((pin, i) => {
      const key = pin.terminal.toLowerCase();
      const earlier = first.get(key);
      if (earlier !== undefined) {
        context.issues.add(
          'terminal-named-twice',
          `${path}/${list}/${i}/terminal`,
          pin.terminal,
          `${part.address} names ${pin.terminal} in ${earlier} already`,
          'one role for each terminal',
          part.address,
        );
      } else first.set(key, list);
    });
  }
}
