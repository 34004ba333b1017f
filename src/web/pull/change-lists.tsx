// What a pulled plug changes: loads that die, weaken, start or stay, relays and modules that change, what floats.
// It must not hide a load that starts: that is the surprise that hurts.

import type { JSX } from 'preact';
import { to } from '../addresses.js';
import type { ChangedFunction, Unplug } from '../api/types.js';
import { Fold } from '../parts/fold.js';
import { Tag } from '../parts/tag.js';
import { harness, index } from '../state/harness.js';
import { functionWords } from '../state/record-index.js';
import { conditionWords } from '../words/conditions.js';
import { voltsText } from '../words/figures.js';

export function ChangeLists({ unplug }: { unplug: Unplug }): JSX.Element {
  const others = [
    ...unplug.relays.map(({ coil, after }) => ({
      address: coil,
      words: after === 'pulled' ? 'pulls in' : 'drops out',
    })),
    ...unplug.modules.map(({ module, after }) => ({
      address: module,
      words: after === 'awake' ? 'wakes' : 'falls asleep',
    })),
  ];
  return (
    <>
      <Changed heading="Starts" sign="▲" tone="bad" functions={unplug.start} />
      <Changed heading="Dies" sign="○" tone="plain" functions={unplug.die} />
      <Changed heading="Weakens" sign="◐" tone="warn" functions={unplug.weaken} />
      {unplug.start.length + unplug.die.length + unplug.weaken.length === 0 && (
        <p class="verdict tone-plain">
          <span>
            <strong>No load changes</strong> in this state. Set the vehicle to the state you care about.
          </span>
        </p>
      )}
      {others.length > 0 && (
        <section>
          <h2>Relays and modules that change</h2>
          <ul class="plain-list">
            {others.map(({ address, words }) => (
              <li key={address} class="line">
                <Tag address={address} /> {words}
              </li>
            ))}
          </ul>
        </section>
      )}
      {unplug.floating.length > 0 && (
        <details class="fold">
          <summary>
            No longer tied to anything <span class="soft">{unplug.floating.length} points</span>
          </summary>
          <p class="soft">A reading there means nothing until the plug is back.</p>
          <p class="tags">
            {unplug.floating.map((point) => (
              <Tag key={point} address={point} />
            ))}
          </p>
        </details>
      )}
      <Fold
        summary={
          <>
            Stays as it is <span class="soft">{unplug.stay.length}</span>
          </>
        }
      >
        {() => (
          <>
            <ul class="plain-list">
              {unplug.stay.map((id) => (
                <li key={id} class="line">
                  <FunctionName id={id} />
                </li>
              ))}
            </ul>
          </>
        )}
      </Fold>
    </>
  );
}

interface ChangedProps {
  readonly heading: string;
  readonly sign: string;
  readonly tone: 'bad' | 'warn' | 'plain';
  readonly functions: readonly ChangedFunction[];
}

function Changed({ heading, sign, tone, functions }: ChangedProps): JSX.Element | null {
  if (functions.length === 0) return null;
  return (
    <section>
      <h2 class={`tone-${tone}`}>
        <span aria-hidden="true">{sign} </span>
        {heading}
      </h2>
      <ul class="plain-list">
        {functions.map((fn) => (
          <li key={fn.function} class="line line-ends">
            <FunctionName id={fn.function} />
            <span class="line-end">
              {conditionWords(fn.before).word} {voltsText(fn.voltsBefore)}
              <span aria-hidden="true"> → </span>
              <span class="unseen"> to </span>
              <strong>{voltsText(fn.voltsAfter)}</strong>
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}

function FunctionName({ id }: { id: string }): JSX.Element {
  const record = index.value;
  return (
    <span>
      <a href={to.at(harness.value?.harness ?? '', 'feeds', id)}>{record === null ? id : functionWords(record, id)}</a>{' '}
      <Tag address={id} />
    </span>
  );
}
