// One big row to tap: an address, its name, what else helps to know it apart.
// It must not hold a second thing to tap.

import type { ComponentChildren, JSX } from 'preact';
import { Tag } from './tag.js';

interface LinkRowProps {
  readonly href: string;
  readonly address?: string;
  readonly name: string;
  readonly more?: ComponentChildren;
  readonly end?: ComponentChildren;
}

export function LinkRow({ href, address, name, more, end }: LinkRowProps): JSX.Element {
  return (
    <a class="row" href={href}>
      <span class="row-main">
        <span class="row-name">{name}</span>
        {more !== undefined && more !== '' && <span class="row-more">{more}</span>}
      </span>
      {end}
      {address !== undefined && <Tag address={address} />}
    </a>
  );
}
