// The tables of DEVELOPERS.md that follow from code: error codes, settings, operations of the API.
// It must not read or write the page; a test compares, a script writes.

import { openApiDocument } from '../../src/api/openapi-document.js';
import { problemKinds } from '../../src/service/errors.js';
import { settingRows } from '../../src/service/settings.js';

export interface ReferenceTable {
  /** The heading under which the table stands in DEVELOPERS.md. */
  readonly heading: string;
  readonly lines: readonly string[];
}

const row = (...cells: readonly (string | number)[]): string =>
  `| ${cells.map((cell) => String(cell).replaceAll('|', '\\|')).join(' | ')} |`;

export async function referenceTables(): Promise<readonly ReferenceTable[]> {
  const { paths = {} } = await openApiDocument();
  return [
    {
      heading: 'Operations of the API',
      lines: [
        row('method', 'path', 'what it does'),
        '|---|---|---|',
        ...Object.entries(paths).flatMap(([path, operations]) =>
          Object.entries(operations ?? {}).map(([method, operation]) =>
            row(method.toUpperCase(), `\`${path}\``, (operation as { summary: string }).summary),
          ),
        ),
      ],
    },
    {
      heading: 'Error codes',
      lines: [
        row('code', 'status', 'meaning', 'what to do'),
        '|---|---|---|---|',
        ...Object.entries(problemKinds).map(([code, { status, title, hint }]) =>
          row(`\`${code}\``, status, title, hint),
        ),
      ],
    },
    {
      heading: 'Settings',
      lines: [
        row('environment', 'flag', 'standard', 'meaning'),
        '|---|---|---|---|',
        ...settingRows.map(({ env, flag, standard, meaning }) =>
          row(
            `\`${env}\``,
            flag === null ? 'none' : `\`${flag}\``,
            standard === '' ? 'none' : `\`${standard}\``,
            meaning,
          ),
        ),
      ],
    },
  ];
}

/** The lines of the first table under a heading of any level; empty when there is none. */
export function tableUnder(page: string, heading: string): readonly string[] {
  const lines = page.split('\n');
  const start = lines.findIndex((line) => line.replace(/^#+ /, '') === heading && line.startsWith('#'));
  if (start < 0) return [];
  const after = lines.slice(start + 1);
  const end = after.findIndex((line) => line.startsWith('#'));
  return (end < 0 ? after : after.slice(0, end)).filter((line) => line.startsWith('|'));
}
