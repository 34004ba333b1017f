// The few DER encodings (ITU-T X.690) that a certificate needs.
// It must not know certificates; each function encodes one kind of value.

const tagged = (tag: number, content: Uint8Array): Buffer =>
  Buffer.concat([Buffer.from([tag]), lengthOf(content.length), content]);

/** Short form below 128, else the number of length bytes and the length (X.690 8.1.3). */
function lengthOf(length: number): Buffer {
  if (length < 0x80) return Buffer.from([length]);
  const bytes: number[] = [];
  for (let rest = length; rest > 0; rest = Math.floor(rest / 256)) bytes.unshift(rest % 256);
  return Buffer.from([0x80 | bytes.length, ...bytes]);
}

export const sequence = (...items: readonly Uint8Array[]): Buffer => tagged(0x30, Buffer.concat(items));
export const set = (...items: readonly Uint8Array[]): Buffer => tagged(0x31, Buffer.concat(items));
export const octetString = (content: Uint8Array): Buffer => tagged(0x04, content);
export const utf8String = (text: string): Buffer => tagged(0x0c, Buffer.from(text, 'utf8'));
export const truth = (): Buffer => tagged(0x01, Buffer.from([0xff]));

/** All bits in use: signatures, or `unusedBits` at the end of the last byte for flags. */
export const bitString = (content: Uint8Array, unusedBits = 0): Buffer =>
  tagged(0x03, Buffer.concat([Buffer.from([unusedBits]), content]));

/** A number of any length, never negative: a zero byte keeps the sign away. */
export const integer = (bytes: Uint8Array): Buffer =>
  tagged(0x02, (bytes[0] ?? 0) >= 0x80 ? Buffer.concat([Buffer.from([0]), bytes]) : bytes);

/** `1.2.840.10045.4.3.2`: the first two arcs in one byte, the rest in base 128 (X.690 8.19). */
export function objectIdentifier(dotted: string): Buffer {
  const [first, second, ...rest] = dotted.split('.').map(Number);
  const base128 = (arc: number): number[] => {
    const bytes = [arc % 128];
    for (let high = Math.floor(arc / 128); high > 0; high = Math.floor(high / 128)) bytes.unshift(0x80 | (high % 128));
    return bytes;
  };
  return tagged(0x06, Buffer.from([first * 40 + second, ...rest.flatMap(base128)]));
}

/** An instant between 1950 and 2049, to the second. */
export const utcTime = (instant: Date): Buffer =>
  tagged(0x17, Buffer.from(`${instant.toISOString().slice(2, 19).replace(/[-T:]/g, '')}Z`, 'ascii'));

/** [n] around whole values. */
export const explicitTag = (number: number, content: Uint8Array): Buffer => tagged(0xa0 | number, content);

/** [n] in place of a value's own tag. */
export const implicitTag = (number: number, content: Uint8Array): Buffer => tagged(0x80 | number, content);
