import { plainAddPlaceholder } from '@signpdf/placeholder-plain';
import { P12Signer } from '@signpdf/signer-p12';
import { SignPdf } from '@signpdf/signpdf';
import forge from 'node-forge';

/** A key and a self-made certificate in the form that signing programs read. */
export function signerOf(
  name: string,
  issuer?: { readonly name: string; readonly key: forge.pki.rsa.PrivateKey },
): Buffer {
  const keys = forge.pki.rsa.generateKeyPair(1024);
  const certificate = forge.pki.createCertificate();
  certificate.publicKey = keys.publicKey;
  certificate.serialNumber = '4711';
  certificate.validity.notBefore = new Date('2026-01-01T00:00:00Z');
  certificate.validity.notAfter = new Date('2028-01-01T00:00:00Z');
  certificate.setSubject([
    { name: 'commonName', value: name },
    { name: 'organizationName', value: 'Brackenfold Surveying' },
  ]);
  certificate.setIssuer([
    { name: 'commonName', value: issuer?.name ?? name },
    ...(issuer === undefined ? [{ name: 'organizationName', value: 'Brackenfold Surveying' }] : []),
  ]);
  certificate.sign(issuer?.key ?? keys.privateKey, forge.md.sha256.create());
  const store = forge.pkcs12.toPkcs12Asn1(keys.privateKey, [certificate], 'x', { algorithm: '3des' });
  return Buffer.from(forge.asn1.toDer(store).getBytes(), 'latin1');
}

export const signedOn = new Date('2026-03-14T15:09:26Z');

/** Signs a file as a new revision of it. */
export async function sealed(pdf: Buffer, p12: Buffer, subFilter?: string): Promise<Buffer> {
  const ready = plainAddPlaceholder({
    pdfBuffer: pdf,
    reason: 'Boundary survey',
    contactInfo: '',
    name: 'whoever',
    location: '',
    signingTime: signedOn,
    ...(subFilter === undefined ? {} : { subFilter }),
  });
  return await new SignPdf().sign(ready, new P12Signer(p12, { passphrase: 'x' }), signedOn);
}
