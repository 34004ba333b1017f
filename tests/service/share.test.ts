// The certificate made on this machine, checked by what did not make it: Node's X.509 reader and a TLS handshake over OpenSSL.
// Encodings: ITU-T X.690 examples (8.19.5 for object identifiers), from memory.

import { createPrivateKey, X509Certificate } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { createServer, get } from 'node:https';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { certificateDays, makeCertificate } from '../../src/service/share/certificate.js';
import { integer, objectIdentifier, octetString, utcTime } from '../../src/service/share/der.js';
import { shareIdentity } from '../../src/service/share/share-identity.js';

const now = new Date();
const made = makeCertificate({ addresses: ['192.168.7.20', '127.0.0.1'], names: ['localhost'], now });

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'lastgood-share-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('an encoding', () => {
  it('of an object identifier follows X.690: {2 999 3}-like arcs in base 128', () => {
    expect(objectIdentifier('1.2.840.113549').toString('hex')).toBe('06062a864886f70d');
  });

  it('of a length goes to the long form at 128', () => {
    expect(octetString(Buffer.alloc(127)).subarray(0, 2).toString('hex')).toBe('047f');
    expect(octetString(Buffer.alloc(128)).subarray(0, 3).toString('hex')).toBe('048180');
    expect(octetString(Buffer.alloc(256)).subarray(0, 4).toString('hex')).toBe('04820100');
  });

  it('of a number never reads as negative', () => {
    expect(integer(Buffer.from([0x80])).toString('hex')).toBe('02020080');
    expect(integer(Buffer.from([0x7f])).toString('hex')).toBe('02017f');
  });

  it('of an instant is in UTC, to the second', () => {
    expect(utcTime(new Date('2026-11-25T13:04:55.678Z')).subarray(2).toString('ascii')).toBe('261125130455Z');
  });
});

describe('the certificate', () => {
  const certificate = new X509Certificate(made.cert);

  it('is read by another reader as what was meant', () => {
    expect(certificate.subject).toBe('CN=Lastgood on this network');
    expect(certificate.issuer).toBe(certificate.subject);
    expect(certificate.ca).toBe(false);
    expect(certificate.subjectAltName).toBe('DNS:localhost, IP Address:192.168.7.20, IP Address:127.0.0.1');
    expect(certificate.checkIP('192.168.7.20')).toBe('192.168.7.20');
    expect(certificate.checkIP('192.168.7.21')).toBeUndefined();
    expect(certificate.keyUsage).toEqual(['1.3.6.1.5.5.7.3.1']);
    const days = (new Date(certificate.validTo).getTime() - new Date(certificate.validFrom).getTime()) / 86_400_000;
    expect(days).toBe(certificateDays);
    expect(certificate.verify(certificate.publicKey)).toBe(true);
    expect(certificate.checkPrivateKey(createPrivateKey(made.key))).toBe(true);
  });

  it('carries a TLS connection from a client that trusts it and no other', async () => {
    const server = createServer({ key: made.key, cert: made.cert }, (_request, response) => response.end('hello'));
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
    const { port } = server.address() as AddressInfo;
    const ask = (ca: string | undefined) =>
      new Promise<string>((resolve, reject) => {
        get({ host: '127.0.0.1', port, ca, agent: false }, (response) => {
          response.setEncoding('utf8').on('data', resolve);
        }).on('error', reject);
      });
    expect(await ask(made.cert)).toBe('hello');
    await expect(ask(undefined)).rejects.toThrow(/self-signed certificate/);
    const other = makeCertificate({ addresses: ['127.0.0.1'], names: [], now });
    await expect(ask(other.cert)).rejects.toThrow();
    await new Promise((resolve) => server.close(resolve));
  });
});

describe('the identity of a shared server', () => {
  it('stays the same from start to start, readable for its owner only', () => {
    const file = join(folder, 'a', 'share.json');
    const first = shareIdentity(file, ['192.168.7.20'], now);
    expect(shareIdentity(file, ['192.168.7.20'], now)).toEqual(first);
    expect(statSync(file).mode & 0o077).toBe(0);
    expect(first.token.length).toBeGreaterThanOrEqual(32);
  });

  it('gets a new certificate for a new address or before the old one ends, and keeps its token', () => {
    const file = join(folder, 'b.json');
    const first = shareIdentity(file, ['192.168.7.20'], now);
    const moved = shareIdentity(file, ['10.0.0.9'], now);
    expect(moved.cert).not.toBe(first.cert);
    expect(moved.token).toBe(first.token);
    const later = new Date(now.getTime() + (certificateDays - 3) * 86_400_000);
    expect(shareIdentity(file, ['10.0.0.9'], later).cert).not.toBe(moved.cert);
  });

  it('is made anew where the file is spoilt', () => {
    const file = join(folder, 'c.json');
    writeFileSync(file, '{"token":');
    const made = shareIdentity(file, [], now);
    expect(JSON.parse(readFileSync(file, 'utf8'))).toEqual(made);
  });
});
