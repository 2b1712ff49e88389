/** What the directory of one picture in a TIFF says (TIFF 6.0, section 2). */
export interface TiffPage {
  /** Where its directory stands. */
  readonly at: number;
  readonly width: number;
  readonly height: number;
  /** Of the first sample; 0 where the samples differ. */
  readonly bits: number;
  readonly samples: number;
  /** Tag 262: 2 RGB, 5 printing colours, 6 YCbCr, 8 CIE L*a*b*, 9 the same as profiles write it ... */
  readonly photometric: number;
  /** Tag 339: 1 whole numbers, 2 signed ones, 3 fractions. */
  readonly format: number;
  /** Tag 284: each colour on a plane of its own. */
  readonly planes: boolean;
  /** Tag 317: 1 none. */
  readonly predictor: number;
  readonly tiled: boolean;
  readonly rowsPerStrip: number;
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

  /** Whether all values of a list of SHORTs are the same; one value is. */
  alike(entry: number): boolean {
    const count = Math.min(this.long(entry + 4), 64);
    if (this.short(entry + 2) !== 3 || count < 2) return true;
    const from = count > 2 ? this.long(entry + 8) : entry + 8;
    return Array.from({ length: count }, (_, n) => this.short(from + 2 * n)).every(
      (value, _, [first]) => value === first,
    );
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
    const tag = reader.short(entry);
    tags.set(tag, tag === 258 && !reader.alike(entry) ? 0 : reader.value(entry));
  }
  return pageOf(start, tags);
}

function pageOf(start: number, tags: ReadonlyMap<number, number | undefined>): TiffPage {
  const subfile = tags.get(254) ?? 0;
  const orientation = tags.get(274) ?? 1;
  return {
    at: start,
    width: tags.get(256) ?? 0,
    height: tags.get(257) ?? 0,
    bits: tags.get(258) ?? 1,
    samples: tags.get(277) ?? 1,
    photometric: tags.get(262) ?? 1,
    format: tags.get(339) ?? 1,
    planes: tags.get(284) === 2,
    predictor: tags.get(317) ?? 1,
    tiled: tags.has(322),
    rowsPerStrip: tags.get(278) ?? 2 ** 32 - 1,
    compression: tags.get(259) ?? 1,
    grey: (tags.get(277) ?? 1) === 1 && (tags.get(262) ?? 1) <= 1,
    orientation: orientation >= 1 && orientation <= 8 ? orientation : 1,
    aside: (subfile & 0b101) !== 0,
    xResolution: tags.get(282),
    yResolution: tags.get(283),
    unit: tags.get(296) ?? 2,
  };
}

/** Tag 259 of each picture of a BigTIFF: 8 bytes to an offset, 20 to an entry. As far as its chain can be followed. */
export function bigPackings(bytes: Buffer): readonly number[] {
  const reader = new TiffReader(bytes);
  const little = bytes.toString('latin1', 0, 2) === 'II';
  const offset = (at: number): number => (little ? reader.long(at) : reader.long(at + 4));
  const packings: number[] = [];
  const seen = new Set<number>();
  for (let at = offset(8); at >= 16 && at + 8 <= bytes.length && !seen.has(at); ) {
    if (packings.length >= mostDirectories) break;
    seen.add(at);
    const count = Math.min(offset(at), mostTags);
    const entries = Array.from({ length: count }, (_, n) => at + 8 + n * 20);
    const own = entries.find((entry) => reader.short(entry) === 259);
    packings.push(own === undefined ? 1 : reader.short(own + 12));
    at = offset(at + 8 + count * 20);
  }
  return packings;
}

/** Tags of what a camera's sensor saw: DNGVersion; pictures beside the first one (SubIFDs). */
const [dngVersion, besides] = [50706, 330];

/** Tag 262: a sensor's bare grid, with its filters (CFA) or without (DNG 1.4, chapter 4). */
export const sensorGrids: ReadonlySet<number> = new Set([32803, 34892]);

/** Offsets of the directories that a SubIFDs entry names (TIFF Technical Note 1). */
function besidesAt(reader: TiffReader, entry: number): readonly number[] {
  const count = Math.min(reader.long(entry + 4), 8);
  const from = count > 1 ? reader.long(entry + 8) : entry + 8;
  return Array.from({ length: count }, (_, n) => reader.long(from + 4 * n));
}

/**
 * Whether the file is a camera's RAW: what it shows first is then a small preview, and the picture itself is still to
 * be worked out of what the sensor saw.
 */
export function isCameraRaw(bytes: Buffer): boolean {
  const reader = new TiffReader(bytes);
  if (reader.short(2) !== 42) return false;
  const start = reader.long(4);
  const entries = Array.from({ length: Math.min(reader.short(start), mostTags) }, (_, n) => start + 2 + n * 12);
  return entries.some((entry) => {
    const tag = reader.short(entry);
    if (tag === dngVersion) return true;
    return tag === besides && besidesAt(reader, entry).some((at) => sensorGrids.has(pageAt(reader, at).photometric));
  });
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
