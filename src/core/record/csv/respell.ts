// Makes an address out of what stands in a sheet: `Relay 1` -> `Relay_1`, wire `101` -> `W101`.
// It must not change a text that is an address already.

import { normaliseAddress } from '../addresses.js';

const ADDRESS = /^[A-Za-z][A-Za-z0-9_-]{0,31}$/;

/** The nearest address, or null when nothing of the text can be kept. `letter` goes before one that begins with a digit. */
export function respellAddress(text: string, letter: string): string | null {
  if (ADDRESS.test(text)) return text;
  const plain = text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replaceAll('ß', 'ss')
    .replace(/[^A-Za-z0-9_-]+/g, '_')
    .replace(/^[_-]+|_+$/g, '');
  const address = (/^[0-9]/.test(plain) ? letter + plain : plain).slice(0, 32);
  return ADDRESS.test(address) ? address : null;
}

/** Addresses that were spelled anew, by what stood in the sheet. */
export class Respellings {
  private readonly byOld = new Map<string, string>();

  note(old: string, address: string): void {
    if (old !== address) this.byOld.set(normaliseAddress(old), address);
  }

  /** A reference in its new spelling: the part itself or one of its points, `Relay 1/30` -> `Relay_1/30`. */
  apply(text: string): string {
    const whole = this.byOld.get(normaliseAddress(text));
    if (whole !== undefined) return whole;
    const match = /^([^/:.@]+)([/:.@].*)$/.exec(text);
    const owner = match === null ? undefined : this.byOld.get(normaliseAddress(match[1]!));
    return owner === undefined ? text : owner + match![2];
  }
}
