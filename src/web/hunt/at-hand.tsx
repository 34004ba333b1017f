// What the person has at hand: checks are chosen within it.
// It must not ask before every hunt; it is folded and remembered.

import type { JSX } from 'preact';
import type { Instruments } from '../api/types.js';
import { Fold } from '../parts/fold.js';
import { instruments } from './symptom-draft.js';

/** Common practice: a multimeter and spares are there unless said otherwise, the rest is not. */
const tools: readonly (readonly [tool: keyof Instruments, words: string, isUsual: boolean])[] = [
  ['voltmeter', 'Multimeter: volts and ohms', true],
  ['testLamp', 'Test lamp', false],
  ['clamp', 'Clamp meter for direct current', false],
  ['sparesAtHand', 'Spare relay, fuse, bulb to try', true],
  ['breakOutLeads', 'Break-out leads for plugs', false],
  ['fusedLink', 'Jumper lead with a fuse in it', false],
];

export function AtHand(): JSX.Element {
  const has = instruments.value;
  const count = tools.filter(([tool, , isUsual]) => has[tool] ?? isUsual).length;
  return (
    <Fold
      summary={
        <>
          What is at hand{' '}
          <span class="soft">
            {count} of {tools.length}
          </span>
        </>
      }
    >
      {() =>
        tools.map(([tool, words, isUsual]) => (
          <label key={tool} class="tool">
            <input
              type="checkbox"
              checked={has[tool] ?? isUsual}
              onChange={(event) => {
                instruments.value = { ...has, [tool]: event.currentTarget.checked };
              }}
            />
            {words}
          </label>
        ))
      }
    </Fold>
  );
}
