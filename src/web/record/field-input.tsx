// One field of the record to fill in: text as people write it, one of a few words, or nested data as JSON.
// It must not check the value: the server reads quantities, and says at which field it could not.

import type { JSX } from 'preact';
import { useId } from 'preact/hooks';
import type { Issue } from '../api/types.js';
import { fieldWords } from '../words/field-words.js';

export interface FieldSpec {
  readonly key: string;
  readonly kind: 'text' | 'choice' | 'json';
  readonly choices?: readonly string[];
  readonly hint?: string;
  readonly isNeeded?: boolean;
}

interface FieldInputProps {
  readonly spec: FieldSpec;
  readonly value: string;
  readonly issue: Issue | undefined;
  readonly onChange: (value: string) => void;
}

export function FieldInput({ spec, value, issue, onChange }: FieldInputProps): JSX.Element {
  const id = useId();
  const described = [spec.hint !== undefined ? `${id}-hint` : '', issue !== undefined ? `${id}-issue` : '']
    .filter((it) => it !== '')
    .join(' ');
  const shared = {
    id,
    'aria-invalid': issue !== undefined,
    'aria-describedby': described === '' ? undefined : described,
    required: spec.isNeeded,
  };
  return (
    <div class="field">
      <label for={id}>
        {fieldWords(spec.key)}
        {spec.isNeeded && <span class="soft"> (needed)</span>}
      </label>
      {spec.kind === 'choice' && (
        <select {...shared} value={value} onChange={(event) => onChange(event.currentTarget.value)}>
          <option value="">not recorded</option>
          {spec.choices?.map((choice) => (
            <option key={choice} value={choice}>
              {choice}
            </option>
          ))}
        </select>
      )}
      {spec.kind === 'json' && (
        <textarea
          {...shared}
          rows={Math.min(12, value.split('\n').length + 1)}
          spellcheck={false}
          class="field-json"
          value={value}
          onInput={(event) => onChange(event.currentTarget.value)}
        />
      )}
      {spec.kind === 'text' && (
        <input {...shared} autocomplete="off" value={value} onInput={(event) => onChange(event.currentTarget.value)} />
      )}
      {spec.hint !== undefined && (
        <p id={`${id}-hint`} class="hint">
          {spec.hint}
        </p>
      )}
      {issue !== undefined && (
        <p id={`${id}-issue`} class="field-issue">
          {issue.reason}. Accepted: {issue.accepted}.
        </p>
      )}
    </div>
  );
}
