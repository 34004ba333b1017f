// Takes the record along as files: one JSON document, or the CSV sheets that builders keep.
// It must not make the files itself: the server writes them, the browser only saves them.

import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { exportJson, exportSheets } from '../api/client.js';
import type { Problem } from '../api/http.js';
import { ProblemBox } from '../parts/problem-box.js';

export function HandOut({ harnessId, revision }: { harnessId: string; revision: number }): JSX.Element {
  const [refusal, setRefusal] = useState<Problem | null>(null);
  const name = `${harnessId}-${revision}`;

  const json = async (): Promise<void> => {
    const result = await exportJson(harnessId);
    if (result.ok) save(`${name}.json`, `${JSON.stringify(result.value, null, 2)}\n`, 'application/json');
    setRefusal(result.ok ? null : result.problem);
  };
  const sheets = async (): Promise<void> => {
    const result = await exportSheets(harnessId);
    if (result.ok) for (const sheet of result.value.sheets) save(`${name}-${sheet.name}`, sheet.text, 'text/csv');
    setRefusal(result.ok ? null : result.problem);
  };

  return (
    <>
      <div class="buttons">
        <button type="button" class="button" onClick={() => void json()}>
          Save as JSON
        </button>
        <button type="button" class="button" onClick={() => void sheets()}>
          Save as CSV sheets
        </button>
      </div>
      {refusal !== null && <ProblemBox problem={refusal} />}
    </>
  );
}

/** Hands a text to the browser as a file. A link to the server would not carry the token. */
function save(name: string, text: string, type: string): void {
  const url = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  // The browser reads the file after the click has returned.
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
