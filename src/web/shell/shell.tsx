// What stands around every page: the way home, whether the server is there, what waits to be sent, the thumb bar.
// It must not scroll sideways, nor take more than the bar's height from a phone.

import type { ComponentChildren, JSX } from 'preact';
import { type Route, to } from '../addresses.js';
import { harness } from '../state/harness.js';
import { Mark } from './mark.js';
import { NetworkLine } from './network-line.js';
import { ThumbBar } from './thumb-bar.js';

export function Shell({ route, children }: { route: Route; children: ComponentChildren }): JSX.Element {
  const isInside = 'harness' in route;
  return (
    <div class={isInside ? `shell shell-inside shell-${route.page}` : 'shell'}>
      <button type="button" class="skip" onClick={() => document.querySelector<HTMLElement>('#main h1')?.focus()}>
        Skip to the answer
      </button>
      <header class="head">
        <a class="head-home" href={to.start} aria-label="Lastgood: all harnesses">
          <Mark />
        </a>
        {isInside ? (
          <a class="head-name" href={to.home(route.harness)}>
            {harness.value?.harness === route.harness ? harness.value.record.name : route.harness}
          </a>
        ) : (
          <span class="head-name">Lastgood</span>
        )}
        <a class="head-settings" href={to.settings}>
          Settings
        </a>
      </header>
      <NetworkLine />
      {children}
      {isInside && <ThumbBar route={route} />}
    </div>
  );
}
