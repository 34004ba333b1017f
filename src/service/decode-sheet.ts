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
    return { text: decodeWestern(bytes), encoding: 'windows-1252' };
  }
}

/**
 * Bytes 0x80 to 0x9F of windows-1252, from the WHATWG Encoding Standard (index-windows-1252); the five it leaves unassigned stand for
 * control characters. Node 20 decodes these bytes as Latin-1, so the table is our own.
 */
const upperControls = '€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008DŽ\u008F\u0090‘’“”•–—˜™š›œ\u009DžŸ';

function decodeWestern(bytes: Uint8Array): string {
  const latin = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString('latin1');
  return latin.replace(/[\u0080-\u009f]/g, (letter) => upperControls[letter.charCodeAt(0) - 0x80]);
}

const decode = (label: string, bytes: Uint8Array): string => new TextDecoder(label).decode(bytes);
