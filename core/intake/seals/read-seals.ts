import { withMemory } from '../../reader/pdfium-module.ts';
import type { SealReading } from '../../vocabulary/seals.ts';
import { fileSource } from '../pdfium/byte-source.ts';
import type { ReaderDocument } from '../pdfium/open-document.ts';
import type { RawSeal } from './read-seal.ts';

const mostSeals = 200;

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

/**
 * Reads every digital signature of a file as it came (ISO 32000-1, 12.8); the file is only read. Nobody is asked
 * whether a certificate is to be trusted.
 * @param original the same file, open in the reader
 * @param path the file as it came
 */
export async function readSeals(original: ReaderDocument, path: string): Promise<readonly SealReading[]> {
  const { call } = original.reader;
  const count = Math.min(mostSeals, call.FPDF_GetSignatureCount(original.handle));
  if (count <= 0) return [];
  // Few papers are sealed: the libraries of cryptography are loaded for those alone.
  const { readSeal } = await import('./read-seal.ts');
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
