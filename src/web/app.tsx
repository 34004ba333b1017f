// The shell: skip link, head, the page of the route, and the bar under the thumb.
// It must not hold what belongs to one page.

import type { JSX } from 'preact';
import type { Route } from './addresses.js';
import { lazy } from './lazy.js';
import { AskPage } from './pages/ask-page.js';
import { FeedsPage } from './pages/feeds-page.js';
import { ProfilePage } from './pages/profile-page.js';
import { PullPage } from './pages/pull-page.js';
import { ReadPage } from './pages/read-page.js';
import { StartPage } from './pages/start-page.js';
import { UnknownPage } from './pages/unknown-page.js';
import { WithHarness } from './pages/with-harness.js';
import { route } from './route.js';
import { Shell } from './shell/shell.js';

const ImportPage = lazy(async () => (await import('./pages/import-page.js')).ImportPage);
const SettingsPage = lazy(async () => (await import('./pages/settings-page.js')).SettingsPage);
const PlugPage = lazy(async () => (await import('./pages/plug-page.js')).PlugPage);
const FreePage = lazy(async () => (await import('./pages/free-page.js')).FreePage);
const MapPage = lazy(async () => (await import('./pages/map-page.js')).MapPage);
const RecordPage = lazy(async () => (await import('./record/record-page.js')).RecordPage);
const PartPage = lazy(async () => (await import('./record/part-page.js')).PartPage);
const WirePage = lazy(async () => (await import('./record/wire-page.js')).WirePage);
const HistoryPage = lazy(async () => (await import('./record/history-page.js')).HistoryPage);
const HuntsPage = lazy(async () => (await import('./hunt/hunts-page.js')).HuntsPage);
const HuntPage = lazy(async () => (await import('./hunt/hunt-page.js')).HuntPage);
const ProvePage = lazy(async () => (await import('./prove/prove-page.js')).ProvePage);
const FindingsPage = lazy(async () => (await import('./prove/findings-page.js')).FindingsPage);
const SneaksPage = lazy(async () => (await import('./prove/sneaks-page.js')).SneaksPage);
const RunPage = lazy(async () => (await import('./prove/run-page.js')).RunPage);
const PrintPage = lazy(async () => (await import('./print/print-page.js')).PrintPage);

export function App(): JSX.Element {
  const here = route.value;
  return (
    <Shell route={here}>
      {'harness' in here ? (
        <WithHarness id={here.harness} key={here.harness}>
          <HarnessPage route={here} />
        </WithHarness>
      ) : (
        <OwnPage route={here} />
      )}
    </Shell>
  );
}

function OwnPage({ route: here }: { route: Exclude<Route, { harness: string }> }): JSX.Element {
  if (here.page === 'start') return <StartPage />;
  if (here.page === 'import') return <ImportPage />;
  if (here.page === 'settings') return <SettingsPage />;
  return <UnknownPage />;
}

function HarnessPage({ route: here }: { route: Extract<Route, { harness: string }> }): JSX.Element {
  switch (here.page) {
    case 'ask':
      return <AskPage />;
    case 'feeds':
      return <FeedsPage key={here.target} target={here.target} />;
    case 'profile':
      return <ProfilePage key={here.target} target={here.target} />;
    case 'pull':
      return <PullPage targets={here.targets} />;
    case 'read':
      return <ReadPage targets={here.targets} />;
    case 'plug':
      return <PlugPage key={here.target} target={here.target} />;
    case 'free':
      return <FreePage key={here.target} target={here.target} />;
    case 'map':
      return <MapPage key={here.target} target={here.target} />;
    case 'record':
      return <RecordPage />;
    case 'part':
      return <PartPage key={here.target} target={here.target} />;
    case 'wire':
      return <WirePage key={here.target} target={here.target} />;
    case 'history':
      return <HistoryPage from={here.from} to={here.to} />;
    case 'hunts':
      return <HuntsPage />;
    case 'hunt':
      return <HuntPage key={here.target} target={here.target} />;
    case 'plans':
      return <ProvePage />;
    case 'findings':
      return <FindingsPage />;
    case 'sneaks':
      return <SneaksPage />;
    case 'run':
      return <RunPage key={here.target} target={here.target} />;
    case 'print':
      return <PrintPage key={here.target} target={here.target} />;
    default: {
      const never: never = here;
      return never;
    }
  }
}
