/** What embedding needs to know of a JPEG stream, and the stream without its notes (ITU-T T.81, annex B). */
export interface JpegParts {
  /** The number in SOFn: 0 baseline, 1 extended, 2 progressive; others are rare and go another way. */
  readonly frame: number;
  readonly precision: number;
  readonly width: number;
  readonly height: number;
  readonly components: number;
  /** Component ids spell "RGB": some readers take that for YCbCr. */
  readonly namedRgb: boolean;
  /** The end of the picture was found. */
  readonly whole: boolean;
  /** The colour profile, put together from its segments. */
  readonly profile: Buffer | undefined;
  /** All segments but notes (EXIF, XMP, comments, previews), up to the end of the first picture. */
  readonly lean: Buffer;
}

interface Segment {
  readonly marker: number;
  readonly start: number;
  readonly end: number;
}

const [sos, eoi, app0, app2, app14, comment] = [0xda, 0xd9, 0xe0, 0xe2, 0xee, 0xfe];
/** ITU-T T.87, annex C: its frame. */
const jpegLs = 0xf7;
const profileTag = 'ICC_PROFILE\0';

const isFrame = (marker: number) => marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);
const isNote = (marker: number) =>
  marker === comment || (marker > app0 && marker <= 0xef && marker !== app2 && marker !== app14);

/** Where the entropy-coded data of a scan ends: at the next marker that is no restart and no stuffed byte. */
function afterScan(bytes: Buffer, start: number): number {
  for (let at = bytes.indexOf(0xff, start); at >= 0; at = bytes.indexOf(0xff, at + 1)) {
    const next = bytes[at + 1];
    if (next === undefined) break;
    if (next !== 0 && next !== 0xff && (next < 0xd0 || next > 0xd7)) return at;
  }
  return bytes.length;
}

function nextSegment(bytes: Buffer, from: number): Segment | undefined {
  let at = from;
  while (bytes[at] === 0xff && bytes[at + 1] === 0xff) at += 1;
  const marker = bytes[at + 1];
  if (bytes[at] !== 0xff || marker === undefined) return undefined;
  if (marker === eoi) return { marker, start: at, end: at + 2 };
  if (at + 4 > bytes.length) return undefined;
  const end = at + 2 + bytes.readUInt16BE(at + 2);
  if (end > bytes.length || end < at + 4) return undefined;
  return { marker, start: at, end: marker === sos ? afterScan(bytes, end) : end };
}

function segmentsOf(bytes: Buffer): readonly Segment[] {
  const segments: Segment[] = [];
  for (let at = 2; ; ) {
    const segment = nextSegment(bytes, at);
    if (segment === undefined) return segments;
    segments.push(segment);
    if (segment.marker === eoi) return segments;
    at = segment.end;
  }
}

function profileOf(bytes: Buffer, segments: readonly Segment[]): Buffer | undefined {
  const pieces = segments
    .filter(({ marker, start }) => marker === app2 && bytes.toString('latin1', start + 4, start + 16) === profileTag)
    .map(({ start, end }) => ({ order: bytes[start + 16] ?? 0, data: bytes.subarray(start + 18, end) }))
    .toSorted((a, b) => a.order - b.order);
  return pieces.length === 0 ? undefined : Buffer.concat(pieces.map(({ data }) => data));
}

/** Notes, foreign APP2 segments (previews, depth) and a profile that the PDF will carry by itself are left out. */
function leanOf(bytes: Buffer, segments: readonly Segment[]): Buffer {
  const stay = segments.filter(({ marker }) => !isNote(marker) && marker !== app2);
  return Buffer.concat([bytes.subarray(0, 2), ...stay.map(({ start, end }) => bytes.subarray(start, end))]);
}

/** The first frame's number in SOFn (0x37 for JPEG-LS) and its bits a colour; undefined where there is none. */
export function frameOf(bytes: Buffer): Pick<JpegParts, 'frame' | 'precision'> | undefined {
  const frame = segmentsOf(bytes).find(({ marker }) => isFrame(marker) || marker === jpegLs);
  return frame === undefined ? undefined : { frame: frame.marker - 0xc0, precision: bytes[frame.start + 4] ?? 0 };
}

/** Takes a JPEG apart; undefined where no picture frame is found. Never reads past the bytes, never loops. */
export function jpegParts(bytes: Buffer): JpegParts | undefined {
  const segments = segmentsOf(bytes);
  const frame = segments.find(({ marker }) => isFrame(marker));
  if (frame === undefined || frame.end - frame.start < 11) return undefined;
  const at = frame.start;
  const components = bytes[at + 9] ?? 0;
  const ids = Array.from({ length: components }, (_, index) => bytes[at + 10 + index * 3] ?? 0);
  return {
    frame: frame.marker - 0xc0,
    precision: bytes[at + 4] ?? 0,
    height: bytes.readUInt16BE(at + 5),
    width: bytes.readUInt16BE(at + 7),
    components,
    namedRgb: String.fromCharCode(...ids) === 'RGB',
    whole: segments.at(-1)?.marker === eoi,
    profile: profileOf(bytes, segments),
    lean: leanOf(bytes, segments),
  };
}
