// A certificate of our own making for this machine's addresses on the local network (RFC 5280, ECDSA P-256 with SHA-256).
// It must not be taken for more than it is: a browser asks once whether to trust it.

import { generateKeyPairSync, randomBytes, sign } from 'node:crypto';
import { isIPv4 } from 'node:net';
import {
  bitString,
  explicitTag,
  implicitTag,
  integer,
  objectIdentifier,
  octetString,
  sequence,
  set,
  truth,
  utcTime,
  utf8String,
} from './der.js';

export interface Certificate {
  /** Private key, PKCS #8 in PEM. */
  readonly key: string;
  /** Certificate in PEM. */
  readonly cert: string;
}

const dayMs = 86_400_000;
/** Browsers refuse certificates for much more than a year. */
export const certificateDays = 397;

const ecdsaWithSha256 = sequence(objectIdentifier('1.2.840.10045.4.3.2'));
const commonName = objectIdentifier('2.5.4.3');

/** Makes a key and a certificate for IPv4 `addresses` and host `names`, valid from an hour before `now`. */
export function makeCertificate(options: {
  readonly addresses: readonly string[];
  readonly names: readonly string[];
  readonly now: Date;
}): Certificate {
  const { privateKey, publicKey } = generateKeyPairSync('ec', { namedCurve: 'prime256v1' });
  const name = sequence(set(sequence(commonName, utf8String('Lastgood on this network'))));
  const start = options.now.getTime() - 3_600_000;
  const toBeSigned = sequence(
    // Version 3 is written as 2.
    explicitTag(0, integer(Buffer.from([2]))),
    integer(Buffer.concat([Buffer.from([0x40]), randomBytes(15)])),
    ecdsaWithSha256,
    name,
    sequence(utcTime(new Date(start)), utcTime(new Date(start + certificateDays * dayMs))),
    name,
    publicKey.export({ type: 'spki', format: 'der' }),
    explicitTag(3, sequence(...extensions(options.addresses, options.names))),
  );
  const signature = sign('sha256', toBeSigned, privateKey);
  return {
    key: privateKey.export({ type: 'pkcs8', format: 'pem' }).toString(),
    cert: pem(sequence(toBeSigned, ecdsaWithSha256, bitString(signature))),
  };
}

/** Basic constraints (no authority), key usage (digital signature), extended key usage (server), alternative names. */
function extensions(addresses: readonly string[], names: readonly string[]): readonly Buffer[] {
  const extension = (id: string, isCritical: boolean, value: Buffer): Buffer =>
    sequence(objectIdentifier(id), ...(isCritical ? [truth()] : []), octetString(value));
  const alternativeNames = [
    ...names.map((name) => implicitTag(2, Buffer.from(name, 'ascii'))),
    ...addresses.filter(isIPv4).map((address) => implicitTag(7, Buffer.from(address.split('.').map(Number)))),
  ];
  return [
    extension('2.5.29.19', true, sequence()),
    extension('2.5.29.15', true, bitString(Buffer.from([0x80]), 7)),
    extension('2.5.29.37', false, sequence(objectIdentifier('1.3.6.1.5.5.7.3.1'))),
    extension('2.5.29.17', false, sequence(...alternativeNames)),
  ];
}

function pem(der: Buffer): string {
  const lines = der.toString('base64').match(/.{1,64}/g) ?? [];
  return `-----BEGIN CERTIFICATE-----\n${lines.join('\n')}\n-----END CERTIFICATE-----\n`;
}
