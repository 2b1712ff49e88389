import type { SealReading } from '../../vocabulary/seals.ts';
import type { ByteSource } from '../pdfium/byte-source.ts';
import { type Coverage, coverageOf, digestOf, eachCovered } from './byte-range.ts';
import {
  attachedStamp,
  type Cms,
  commonName,
  describeCertificate,
  digestName,
  innerContent,
  parseCms,
  signatureFits,
  signedDigest,
  signingTime,
  stampOf,
} from './cms.ts';
import { instantOf } from './pdf-time.ts';
import { sealSays } from './seal-words.ts';

/** A signature as it stands in the file, before anyone looked inside. */
export interface RawSeal {
  readonly format: string;
  readonly byteRange: readonly number[];
  readonly contents: Buffer;
  readonly reason: string;
  readonly time: string;
}

/** Whether the covered bytes are those that were signed, and the signature was made with the certificate's key. */
function bytesMatch(source: ByteSource, coverage: Coverage, cms: Cms, format: string): SealReading['bytes'] {
  const algorithm = digestName(cms.signer.digestAlgorithm.algorithmId);
  if (algorithm === undefined) return 'not checked';
  if (format === 'ETSI.RFC3161') {
    const stamp = stampOf(cms);
    if (stamp?.algorithm === undefined) return 'not checked';
    return stamp.holds && digestOf(source, coverage, stamp.algorithm).equals(stamp.digest) ? 'unchanged' : 'changed';
  }
  // adbe.pkcs7.sha1 carries the SHA-1 of the covered bytes as its content (ISO 32000-1, 12.8.3.3).
  const inner = innerContent(cms);
  if (inner !== undefined && !digestOf(source, coverage, 'sha1').equals(inner)) return 'changed';
  const told = signedDigest(cms);
  if (inner === undefined && told !== undefined && !digestOf(source, coverage, algorithm).equals(told))
    return 'changed';
  const fits = signatureFits(cms, (take) => (inner === undefined ? eachCovered(source, coverage, take) : take(inner)));
  return fits === undefined ? 'not checked' : fits ? 'unchanged' : 'changed';
}

function timeOf(raw: RawSeal, cms: Cms | undefined): SealReading['signedAt'] {
  const stamp = cms === undefined ? undefined : raw.format === 'ETSI.RFC3161' ? stampOf(cms) : attachedStamp(cms);
  if (stamp?.holds === true) return { instant: stamp.instant, by: 'time stamp' };
  const own = (cms === undefined ? undefined : signingTime(cms)) ?? instantOf(raw.time);
  return own === undefined ? undefined : { instant: own, by: "signer's clock" };
}

/** What a signature says, and whether the bytes it covers still match it. */
export function readSeal(source: ByteSource, raw: RawSeal): SealReading {
  const coverage = coverageOf(source, raw.byteRange);
  const value = coverage?.signature ?? (raw.contents.length > 0 ? raw.contents : undefined);
  const cms = value === undefined ? undefined : parseCms(value);
  const bytes =
    coverage === undefined || cms === undefined ? 'not checked' : bytesMatch(source, coverage, cms, raw.format);
  const certificate = cms?.certificate;
  const told: Omit<SealReading, 'says'> = {
    sort: raw.format === 'ETSI.RFC3161' ? 'time stamp' : 'signature',
    format: raw.format === '' ? 'unknown' : raw.format,
    signer: certificate === undefined ? undefined : commonName(certificate.subject),
    certificate: certificate === undefined ? undefined : describeCertificate(certificate),
    reason: raw.reason === '' ? undefined : raw.reason,
    signedAt: timeOf(raw, cms),
    bytes,
    covers: coverage?.covers ?? 'parts',
    laterBytes: coverage?.laterBytes ?? 0,
  };
  return { ...told, says: sealSays(told) };
}
