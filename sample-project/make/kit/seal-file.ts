import { plainAddPlaceholder } from '@signpdf/placeholder-plain';
import { P12Signer } from '@signpdf/signer-p12';
import { SignPdf } from '@signpdf/signpdf';
import forge from 'node-forge';

/**
 * Signs a PDF with a key made for this one call and thrown away after it: the letter shows a signature
 * that checks, and nobody can sign another.
 */
export async function signOnce(pdf: Uint8Array, who: string, day: string): Promise<Uint8Array> {
  const keys = forge.pki.rsa.generateKeyPair(2048);
  const cert = forge.pki.createCertificate();
  cert.publicKey = keys.publicKey;
  cert.serialNumber = '01';
  cert.validity.notBefore = new Date(`${day}T00:00:00Z`);
  cert.validity.notAfter = new Date('2036-01-01T00:00:00Z');
  const name = [
    { name: 'commonName', value: who },
    { name: 'organizationName', value: 'Invented county, throw-away demonstration key' },
  ];
  cert.setSubject(name);
  cert.setIssuer(name);
  cert.sign(keys.privateKey, forge.md.sha256.create());
  const p12 = forge.pkcs12.toPkcs12Asn1(keys.privateKey, cert, 'once', { algorithm: '3des' });
  const bytes = Buffer.from(forge.asn1.toDer(p12).getBytes(), 'binary');
  const signingTime = new Date(`${day}T16:20:00Z`);
  const withPlace = plainAddPlaceholder({
    pdfBuffer: Buffer.from(pdf),
    reason: 'Letter issued by this office',
    contactInfo: 'none',
    name: who,
    location: 'Lower Brindle',
    signingTime,
    widgetRect: [70, 92, 306, 134],
  });
  return new SignPdf().sign(withPlace, new P12Signer(bytes, { passphrase: 'once' }), signingTime);
}
