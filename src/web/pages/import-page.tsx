// Brings in a harness: files, how their columns were understood, every problem at its row, and only then keeping it.
// It must not keep anything by itself.

import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { to } from '../addresses.js';
import { type ImportInput, keepImport, previewImport } from '../api/client.js';
import type { Problem } from '../api/http.js';
import { ColumnMapping, type Mapping } from '../importing/column-mapping.js';
import { FileDrop } from '../importing/file-drop.js';
import { type BroughtFile, readFile, type SheetFile } from '../importing/sheet-file.js';
import { Understood } from '../importing/understood.js';
import { PageFrame } from '../parts/page-frame.js';
import { IssueList, ProblemBox } from '../parts/problem-box.js';
import { Progress } from '../parts/progress.js';
import { go } from '../route.js';
import { useAnswer } from '../state/use-answer.js';
import '../styles/record.css';

export function ImportPage(): JSX.Element {
  const [files, setFiles] = useState<readonly BroughtFile[]>([]);
  const [mappings, setMappings] = useState<Readonly<Record<string, Mapping>>>({});
  const [name, setName] = useState('');
  const [refusal, setRefusal] = useState<Problem | null>(null);
  const input = inputOf(files, mappings, name.trim());
  const preview = useAnswer(input === null ? null : JSON.stringify(input), (signal) =>
    previewImport(input ?? { sheets: [] }, { signal }),
  );
  const result = preview.value;
  const sheets = files.flatMap((file) => (file.kind === 'sheet' ? [file.sheet] : []));

  const bring = async (brought: readonly File[]): Promise<void> => {
    const read = await Promise.all(brought.map(readFile));
    const names = new Set(read.map(nameOf));
    setFiles((before) => [...before.filter((file) => !names.has(nameOf(file))), ...read]);
  };

  const keep = async (): Promise<void> => {
    if (input === null) return;
    const kept = await keepImport(input);
    if (!kept.ok) setRefusal(kept.problem);
    else if (kept.value.harness !== null) go(to.home(kept.value.harness.id));
  };

  return (
    <PageFrame title="Bring in a harness" heading="Bring in your own harness">
      <FileDrop onFiles={(brought) => void bring(brought)} />
      {files.length > 0 && (
        <ul class="plain-list" aria-label="Files">
          {files.map((file) => (
            <li key={nameOf(file)} class="line line-ends">
              <span>
                {nameOf(file)}
                {file.kind === 'unreadable' && <strong class="tone-bad"> {file.reason}</strong>}
              </span>
              <button type="button" class="button" onClick={() => setFiles(files.filter((other) => other !== file))}>
                Take<span class="unseen"> {nameOf(file)}</span> off
              </button>
            </li>
          ))}
        </ul>
      )}
      <Progress isShown={preview.isSlow} words="Reading" />
      {preview.problem !== null && input !== null && <ProblemBox problem={preview.problem} onAgain={preview.again} />}
      {sheets.length > 0 && (
        <section>
          <h2>How it is read</h2>
          <div class="field">
            <label for="import-name">Name of the harness</label>
            <input
              id="import-name"
              autocomplete="off"
              value={name}
              placeholder="where no sheet gives one"
              onChange={(event) => setName(event.currentTarget.value)}
            />
          </div>
          {sheets.map((sheet) => (
            <ColumnMapping
              key={sheet.name}
              sheet={sheet}
              encoding={result?.sheets.find((it) => it.name === sheet.name)?.encoding ?? null}
              mapping={mappings[sheet.name] ?? {}}
              onChange={(mapping) => setMappings({ ...mappings, [sheet.name]: mapping })}
            />
          ))}
        </section>
      )}
      {result !== null && input !== null && (
        <>
          {result.issueCount > 0 && (
            <div class="box box-bad" role="status">
              <h2>
                {result.issueCount} {result.issueCount === 1 ? 'problem' : 'problems'} to mend first
              </h2>
              <IssueList issues={result.issues} count={result.issueCount} />
            </div>
          )}
          {result.record !== null && <Understood record={result.record} />}
          {result.warnings.length > 0 && (
            <details class="fold">
              <summary>
                Assumed or left out <span class="soft">{result.warnings.length}</span>
              </summary>
              <IssueList issues={result.warnings} count={result.warnings.length} />
            </details>
          )}
          {refusal !== null && <ProblemBox problem={refusal} />}
          <button
            type="button"
            class="button button-main button-tall"
            disabled={result.record === null || preview.isWaiting}
            onClick={() => void keep()}
          >
            {result.record === null ? 'Nothing is kept while there are problems' : 'Yes, keep it'}
          </button>
        </>
      )}
    </PageFrame>
  );
}

const nameOf = (file: BroughtFile): string =>
  file.kind === 'sheet' ? file.sheet.name : file.kind === 'document' ? file.file.name : file.name;

/** A JSON record goes before sheets: both at once would be two harnesses. */
function inputOf(
  files: readonly BroughtFile[],
  mappings: Readonly<Record<string, Mapping>>,
  name: string,
): ImportInput | null {
  const document = files.find((file) => file.kind === 'document');
  if (document !== undefined) return { document: document.file.document };
  const sheets = files.flatMap((file): readonly SheetFile[] => (file.kind === 'sheet' ? [file.sheet] : []));
  if (sheets.length === 0) return null;
  const columns = Object.fromEntries(Object.entries(mappings).filter(([, mapping]) => Object.keys(mapping).length > 0));
  return {
    sheets: sheets.map(({ name: file, base64 }) => ({ name: file, base64 })),
    ...(name === '' ? {} : { name }),
    ...(Object.keys(columns).length === 0 ? {} : { columns }),
  };
}
