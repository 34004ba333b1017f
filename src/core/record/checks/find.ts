// Finds what a reference means, or says why it means nothing and what could stand there.
// It must not change the record; callers store the canonical spelling that it returns.

import { normaliseAddress, ownerText } from '../addresses.js';
import type { Part, PartKind } from '../part.js';
import { harnessPointAddress, mountOf, type PointSpec } from '../points.js';
import { shortList } from '../record-issue.js';
import { terminalsOf } from '../terminals.js';
import type { CheckContext } from './draft.js';

/** Where a reference stands, for its messages. */
export interface At {
  readonly path: string;
  readonly part: string;
}

/** The part that a text names; null after telling `unknown-part`, or silently when its own entry was refused. */
export function findPart(context: CheckContext, text: string, at: At): Part | null {
  const part = context.index.part(text);
  if (part === null && !context.isDeclared(text)) tellUnknownPart(context, text, text, at);
  return part;
}

/** The part if it is of one of these kinds; else tells `wrong-kind`. */
export function findPartOfKind(context: CheckContext, text: string, kinds: readonly PartKind[], at: At): Part | null {
  const part = findPart(context, text, at);
  if (part === null || kinds.includes(part.kind)) return part;
  const fitting = context.draft.parts.map(({ value }) => value).filter(({ kind }) => kinds.includes(kind));
  context.issues.add(
    'wrong-kind',
    at.path,
    text,
    `${part.address} is a ${part.kind}`,
    fitting.length === 0
      ? `a ${kinds.join(' or ')}`
      : `a ${kinds.join(' or ')}: ${shortList(fitting.map(({ address }) => address))}`,
    at.part,
  );
  return null;
}

/** Canonical address of a body. */
export function findBody(context: CheckContext, text: string, at: At): string | null {
  return findPartOfKind(context, text, ['body'], at)?.address ?? null;
}

/** Any point of the record: `K2/87`, `X4.plug/3`, `G1`, `FRAME`. */
export function findPoint(context: CheckContext, text: string, at: At): PointSpec | null {
  const found = context.index.point(text);
  if (found !== null) return found.point;
  tellUnknownPoint(context, text, at);
  return null;
}

/** A point on which a wire may end. */
export function findWireEnd(context: CheckContext, text: string, at: At): PointSpec | null {
  const found = context.index.point(text);
  if (found === null) {
    tellUnknownPoint(context, text, at);
    return null;
  }
  if (found.point.wireable) return found.point;
  tellNotWireable(context, text, found.part, found.point, at);
  return null;
}

function tellUnknownPoint(context: CheckContext, text: string, at: At): void {
  const owner = ownerText(text.trim());
  const part = context.index.part(owner);
  if (part === null) {
    if (!context.isDeclared(owner)) tellUnknownPart(context, text, owner, at);
    else if (context.wires.has(normaliseAddress(owner))) {
      context.issues.add(
        'wire-on-wire',
        at.path,
        text,
        `${owner} is a wire`,
        'a point of a part; join wires with a splice',
        at.part,
      );
    }
    return;
  }
  const terminals = terminalsOf(part);
  // A switch that joins nothing is told at the switch.
  if (part.kind === 'switch' && terminals.length === 0) return;
  const named = /[/:]([^/:]*)$/.exec(text)?.[1] ?? '';
  const cavity = terminals.find((terminal) => normaliseAddress(terminal) === normaliseAddress(named));
  if (part.kind === 'connector' && cavity !== undefined && !/\./.test(text)) {
    const both = `${part.address}.plug/${cavity} or ${part.address}.receptacle/${cavity}`;
    context.issues.add(
      'half-missing',
      at.path,
      text,
      `${text} does not say which half of the connector`,
      both,
      at.part,
    );
    return;
  }
  const wireable = context.index.pointsOf(part).filter((point) => point.wireable);
  const accepted = shortList(
    wireable.map((point) => point.address),
    16,
  );
  const reason =
    named === ''
      ? `${part.address} (${part.kind}) has several points`
      : `${part.address} (${part.kind}) has no ${part.kind === 'connector' ? 'cavity' : 'terminal'} ${named}`;
  if (wireable.length === 0) {
    context.issues.add(
      'unknown-terminal',
      at.path,
      text,
      `${part.address} (${part.kind}) has no points`,
      'another part',
      at.part,
    );
    return;
  }
  context.issues.add(named === '' ? 'terminal-missing' : 'unknown-terminal', at.path, text, reason, accepted, at.part);
}

function tellUnknownPart(context: CheckContext, text: string, owner: string, at: At): void {
  const close = context.closeTo(owner);
  const accepted =
    close.length === 0 ? 'an address of the parts' : `an address of the parts, such as ${shortList(close, 8)}`;
  context.issues.add('unknown-part', at.path, text, `there is no part ${owner}`, accepted, at.part);
}

function tellNotWireable(context: CheckContext, text: string, part: Part, point: PointSpec, at: At): void {
  if (point.role === 'body') {
    const grounds = context.draft.parts
      .map(({ value }) => value)
      .filter((other) => other.kind === 'ground' && other.on === part.address);
    const accepted =
      grounds.length === 0
        ? `a ground stud on ${part.address}`
        : `a ground on it: ${shortList(grounds.map(({ address }) => address))}`;
    context.issues.add(
      'wire-on-body',
      at.path,
      text,
      `${part.address} is a body; a wire ends on a stud`,
      accepted,
      at.part,
    );
  } else if (point.role === 'bar') {
    const accepted = shortList(terminalsOf(part).map((terminal) => harnessPointAddress(part, terminal)));
    context.issues.add('wire-on-bar', at.path, text, `${part.address} is the bar itself`, accepted, at.part);
  } else {
    const accepted = point.terminal === null ? part.address : harnessPointAddress(part, point.terminal);
    context.issues.add(
      'wire-inside-plug',
      at.path,
      text,
      `${point.address} is the part's own side of a plug`,
      accepted,
      at.part,
    );
  }
}

/** A part that hands can take out: a connector, a fuse, or anything that is plugged in. */
export function isUnpluggable(part: Part): boolean {
  return part.kind === 'connector' || part.kind === 'fuse' || mountOf(part) === 'plug-in';
}
