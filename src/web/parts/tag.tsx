// An address as it is printed on the label in the vehicle.
// It must not shorten or change the address.

import type { JSX } from 'preact';

export function Tag({ address, size = 'plain' }: { address: string; size?: 'plain' | 'big' }): JSX.Element {
  return <span class={`tag tag-${size}`}>{address}</span>;
}
