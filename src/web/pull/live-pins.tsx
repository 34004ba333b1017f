// The pins that are still live once the plug is out: volts, the fuse behind them, what a short would draw.
// It must not be folded away.

import type { JSX } from 'preact';
import type { LivePin } from '../api/types.js';
import { Tag } from '../parts/tag.js';
import { partOfFunction } from '../words/addresses.js';
import { ampsText, voltsText } from '../words/figures.js';

const halfWords: Readonly<Record<LivePin['half'], string>> = {
  plug: 'plug half',
  receptacle: 'receptacle half',
  socket: 'the socket in the harness',
  body: 'the part itself',
};

export function LivePins({ pins }: { pins: readonly LivePin[] }): JSX.Element {
  if (pins.length === 0) {
    return (
      <p class="verdict tone-good">
        <span class="verdict-sign" aria-hidden="true">
          ○
        </span>
        <span>
          <strong>No pin stays live</strong> in this state. Prove it with the meter before you trust it.
        </span>
      </p>
    );
  }
  return (
    <section class="live" aria-label="Pins that stay live">
      <h2>
        <span aria-hidden="true">⚠ </span>
        {pins.length} {pins.length === 1 ? 'pin stays' : 'pins stay'} live
      </h2>
      <ul class="plain-list">
        {pins.map((pin) => (
          <li key={pin.point} class={pin.fuse === null ? 'live-pin live-unfused' : 'live-pin'}>
            <Tag address={pin.point} size="big" />
            <span class="live-volts">{voltsText(pin.volts)}</span>
            <span class="live-more">
              {halfWords[pin.half]}
              {pin.contacts !== null && `, ${pin.contacts}`}
              {pin.shroud === 'exposed' && ', exposed'}
              <br />
              {pin.fuse === null ? (
                <strong>no fuse behind it</strong>
              ) : (
                <>
                  fuse <Tag address={partOfFunction(pin.fuse)} />{' '}
                  {pin.fuseRatingAmps !== null && `${pin.fuseRatingAmps} A`}
                </>
              )}
              {pin.prospectiveAmps !== null && `, a short draws ${ampsText(pin.prospectiveAmps)}`}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}
