import { withMemory } from '../../reader/pdfium-module.ts';
import type { SealReading } from '../../vocabulary/seals.ts';
import { type ByteSource, fileSource } from '../pdfium/byte-source.ts';
import type { ReaderDocument } from '../pdfium/open-document.ts';
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

const mostSeals = 200;

/** A signature as it stands in the file, before anyone looked inside. */
interface RawSeal {
  readonly format: string;
  readonly byteRange: readonly number[];
  readonly contents: Buffer;
  readonly reason: string;
  readonly time: string;
}

function rawSeal({ reader }: ReaderDocument, handle: number): RawSeal {
  const { call, heap } = reader;
  const bytes = (ask: (pointer: number, length: number) => number): Buffer => {
    const length = ask(0, 0);
    if (length <= 0) return Buffer.alloc(0);
    return withMemory(heap, length, (pointer) => {
      ask(pointer, length);
      return Buffer.from(heap.HEAPU8.slice(pointer, pointer + length));
    });
  };
  const count = call.FPDFSignatureObj_GetByteRange(handle, 0, 0);
  const byteRange =
    count <= 0 || count > 64
      ? []
      : withMemory(heap, count * 4, (pointer) => {
          call.FPDFSignatureObj_GetByteRange(handle, pointer, count);
          return Array.from({ length: count }, (_, index) => heap.getValue(pointer + index * 4, 'i32'));
        });
  const text = (buffer: Buffer, encoding: 'latin1' | 'utf16le') => buffer.toString(encoding).replace(/\0+$/, '');
  return {
    byteRange,
    format: text(
      bytes((pointer, length) => call.FPDFSignatureObj_GetSubFilter(handle, pointer, length)),
      'latin1',
    ),
    contents: bytes((pointer, length) => call.FPDFSignatureObj_GetContents(handle, pointer, length)),
    reason: text(
      bytes((pointer, length) => call.FPDFSignatureObj_GetReason(handle, pointer, length)),
      'utf16le',
    ),
    time: text(
      bytes((pointer, length) => call.FPDFSignatureObj_GetTime(handle, pointer, length)),
      'latin1',
    ),
  };
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

function readSeal(source: ByteSource, raw: RawSeal): SealReading {
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

/**
 * Reads every digital signature of a file as it came (ISO 32000-1, 12.8); the file is only read. Nobody is asked
 * whether a certificate is to be trusted.
 * @param original the same file, open in the reader
 * @param path the file as it came
 */
export function readSeals(original: ReaderDocument, path: string): readonly SealReading[] {
  const { call } = original.reader;
  const count = Math.min(mostSeals, call.FPDF_GetSignatureCount(original.handle));
  if (count <= 0) return [];
  const source = fileSource(path);
  try {
    return Array.from({ length: count }, (_, index) => call.FPDF_GetSignatureObject(original.handle, index))
      .filter((handle) => handle !== 0)
      .map((handle) => rawSeal(original, handle))
      .filter(({ contents, byteRange }) => contents.length > 0 || byteRange.length > 0)
      .map((raw) => readSeal(source, raw));
  } finally {
    source.close();
  }
}
