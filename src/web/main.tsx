// Puts the page into the document and starts what runs beside it: theme, outbox, service worker.
// It must not fetch or decide anything itself.

import { render } from 'preact';
import './styles/tokens.css';
import './styles/base.css';
import './styles/shell.css';
import './styles/parts.css';
import './styles/profile.css';
import './styles/print.css';
import { to } from './addresses.js';
import { App } from './app.js';
import { go } from './route.js';
import { startOffline } from './state/offline.js';
import { startTheme } from './state/theme.js';
import { takeTokenFromAddress } from './state/token.js';

if (takeTokenFromAddress()) go(to.start, 'replace');
startTheme();
startOffline();
render(<App />, document.getElementById('page')!);
