// Bytes of a sheet file to text: UTF-8, UTF-16 with its mark, else the Western 8-bit code that older spreadsheets write.
// It must not look at what the text says.

export type SheetEncoding = 'utf-8' | 'utf-16' | 'windows-1252';

export interface DecodedSheet {
  readonly text: string;
  readonly encoding: SheetEncoding;
}

/** Decodes a whole file. Windows-1252 takes any byte, and agrees with Latin-1 on every printable character, so it never fails. */
export function decodeSheet(bytes: Uint8Array): DecodedSheet {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return { text: decode('utf-16le', bytes), encoding: 'utf-16' };
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return { text: decode('utf-16be', bytes), encoding: 'utf-16' };
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), encoding: 'utf-8' };
  } catch {
    return { text: decode('windows-1252', bytes), encoding: 'windows-1252' };
  }
}

const decode = (label: string, bytes: Uint8Array): string => new TextDecoder(label).decode(bytes);
