// The one search field: knows every address, name, label and load; keys alone work it (arrows, Enter, Escape).
// It must not decide what happens with what was found.

import type { JSX } from 'preact';
import { useEffect, useId, useState } from 'preact/hooks';
import { find } from '../api/client.js';
import type { FoundEntry } from '../api/types.js';
import { useAnswer } from '../state/use-answer.js';
import { FoundRow } from './found-row.js';
import { ProblemBox } from './problem-box.js';
import { Progress } from './progress.js';

interface FinderProps {
  readonly harness: string;
  readonly label: string;
  readonly hint: string;
  readonly onPick: (entry: FoundEntry) => void;
  /** Leaves out what cannot be picked here. */
  readonly accepts?: (entry: FoundEntry) => boolean;
  readonly onText?: (text: string) => void;
}

export function Finder({ harness, label, hint, onPick, accepts, onText }: FinderProps): JSX.Element {
  const [text, setText] = useState('');
  const [at, setAt] = useState(0);
  const id = useId();
  const query = text.trim();
  const answer = useAnswer(query === '' ? null : `${harness} ${query}`, (signal) => find(harness, query, { signal }));
  // While a person types on, what was found for the last letters stays; after a pick it would be another question's.
  const [isNew, setNew] = useState(true);
  const [isPicking, setPicking] = useState(false);
  const isHidden = query === '' || (isNew && answer.isWaiting);
  const entries = isHidden ? [] : (answer.value?.found ?? []).filter((entry) => accepts?.(entry) ?? true);
  const marked = Math.min(at, entries.length - 1);

  useEffect(() => {
    document.getElementById(`${id}-${marked}`)?.scrollIntoView({ block: 'nearest' });
  }, [id, marked]);

  useEffect(() => {
    setNew(query === '' || (isNew && answer.isWaiting));
    if (query === '') setPicking(false);
    else if (isPicking && !answer.isWaiting) {
      setPicking(false);
      if (entries[0] !== undefined) pick(entries[0]);
    }
  }, [query, answer.isWaiting]);

  const pick = (entry: FoundEntry): void => {
    setText('');
    onText?.('');
    onPick(entry);
  };

  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key === 'ArrowDown') setAt(Math.min(marked + 1, entries.length - 1));
    else if (event.key === 'ArrowUp') setAt(Math.max(marked - 1, 0));
    else if (event.key === 'Enter' && query !== '' && answer.isWaiting && at === 0) setPicking(true);
    else if (event.key === 'Enter' && entries[marked] !== undefined) pick(entries[marked]);
    else if (event.key === 'Escape' && text !== '') {
      setText('');
      onText?.('');
    } else return;
    event.preventDefault();
  };

  return (
    <div class="finder">
      <label for={id}>{label}</label>
      <input
        id={id}
        class="finder-field"
        type="text"
        role="combobox"
        aria-expanded={entries.length > 0}
        aria-controls={`${id}-list`}
        aria-autocomplete="list"
        aria-activedescendant={entries.length > 0 ? `${id}-${marked}` : undefined}
        aria-describedby={`${id}-hint`}
        autocomplete="off"
        autocapitalize="off"
        spellcheck={false}
        enterKeyHint="go"
        value={text}
        onInput={(event) => {
          setText(event.currentTarget.value);
          setAt(0);
          onText?.(event.currentTarget.value);
        }}
        onKeyDown={onKeyDown}
      />
      <p id={`${id}-hint`} class="hint">
        {hint}
      </p>
      <Progress isShown={answer.isSlow} words="Looking" />
      <div id={`${id}-list`} role="listbox" aria-label="Found" class="found">
        {entries.map((entry, position) => (
          <FoundRow
            key={`${entry.kind} ${entry.address}`}
            id={`${id}-${position}`}
            entry={entry}
            isMarked={position === marked}
            onPick={() => pick(entry)}
          />
        ))}
      </div>
      {query !== '' && answer.problem !== null && <ProblemBox problem={answer.problem} onAgain={answer.again} />}
      {query !== '' && !answer.isWaiting && answer.problem === null && entries.length === 0 && (
        <p role="status" class="none">
          Nothing in this record is called that. Try the address on the label, or a word of the name.
        </p>
      )}
    </div>
  );
}
