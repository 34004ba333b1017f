// The columns of one sheet: taken as the server understands them, or as the person says.
// It must not hide a column: one that is left out is said to be left out.

import type { JSX } from 'preact';
import { columnFields } from './column-fields.js';
import type { SheetFile } from './sheet-file.js';

/** Header -> field; empty: leave the column out. Headers that are not in it are for the server to understand. */
export type Mapping = Readonly<Record<string, string>>;

interface ColumnMappingProps {
  readonly sheet: SheetFile;
  readonly encoding: string | null;
  readonly mapping: Mapping;
  readonly onChange: (mapping: Mapping) => void;
}

const automatic = '*';

export function ColumnMapping({ sheet, encoding, mapping, onChange }: ColumnMappingProps): JSX.Element {
  const choose = (header: string, field: string): void => {
    const { [header]: _before, ...others } = mapping;
    onChange(field === automatic ? others : { ...others, [header]: field });
  };
  return (
    <details class="fold">
      <summary>
        {sheet.name}{' '}
        <span class="soft">
          {sheet.headers.length} columns{encoding === null ? '' : `, read as ${encoding}`}
        </span>
      </summary>
      <p class="soft">Change a column only where it was understood wrongly or not at all.</p>
      {sheet.headers.map((header) => (
        <label key={header} class="mapping">
          <span class="mapping-header">{header}</span>
          <select value={mapping[header] ?? automatic} onChange={(event) => choose(header, event.currentTarget.value)}>
            <option value={automatic}>as understood</option>
            <option value="">leave it out</option>
            {columnFields.map(([group, fields]) => (
              <optgroup key={group} label={group}>
                {fields.map(([id, words]) => (
                  <option key={id} value={id}>
                    {words}
                  </option>
                ))}
              </optgroup>
            ))}
          </select>
        </label>
      ))}
    </details>
  );
}
