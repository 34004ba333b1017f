// What an answer leaned on: state, reference, how the circuit settled, figures that the record left out.
// It must not leave out a settling that is not plain.

import type { JSX } from 'preact';
import type { Basis } from '../api/types.js';
import { ampsText } from '../words/figures.js';
import { Tag } from './tag.js';

export function BasisNote({ basis }: { basis: Basis }): JSX.Element {
  const { settling } = basis;
  return (
    <>
      {settling.kind !== 'settled' && (
        <div class="box box-warn">
          <p>
            <strong>{settlingWords(settling.kind)}</strong> {settling.detail}
          </p>
          {settling.elements.length > 0 && <p>{settling.elements.join(', ')}</p>}
        </div>
      )}
      {[
        ...settling.blown.map((it) => ({ ...it, words: 'blows' })),
        ...settling.mayBlow.map((it) => ({ ...it, words: 'may blow' })),
      ].map(({ element, amps, ratingAmps, words }) => (
        <p key={element} class="box box-warn">
          <Tag address={element.split(':')[0]} /> {words}: {ampsText(amps)} through {ratingAmps} A. A blown fuse is a
          finding; never fit a bigger one.
        </p>
      ))}
      <details class="basis">
        <summary>What this leans on</summary>
        <dl>
          <dt>State</dt>
          <dd>{basis.state}</dd>
          <dt>Black lead on</dt>
          <dd>
            <Tag address={basis.reference} />
          </dd>
          {settling.isMean && (
            <>
              <dt>Pulsed outputs</dt>
              <dd>Means, as a DC meter shows them; lamps and fuses go by the root of the mean square</dd>
            </>
          )}
          <dt>Assumed, not recorded</dt>
          <dd>
            {basis.defaults.length === 0 ? (
              'Nothing'
            ) : (
              <ul>
                {basis.defaults.map(({ id, value, unit, source }) => (
                  <li key={id}>
                    {id}: {value} {unit} <span class="soft">({source})</span>
                  </li>
                ))}
              </ul>
            )}
          </dd>
        </dl>
      </details>
    </>
  );
}

function settlingWords(kind: Basis['settling']['kind']): string {
  switch (kind) {
    case 'settled':
      return 'Settled.';
    case 'chatter':
      return 'A relay chatters in this state.';
    case 'race':
      return 'Which relay is first decides the outcome.';
    case 'several-stable':
      return 'More than one outcome is stable in this state.';
    case 'no-convergence':
      return 'The circuit could not be solved in this state.';
    case 'impossible':
      return 'The record describes something that cannot be.';
    case 'stopped':
      return 'The time allowed was over before it settled.';
    default: {
      const never: never = kind;
      return never;
    }
  }
}
