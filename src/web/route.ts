// Where in the page we are, kept in the part of the address behind #, so that back, reload and links work without the server.
// It must not load data.

import { signal } from '@preact/signals';
import { type Route, readRoute } from './addresses.js';

export const route = signal<Route>(readRoute(location.hash));
addEventListener('hashchange', () => {
  route.value = readRoute(location.hash);
});

export function go(href: string, how: 'push' | 'replace' = 'push'): void {
  if (how === 'push') {
    location.hash = href;
    return;
  }
  history.replaceState(null, '', href);
  route.value = readRoute(href);
}
