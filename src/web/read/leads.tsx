// Where the two leads go, each with its own sign and word so that greyscale does.
// It must not say what is read there.

import type { JSX } from 'preact';
import { Tag } from '../parts/tag.js';
import { PlaceLines } from './place-lines.js';

interface LeadsProps {
  readonly red: string;
  readonly black: string;
  /** Where the black lead stays in one place, that place need not be told again in full. */
  readonly isBlackBrief?: boolean;
}

export function Leads({ red, black, isBlackBrief = false }: LeadsProps): JSX.Element {
  return (
    <dl class="leads">
      <div class="lead lead-red">
        <dt>Red</dt>
        <dd>
          <Tag address={red} size="big" />
          <PlaceLines point={red} />
        </dd>
      </div>
      <div class="lead lead-black">
        <dt>Black</dt>
        <dd>
          <Tag address={black} size={isBlackBrief ? 'plain' : 'big'} />
          {!isBlackBrief && <PlaceLines point={black} />}
        </dd>
      </div>
    </dl>
  );
}
