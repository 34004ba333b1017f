// Where files are dropped or chosen.
// It must not need dragging: the button does the same.

import type { JSX } from 'preact';
import { useId, useState } from 'preact/hooks';

export function FileDrop({ onFiles }: { onFiles: (files: readonly File[]) => void }): JSX.Element {
  const [isOver, setOver] = useState(false);
  const id = useId();
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping is an extra for a mouse; the button inside does the same
    <div
      class={isOver ? 'drop drop-over' : 'drop'}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        event.preventDefault();
        setOver(false);
        onFiles([...(event.dataTransfer?.files ?? [])]);
      }}
    >
      <input
        id={id}
        class="unseen"
        type="file"
        multiple
        accept=".csv,.tsv,.txt,.json,text/csv,application/json"
        onChange={(event) => {
          onFiles([...(event.currentTarget.files ?? [])]);
          event.currentTarget.value = '';
        }}
      />
      <label for={id} class="button button-main button-tall">
        Choose files
      </label>
      <p class="soft">
        Or drop them here: a parts list and a wire list as CSV, as you keep them, or a record as JSON. Nothing is kept
        until you have seen it and said yes.
      </p>
    </div>
  );
}
