// Token, key and certificate under which this machine shares Lastgood, kept in one file so that a phone stays trusted.
// It must not leave that file readable for other users of the machine.

import { randomBytes, X509Certificate } from 'node:crypto';
import { mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { z } from 'zod';
import { makeCertificate } from './certificate.js';

const identitySchema = z.strictObject({ token: z.string().min(16), key: z.string(), cert: z.string() });

export type ShareIdentity = Readonly<z.infer<typeof identitySchema>>;

const weekMs = 7 * 86_400_000;

/**
 * The identity kept in `file`, or a new one. A certificate that does not name all of `addresses`, or ends within a week, is made anew;
 * the token stays.
 */
export function shareIdentity(file: string, addresses: readonly string[], now: Date): ShareIdentity {
  const kept = readIdentity(file);
  if (kept !== null && serves(kept.cert, addresses, now)) return kept;
  const token = kept?.token ?? randomBytes(24).toString('base64url');
  const identity = { token, ...makeCertificate({ addresses: [...addresses, '127.0.0.1'], names: ['localhost'], now }) };
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(`${file}.new`, JSON.stringify(identity), { mode: 0o600 });
  renameSync(`${file}.new`, file);
  return identity;
}

function readIdentity(file: string): ShareIdentity | null {
  try {
    return identitySchema.parse(JSON.parse(readFileSync(file, 'utf8')));
  } catch {
    // Absent or spoilt: a new one takes its place.
    return null;
  }
}

function serves(cert: string, addresses: readonly string[], now: Date): boolean {
  try {
    const certificate = new X509Certificate(cert);
    const ends = new Date(certificate.validTo).getTime();
    return ends - now.getTime() > weekMs && addresses.every((address) => certificate.checkIP(address) === address);
  } catch {
    return false;
  }
}
