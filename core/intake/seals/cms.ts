import { constants, createHash, createVerify, X509Certificate } from 'node:crypto';
import { fromBER, OctetString } from 'asn1js';
import {
  type Attribute,
  Certificate,
  ContentInfo,
  IssuerAndSerialNumber,
  type RelativeDistinguishedNames,
  SignedData,
  type SignerInfo,
  TSTInfo,
} from 'pkijs';
import type { SealCertificate } from '../../vocabulary/seals.ts';

/** RFC 5652, 11; RFC 3161; RFC 8017. */
const oid = {
  signedData: '1.2.840.113549.1.7.2',
  messageDigest: '1.2.840.113549.1.9.4',
  signingTime: '1.2.840.113549.1.9.5',
  timeStamp: '1.2.840.113549.1.9.16.2.14',
  pss: '1.2.840.113549.1.1.10',
} as const;

/** Names of digests as Node knows them. */
const digests: Readonly<Record<string, string>> = {
  '1.2.840.113549.2.5': 'md5',
  '1.3.14.3.2.26': 'sha1',
  '2.16.840.1.101.3.4.2.4': 'sha224',
  '2.16.840.1.101.3.4.2.1': 'sha256',
  '2.16.840.1.101.3.4.2.2': 'sha384',
  '2.16.840.1.101.3.4.2.3': 'sha512',
};

/** X.520 names, short as certificates write them. */
const short: Readonly<Record<string, string>> = {
  '2.5.4.3': 'CN',
  '2.5.4.10': 'O',
  '2.5.4.11': 'OU',
  '2.5.4.7': 'L',
  '2.5.4.8': 'ST',
  '2.5.4.6': 'C',
  '2.5.4.5': 'SERIALNUMBER',
  '1.2.840.113549.1.9.1': 'E',
};

function ownBytes(bytes: Uint8Array): ArrayBuffer {
  const copy = new ArrayBuffer(bytes.length);
  new Uint8Array(copy).set(bytes);
  return copy;
}

/** A signature value taken apart (CMS, RFC 5652). */
export interface Cms {
  readonly data: SignedData;
  readonly signer: SignerInfo;
  readonly certificate: Certificate | undefined;
}

/** @returns undefined where the bytes are no signed data, or nobody signed */
export function parseCms(bytes: Uint8Array): Cms | undefined {
  try {
    const { result, offset } = fromBER(ownBytes(bytes));
    if (offset === -1) return undefined;
    const info = new ContentInfo({ schema: result });
    if (info.contentType !== oid.signedData) return undefined;
    const data = new SignedData({ schema: info.content });
    const [signer] = data.signerInfos;
    if (signer === undefined) return undefined;
    return { data, signer, certificate: certificateOf(data, signer) };
  } catch {
    return undefined;
  }
}

function certificateOf(data: SignedData, signer: SignerInfo): Certificate | undefined {
  const all = (data.certificates ?? []).filter((one) => one instanceof Certificate);
  const { sid } = signer;
  if (!(sid instanceof IssuerAndSerialNumber)) return all.length === 1 ? all[0] : undefined;
  return all.find((one) => one.issuer.isEqual(sid.issuer) && one.serialNumber.isEqual(sid.serialNumber));
}

function nameText({ typesAndValues }: RelativeDistinguishedNames): string {
  return typesAndValues
    .map(({ type, value }) => `${short[String(type)] ?? String(type)}=${String(value.valueBlock.value)}`)
    .join(', ');
}

export function commonName({ typesAndValues }: RelativeDistinguishedNames): string | undefined {
  const value = (type: string) => typesAndValues.find((one) => String(one.type) === type)?.value.valueBlock.value;
  const found = value('2.5.4.3') ?? value('2.5.4.10');
  return found === undefined ? undefined : String(found);
}

export function describeCertificate(certificate: Certificate): SealCertificate {
  const [subject, issuer] = [nameText(certificate.subject), nameText(certificate.issuer)];
  return {
    subject,
    issuer,
    serial: Buffer.from(certificate.serialNumber.valueBlock.valueHexView).toString('hex'),
    from: certificate.notBefore.value.toISOString(),
    until: certificate.notAfter.value.toISOString(),
    selfIssued: certificate.subject.isEqual(certificate.issuer),
  };
}

function attribute(list: readonly Attribute[] | undefined, type: string): unknown {
  return list?.find((one) => one.type === type)?.values[0];
}

export function digestName(algorithm: string): string | undefined {
  return digests[algorithm];
}

