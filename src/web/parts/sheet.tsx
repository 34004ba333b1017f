// A sheet that comes up from the thumb's side, over the page, until it is closed.
// It must not trap a person: Escape, the close button and a tap beside it close it.

import type { ComponentChildren, JSX } from 'preact';
import { useEffect, useId, useRef } from 'preact/hooks';

interface SheetProps {
  readonly title: ComponentChildren;
  readonly onClose: () => void;
  readonly children: ComponentChildren;
}

export function Sheet({ title, onClose, children }: SheetProps): JSX.Element {
  const dialog = useRef<HTMLDialogElement>(null);
  const id = useId();
  useEffect(() => {
    const element = dialog.current;
    if (element !== null && !element.open) element.showModal();
    // Going back must not leave the sheet standing over another page.
    const close = (): void => element?.close();
    addEventListener('hashchange', close);
    return () => removeEventListener('hashchange', close);
  }, []);
  return (
    <dialog
      ref={dialog}
      class="sheet"
      aria-labelledby={id}
      onClose={onClose}
      onClick={(event) => {
        if (event.target === dialog.current) dialog.current?.close();
      }}
      onKeyDown={(event) => event.stopPropagation()}
    >
      <div class="sheet-inner">
        <header class="sheet-head">
          <h2 id={id}>{title}</h2>
          <button type="button" class="button" onClick={() => dialog.current?.close()}>
            Close
          </button>
        </header>
        {children}
      </div>
    </dialog>
  );
}
