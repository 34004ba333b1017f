// Finds the programs of other people that some tests check against: ngspice, Chromium, pdftotext.
// It must not install or download anything; an absent tool is `undefined`, and the test that needs it says so by skipping.

import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';

/** Path of Debian's ngspice, or of NGSPICE_PATH. */
export const ngspicePath = (): string | undefined => findTool('NGSPICE_PATH', ['ngspice']);

/** Path of Debian's Chromium, or of CHROMIUM_PATH. */
export const chromiumPath = (): string | undefined => findTool('CHROMIUM_PATH', ['chromium', 'chromium-browser']);

/** Path of poppler's pdftotext, or of PDFTOTEXT_PATH. */
export const pdftotextPath = (): string | undefined => findTool('PDFTOTEXT_PATH', ['pdftotext']);

/** The path named by the environment variable when it is set (and then no other), else the first name found on PATH. */
function findTool(variable: string, names: readonly string[]): string | undefined {
  const named = process.env[variable];
  if (named !== undefined) return isExecutable(named) ? named : undefined;
  const folders = (process.env.PATH ?? '').split(delimiter).filter((folder) => folder !== '');
  return names.flatMap((name) => folders.map((folder) => join(folder, name))).find(isExecutable);
}

function isExecutable(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
