// How the page looks on this device, and what is kept on it.
// It must not hold settings of the server.

import type { JSX } from 'preact';
import { Choices } from '../parts/choices.js';
import { PageFrame } from '../parts/page-frame.js';
import { TokenForm } from '../parts/token-form.js';
import { waiting } from '../state/outbox.js';
import { theme, themes } from '../state/theme.js';

export function SettingsPage(): JSX.Element {
  return (
    <PageFrame title="Settings" heading="Settings of this device">
      <section>
        <h2>Looks</h2>
        <Choices
          legend="Brightness"
          options={themes}
          value={theme.value}
          onChoose={(id) => {
            theme.value = id;
          }}
        />
        <p class="soft">“Full sun” is black on white with nothing tinted, for reading in bright light.</p>
      </section>
      <section>
        <h2>Kept on this device</h2>
        <p>
          {waiting.value.length === 0
            ? 'Nothing waits to be sent.'
            : `${waiting.value.length} entries wait to be sent.`}{' '}
          Readings laid onto a profile, the chosen state and the last harness opened are kept in this browser only.
        </p>
      </section>
      <section>
        <h2>Token</h2>
        <p class="soft">Only for a server that was started to be shared on the local network.</p>
        <TokenForm />
      </section>
    </PageFrame>
  );
}
