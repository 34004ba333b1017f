// A few choices of which one holds, as big buttons side by side.
// It must not be used for more than what fits a thumb's reach.

import type { JSX } from 'preact';
import { useId } from 'preact/hooks';

interface ChoicesProps<T extends string> {
  readonly legend: string;
  readonly options: readonly { readonly id: T; readonly words: string }[];
  readonly value: T | null;
  readonly onChoose: (id: T) => void;
  readonly isLegendShown?: boolean;
}

export function Choices<T extends string>(props: ChoicesProps<T>): JSX.Element {
  const group = useId();
  return (
    <fieldset class="choices">
      <legend class={props.isLegendShown === false ? 'unseen' : undefined}>{props.legend}</legend>
      <div class="choices-row">
        {props.options.map(({ id, words }) => (
          <label key={id} class="choice">
            <input type="radio" name={group} checked={props.value === id} onChange={() => props.onChoose(id)} />
            <span>{words}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