/** The digest that was signed; undefined where the content itself was signed without more. */
export function signedDigest({ signer }: Cms): Buffer | undefined {
  const value = attribute(signer.signedAttrs?.attributes, oid.messageDigest);
  return value instanceof OctetString ? Buffer.from(value.valueBlock.valueHexView) : undefined;
}

/** The content inside, for signatures that carry a digest as their content (adbe.pkcs7.sha1, time stamps). */
export function innerContent({ data }: Cms): Buffer | undefined {
  const { eContent } = data.encapContentInfo;
  return eContent === undefined ? undefined : Buffer.from(eContent.getValue());
}

/** An instant, where a value is an ASN.1 time. */
function timeOf(value: unknown): string | undefined {
  if (typeof value !== 'object' || value === null || !('toDate' in value) || typeof value.toDate !== 'function')
    return undefined;
  const date: unknown = value.toDate();
  return date instanceof Date && Number.isFinite(date.getTime()) ? date.toISOString() : undefined;
}

/** The signer's own clock. */
export function signingTime({ signer }: Cms): string | undefined {
  return timeOf(attribute(signer.signedAttrs?.attributes, oid.signingTime));
}

/** Whether the signature value was made with the key of the certificate over what was signed; undefined: can't tell. */
export function signatureFits(cms: Cms, content: (take: (bytes: Buffer) => void) => void): boolean | undefined {
  const { signer, certificate } = cms;
  const algorithm = digestName(signer.digestAlgorithm.algorithmId);
  if (certificate === undefined || algorithm === undefined) return undefined;
  try {
    const key = new X509Certificate(Buffer.from(certificate.toSchema().toBER())).publicKey;
    const verify = createVerify(algorithm);
    const { signedAttrs } = signer;
    if (signedAttrs === undefined) content((bytes) => void verify.update(bytes));
    else {
      // RFC 5652, 5.4: signed as a SET OF, though it stands under another tag.
      const attributes = Buffer.from(signedAttrs.encodedValue);
      attributes[0] = 0x31;
      verify.update(attributes);
    }
    const pss = signer.signatureAlgorithm.algorithmId === oid.pss;
    const padding = pss ? { padding: constants.RSA_PKCS1_PSS_PADDING, saltLength: constants.RSA_PSS_SALTLEN_AUTO } : {};
    return verify.verify({ key, ...padding }, Buffer.from(signer.signature.valueBlock.valueHexView));
  } catch {
    return undefined;
  }
}

/** What a time stamp says (RFC 3161). */
export interface Stamped {
  readonly instant: string;
  /** Digest of what was stamped. */
  readonly digest: Buffer;
  readonly algorithm: string | undefined;
  /** Its own signature holds. */
  readonly holds: boolean;
}

export function stampOf(cms: Cms): Stamped | undefined {
  try {
    const content = innerContent(cms);
    if (content === undefined) return undefined;
    const info = new TSTInfo({ schema: fromBER(ownBytes(content)).result });
    const algorithm = digestName(cms.signer.digestAlgorithm.algorithmId);
    const own = algorithm === undefined ? undefined : createHash(algorithm).update(content).digest();
    const holds =
      own !== undefined &&
      signedDigest(cms)?.equals(own) === true &&
      signatureFits(cms, (take) => take(content)) === true;
    return {
      instant: info.genTime.toISOString(),
      digest: Buffer.from(info.messageImprint.hashedMessage.valueBlock.valueHexView),
      algorithm: digestName(info.messageImprint.hashAlgorithm.algorithmId),
      holds,
    };
  } catch {
    return undefined;
  }
}

/** The time stamp that hangs on a signature (RFC 3161, appendix A): only one that was made for this very signature. */
export function attachedStamp({ signer }: Cms): Stamped | undefined {
  const value = attribute(signer.unsignedAttrs?.attributes, oid.timeStamp);
  if (typeof value !== 'object' || value === null || !('toBER' in value) || typeof value.toBER !== 'function')
    return undefined;
  const bytes: unknown = value.toBER();
  const cms = bytes instanceof ArrayBuffer ? parseCms(new Uint8Array(bytes)) : undefined;
  const stamp = cms === undefined ? undefined : stampOf(cms);
  if (stamp?.algorithm === undefined || !stamp.holds) return undefined;
  const signature = Buffer.from(signer.signature.valueBlock.valueHexView);
  return createHash(stamp.algorithm).update(signature).digest().equals(stamp.digest) ? stamp : undefined;
}
