// A file that a person brings: its bytes for the server, and its header cells so that columns can be told by hand.
// It must not read rows; the server does that.

export interface SheetFile {
  readonly name: string;
  readonly base64: string;
  readonly headers: readonly string[];
}

interface DocumentFile {
  readonly name: string;
  readonly document: Readonly<Record<string, unknown>>;
}

export type BroughtFile =
  | { readonly kind: 'sheet'; readonly sheet: SheetFile }
  | { readonly kind: 'document'; readonly file: DocumentFile }
  | { readonly kind: 'unreadable'; readonly name: string; readonly reason: string };

const mostBytes = 40 * 1024 * 1024;

export async function readFile(file: File): Promise<BroughtFile> {
  const unreadable = (reason: string): BroughtFile => ({ kind: 'unreadable', name: file.name, reason });
  if (file.size > mostBytes) return unreadable('larger than 40 MB');
  const bytes = new Uint8Array(await file.arrayBuffer());
  if (bytes.length === 0) return unreadable('the file is empty');
  if (!/\.json$/i.test(file.name)) {
    return { kind: 'sheet', sheet: { name: file.name, base64: base64Of(bytes), headers: headerCells(textOf(bytes)) } };
  }
  try {
    const document: unknown = JSON.parse(new TextDecoder().decode(bytes));
    if (typeof document !== 'object' || document === null || Array.isArray(document)) {
      return unreadable('a record is one JSON object');
    }
    return { kind: 'document', file: { name: file.name, document: document as Record<string, unknown> } };
  } catch (error) {
    return unreadable(`not JSON: ${error instanceof Error ? error.message : 'unreadable'}`);
  }
}

function textOf(bytes: Uint8Array): string {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return new TextDecoder('utf-16le').decode(bytes);
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return new TextDecoder('utf-16be').decode(bytes);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder('windows-1252').decode(bytes);
  }
}

function base64Of(bytes: Uint8Array): string {
  const chunk = 0x8000;
  let binary = '';
  for (let at = 0; at < bytes.length; at += chunk) binary += String.fromCharCode(...bytes.subarray(at, at + chunk));
  return btoa(binary);
}

/** Cells of the first line that holds any, by whichever of comma, semicolon and tab splits it most. */
export function headerCells(text: string): readonly string[] {
  const line =
    text
      .replace(/^\uFEFF/, '')
      .split(/\r\n|\r|\n/)
      .find((it) => it.replace(/[;,\t"\s]/g, '') !== '') ?? '';
  const delimiter = [',', ';', '\t'].reduce((best, it) =>
    line.split(it).length > line.split(best).length ? it : best,
  );
  const cells: string[] = [];
  let cell = '';
  let isQuoted = false;
  for (const letter of line) {
    if (letter === '"') isQuoted = !isQuoted;
    else if (letter === delimiter && !isQuoted) {
      cells.push(cell.trim());
      cell = '';
    } else cell += letter;
  }
  cells.push(cell.trim());
  return cells.filter((it) => it !== '');
}
