// Which of the places that no check tells apart was mended: only who had it in hand knows.
// It must not choose for the person.

import type { JSX } from 'preact';
import type { Suspect } from '../api/types.js';

interface MendedPickerProps {
  readonly suspects: readonly Suspect[];
  readonly mended: readonly string[];
  readonly onMend: (repairs: readonly string[]) => void;
}

export function MendedPicker({ suspects, mended, onMend }: MendedPickerProps): JSX.Element {
  return (
    <fieldset class="mended">
      <legend>What was mended?</legend>
      {suspects
        .flatMap(({ sites }) => sites)
        .map(({ repair, name, location }) => (
          <label key={repair} class="tool">
            <input
              type="checkbox"
              checked={mended.includes(repair)}
              onChange={({ currentTarget: { checked } }) =>
                onMend(checked ? [...mended, repair] : mended.filter((other) => other !== repair))
              }
            />
            <span>
              {name}
              {location !== null && <span class="row-more">{location}</span>}
            </span>
          </label>
        ))}
    </fieldset>
  );
}
