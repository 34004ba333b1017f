// The form for one entry of the record, part or wire: fields, a note for the history, save, remove.
// It must not clear what was typed when the server refuses.

import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import type { Edit, Issue } from '../api/types.js';
import { changedFields, draftOf } from './draft.js';
import { FieldInput, type FieldSpec } from './field-input.js';
import { saveEdits, saveOutcome } from './save-edits.js';

interface EntryFormProps {
  readonly what: 'part' | 'wire';
  /** Address or label as it stands; null: a new entry. */
  readonly address: string | null;
  readonly entry: Readonly<Record<string, unknown>>;
  readonly specs: readonly FieldSpec[];
  /** Fields of a new entry that the form does not ask for. */
  readonly fixed?: Readonly<Record<string, unknown>>;
  readonly onSaved: (fields: Readonly<Record<string, unknown>>) => void;
  readonly onRemoved?: () => void;
}

export function EntryForm(props: EntryFormProps): JSX.Element {
  const { what, address, entry, specs } = props;
  const before = draftOf(address === null ? {} : entry, specs);
  const [draft, setDraft] = useState(() => draftOf(entry, specs));
  const [note, setNote] = useState('');
  const [own, setOwn] = useState<readonly Issue[]>([]);
  const [isRemoving, setRemoving] = useState(false);
  const outcome = saveOutcome.value;
  const issues = [...own, ...(outcome.kind === 'refused' ? outcome.problem.issues : [])];

  const save = async (event: Event): Promise<void> => {
    event.preventDefault();
    const { fields, bad } = changedFields(before, draft, specs);
    setOwn(
      bad.map(({ key, reason }) => ({ code: 'not-json', path: `/${key}`, value: null, reason, accepted: 'JSON' })),
    );
    if (bad.length > 0 || Object.keys(fields).length === 0) return;
    const edit: Edit =
      address === null
        ? { op: 'add', what, value: { ...props.fixed, ...fields } }
        : { op: 'set', what, address, fields };
    if (await saveEdits([edit], note.trim())) props.onSaved(fields);
  };

  return (
    <form class="entry" onSubmit={(event) => void save(event)}>
      {specs.map((spec) => (
        <FieldInput
          key={spec.key}
          spec={spec}
          value={draft[spec.key] ?? ''}
          issue={issues.find(({ path }) => path.endsWith(`/${spec.key}`))}
          onChange={(value) => setDraft({ ...draft, [spec.key]: value })}
        />
      ))}
      <div class="field">
        <label for="entry-note">Why (kept in the history)</label>
        <input
          id="entry-note"
          autocomplete="off"
          value={note}
          onInput={(event) => setNote(event.currentTarget.value)}
        />
      </div>
      <button type="submit" class="button button-main button-tall" disabled={outcome.kind === 'sending'}>
        {address === null ? `Add this ${what}` : 'Keep as a new revision'}
      </button>
      {address !== null && props.onRemoved !== undefined && !isRemoving && (
        <button type="button" class="button button-bad" onClick={() => setRemoving(true)}>
          Remove {address} from the record
        </button>
      )}
      {isRemoving && address !== null && (
        <div class="box box-warn" role="alert">
          <p>
            Take {address} out of the record? It stays readable in the older revisions. Wires that end on it must be
            changed first.
          </p>
          <div class="buttons">
            <button
              type="button"
              class="button button-bad"
              onClick={() =>
                void saveEdits([{ op: 'remove', what, address }], note.trim()).then((ok) => {
                  setRemoving(false);
                  if (ok) props.onRemoved?.();
                })
              }
            >
              Yes, remove it
            </button>
            <button type="button" class="button" onClick={() => setRemoving(false)}>
              No
            </button>
          </div>
        </div>
      )}
    </form>
  );
}
