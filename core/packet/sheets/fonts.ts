import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import fontkit, { type Font } from '@cantoo/fontkit';
import type { Face, FontMetrics } from '../../typeset/drawing.ts';
import { isPlain } from '../../typeset/plain-text.ts';
import { LotfileError } from '../../vocabulary/errors.ts';

/** The faces with their measures and bytes: metrics for typesetting, bytes for embedding. */
export interface Fonts extends FontMetrics {
  bytesOf(face: Face): Uint8Array;
}

const places: Readonly<Record<Face, string>> = {
  text: '@expo-google-fonts/source-sans-3/400Regular/SourceSans3_400Regular.ttf',
  bold: '@expo-google-fonts/source-sans-3/600SemiBold/SourceSans3_600SemiBold.ttf',
  slab: '@expo-google-fonts/bitter/600SemiBold/Bitter_600SemiBold.ttf',
  mono: '@expo-google-fonts/source-code-pro/400Regular/SourceCodePro_400Regular.ttf',
};

export const faces: readonly Face[] = ['text', 'bold', 'slab', 'mono'];

/** Widths by code point: no ligatures are set, so a line is as wide as its letters. */
class Measured {
  readonly bytes: Uint8Array;
  readonly #font: Font;
  readonly #advances = new Map<number, number>();
  /** Of the first 128 code points; nearly all that is set is among them. */
  readonly #plain = new Float64Array(128).fill(Number.NaN);
  /** Whether it has every printable ASCII character. */
  readonly hasPlain: boolean;

  constructor(bytes: Uint8Array) {
    this.bytes = bytes;
    const font = fontkit.create(bytes);
    if (!('glyphForCodePoint' in font)) throw new LotfileError('internal', 'A font package holds no single face.');
    this.#font = font;
    this.hasPlain = Array.from({ length: 95 }, (_, n) => n + 32).every((code) => font.hasGlyphForCodePoint(code));
  }

  has(character: string): boolean {
    return this.#font.hasGlyphForCodePoint(character.codePointAt(0) ?? 0);
  }

  /** Of a text, in thousandths of the size. */
  advance(text: string): number {
    let total = 0;
    for (let at = 0; at < text.length; at += 1) {
      const code = text.codePointAt(at) ?? 0;
      if (code > 0xffff) at += 1;
      const plain = this.#plain[code] ?? Number.NaN;
      total += Number.isNaN(plain) ? this.#known(code) : plain;
    }
    return total;
  }

  #known(code: number): number {
    const known = this.#advances.get(code) ?? this.#read(code);
    this.#advances.set(code, known);
    if (code < this.#plain.length) this.#plain[code] = known;
    return known;
  }

  #read(code: number): number {
    return ((this.#font.glyphForCodePoint(code)?.advanceWidth ?? 0) * 1000) / this.#font.unitsPerEm;
  }
}

let loaded: Promise<Fonts> | undefined;

/**
 * Reads the four faces from their packages once per process.
 * @throws Error where a font package is not installed.
 */
export function loadFonts(): Promise<Fonts> {
  loaded ??= readFaces();
  return loaded;
}

async function readFaces(): Promise<Fonts> {
  const require = createRequire(import.meta.url);
  const files = await Promise.all(faces.map((face) => readFile(require.resolve(places[face]))));
  const measured = new Map(faces.map((face, index) => [face, new Measured(files[index] ?? new Uint8Array())]));
  const of = (face: Face): Measured => {
    const found = measured.get(face);
    if (found === undefined) throw new Error(`The face "${face}" was not read.`);
    return found;
  };
  const missing = new Map(faces.map((face) => [face, new Map<string, boolean>()]));
  const missingOf = (face: Face): Map<string, boolean> => {
    const known = missing.get(face) ?? new Map<string, boolean>();
    missing.set(face, known);
    return known;
  };
  return {
    bytesOf: (face) => of(face).bytes,
    widthOf(text, face, size) {
      return (of(face).advance(text) * size) / 1000;
    },
    missing(text, face) {
      if (of(face).hasPlain && isPlain(text)) return [];
      const known = missingOf(face);
      const found = new Set<string>();
      for (const character of text) {
        const before = known.get(character);
        const lacks = before ?? !of(face).has(character);
        if (before === undefined) known.set(character, lacks);
        if (lacks) found.add(character);
      }
      return [...found];
    },
  };
}
