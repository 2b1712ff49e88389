/** What the directory of one picture in a TIFF says (TIFF 6.0, section 2). */
export interface TiffPage {
  /** Where its directory stands. */
  readonly at: number;
  readonly width: number;
  readonly height: number;
  readonly bits: number;
  readonly samples: number;
  readonly compression: number;
  /** Shades of grey or black and white (tag 262: 0 or 1), no palette, no colours. */
  readonly grey: boolean;
  /** EXIF 1-8. */
  readonly orientation: number;
  /** A smaller copy of another picture (tag 254, bit 0), or a mask (bit 2). */
  readonly aside: boolean;
  readonly xResolution: number | undefined;
  readonly yResolution: number | undefined;
  /** 1 none, 2 inch, 3 centimetre. */
  readonly unit: number;
}

const mostDirectories = 4000;
const mostTags = 500;

/** Numbers of a TIFF at any place; 0 beyond its end. */
export class TiffReader {
  readonly #bytes: Buffer;
  readonly #little: boolean;

  constructor(bytes: Buffer) {
    this.#bytes = bytes;
    this.#little = bytes.toString('latin1', 0, 2) === 'II';
  }

  short(at: number): number {
    if (at + 2 > this.#bytes.length) return 0;
    return this.#little ? this.#bytes.readUInt16LE(at) : this.#bytes.readUInt16BE(at);
  }

  long(at: number): number {
    if (at + 4 > this.#bytes.length) return 0;
    return this.#little ? this.#bytes.readUInt32LE(at) : this.#bytes.readUInt32BE(at);
  }

  /** The first value of an entry: BYTE, SHORT, LONG, RATIONAL. */
  value(entry: number): number | undefined {
    switch (this.short(entry + 2)) {
      case 1:
        return this.#bytes[entry + 8];
      case 3:
        return this.short(this.long(entry + 4) > 2 ? this.long(entry + 8) : entry + 8);
      case 4:
        return this.long(entry + 8);
      case 5: {
        const at = this.long(entry + 8);
        const below = this.long(at + 4);
        return below === 0 ? undefined : this.long(at) / below;
      }
      default:
        return undefined;
    }
  }
}

function pageAt(reader: TiffReader, start: number): TiffPage {
  const count = Math.min(reader.short(start), mostTags);
  const tags = new Map<number, number | undefined>();
  for (let index = 0; index < count; index += 1) {
    const entry = start + 2 + index * 12;
    tags.set(reader.short(entry), reader.value(entry));
  }
  const subfile = tags.get(254) ?? 0;
  const orientation = tags.get(274) ?? 1;
  return {
    at: start,
    width: tags.get(256) ?? 0,
    height: tags.get(257) ?? 0,
    bits: tags.get(258) ?? 1,
    samples: tags.get(277) ?? 1,
    compression: tags.get(259) ?? 1,
    grey: (tags.get(277) ?? 1) === 1 && (tags.get(262) ?? 1) <= 1,
    orientation: orientation >= 1 && orientation <= 8 ? orientation : 1,
    aside: (subfile & 0b101) !== 0,
    xResolution: tags.get(282),
    yResolution: tags.get(283),
    unit: tags.get(296) ?? 2,
  };
}

/**
 * The pictures of a TIFF in their order; empty where the directories can't be followed (BigTIFF among them). Chains
 * that bite their tail are cut there.
 */
export function tiffPages(bytes: Buffer): readonly TiffPage[] {
  const reader = new TiffReader(bytes);
  if (reader.short(2) !== 42) return [];
  const pages: TiffPage[] = [];
  const seen = new Set<number>();
  for (let at = reader.long(4); at >= 8 && at + 2 <= bytes.length && !seen.has(at); ) {
    if (pages.length >= mostDirectories) break;
    seen.add(at);
    pages.push(pageAt(reader, at));
    at = reader.long(at + 2 + Math.min(reader.short(at), mostTags) * 12);
  }
  return pages;
}
