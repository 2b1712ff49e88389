import { createHash } from 'node:crypto';
import type { ByteSource } from '../pdfium/byte-source.ts';

/** What the signature's ByteRange covers (ISO 32000-1, 12.8.1): all bytes but the signature itself. */
export interface Coverage {
  readonly ranges: readonly (readonly [start: number, length: number])[];
  readonly covers: 'whole file' | 'earlier state' | 'parts';
  readonly laterBytes: number;
  /** The signature value that stands in the gap; undefined where the gap holds anything else. */
  readonly signature: Buffer | undefined;
}

const block = 1 << 20;
/** No signature with its certificates takes more. */
const largestGap = 16 * 1024 * 1024;

function read(source: ByteSource, start: number, length: number): Buffer | undefined {
  const bytes = Buffer.alloc(length);
  return source.read(start, bytes) ? bytes : undefined;
}

/** The hex string in the gap, and nothing beside it. */
function gapValue(source: ByteSource, start: number, length: number): Buffer | undefined {
  if (length < 4 || length > largestGap) return undefined;
  const text = read(source, start, length)?.toString('latin1').trim();
  const hex = /^<([\da-fA-F\s]*)>$/.exec(text ?? '')?.[1];
  return hex === undefined ? undefined : Buffer.from(hex.replace(/\s/g, ''), 'hex');
}

function paired(numbers: readonly number[]): readonly (readonly [number, number])[] {
  return Array.from({ length: Math.floor(numbers.length / 2) }, (_, index) => [
    numbers[index * 2] ?? 0,
    numbers[index * 2 + 1] ?? 0,
  ]);
}

/** Only line ends behind the last byte: nothing was added. */
function nothingLater(source: ByteSource, from: number): boolean {
  const rest = source.length - from;
  if (rest === 0) return true;
  return rest <= 8 && /^\s*$/.test(read(source, from, rest)?.toString('latin1') ?? 'x');
}

/**
 * What a ByteRange covers.
 * @returns undefined where it leads outside of the file or back on itself
 */
export function coverageOf(source: ByteSource, numbers: readonly number[]): Coverage | undefined {
  const ranges = paired(numbers);
  let end = 0;
  for (const [start, length] of ranges) {
    if (start < end || length < 0 || start + length > source.length) return undefined;
    end = start + length;
  }
  if (ranges.length === 0 || end === 0) return undefined;
  const [first, second] = ranges;
  const regular = ranges.length === 2 && first?.[0] === 0 && first[1] > 0 && second !== undefined;
  if (!regular) return { ranges, covers: 'parts', laterBytes: source.length - end, signature: undefined };
  const signature = gapValue(source, first[1], second[0] - first[1]);
  const whole = nothingLater(source, end);
  const covers = signature === undefined ? 'parts' : whole ? 'whole file' : 'earlier state';
  return { ranges, covers, laterBytes: whole ? 0 : source.length - end, signature };
}

/** Reads the covered bytes block by block. */
export function eachCovered(source: ByteSource, { ranges }: Coverage, take: (bytes: Buffer) => void): void {
  for (const [start, length] of ranges) {
    for (let at = 0; at < length; at += block) {
      const bytes = read(source, start + at, Math.min(block, length - at));
      if (bytes === undefined) throw new Error('The file ends too early.');
      take(bytes);
    }
  }
}

/** The digest over all that is covered. */
export function digestOf(source: ByteSource, coverage: Coverage, algorithm: string): Buffer {
  const hash = createHash(algorithm);
  eachCovered(source, coverage, (bytes) => hash.update(bytes));
  return hash.digest();
}
