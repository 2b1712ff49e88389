/** What a BMP's head says of its dots (BITMAPINFOHEADER, Microsoft's published Windows GDI reference). */
interface BmpHead {
  readonly width: number;
  readonly height: number;
  readonly fromTop: boolean;
  readonly bits: number;
  /** 0 none, 1 and 2 run lengths of 8 and 4 bits, 3 and 6 none with masks of its own. */
  readonly packing: number;
  /** Where the dots begin. */
  readonly start: number;
  readonly palette: Buffer;
  readonly masks: readonly [red: number, green: number, blue: number];
}

const fileHead = 14;

/** Masks where the head names none: five bits each of 16, eight each of 32. */
const usualMasks = { 16: [0x7c00, 0x03e0, 0x001f], 32: [0xff0000, 0xff00, 0xff] } as const;

/** @param bytes with a head of 40 bytes or more, whole */
export function bmpHead(bytes: Buffer): BmpHead {
  const [size, start] = [bytes.readUInt32LE(14), bytes.readUInt32LE(10)];
  const [height, bits, packing] = [bytes.readInt32LE(22), bytes.readUInt16LE(28), bytes.readUInt32LE(30)];
  const own = packing === 3 || packing === 6;
  const [red, green, blue] = own ? [54, 58, 62].map((at) => bytes.readUInt32LE(at)) : usualMasks[bits === 16 ? 16 : 32];
  const behindHead = own && size === 40 ? (packing === 3 ? 12 : 16) : 0;
  return {
    width: bytes.readInt32LE(18),
    height: Math.abs(height),
    fromTop: height < 0,
    bits,
    packing,
    start,
    palette: bytes.subarray(Math.min(fileHead + size + behindHead, start), start),
    masks: [red ?? 0, green ?? 0, blue ?? 0],
  };
}

class BreaksOff extends Error {}

/** One shade out of a dot of 16 or 32 bits, spread over 0 to 255. */
function shadeBy(mask: number): (dot: number) => number {
  if (mask === 0) return () => 0;
  const shift = 31 - Math.clz32(mask & -mask);
  const most = mask >>> shift;
  return (dot) => Math.round((((dot & mask) >>> shift) * 255) / most);
}

type Paint = (at: number, row: number, x: number) => void;

/** Reads the dot `x` of a row that begins at byte `row`, and paints it at `at`. */
function painter(bytes: Buffer, data: Buffer, { bits, palette, masks }: BmpHead): Paint | undefined {
  switch (bits) {
    case 1:
    case 4:
    case 8: {
      const perByte = 8 / bits;
      return (at, row, x) => {
        const byte = bytes[row + Math.floor(x / perByte)] ?? 0;
        paintIndex(data, { at, palette, index: (byte >> (8 - bits * ((x % perByte) + 1))) & (2 ** bits - 1) });
      };
    }
    case 16:
    case 32: {
      const [red, green, blue] = [shadeBy(masks[0]), shadeBy(masks[1]), shadeBy(masks[2])];
      return (at, row, x) => {
        const dot = bits === 16 ? bytes.readUInt16LE(row + x * 2) : bytes.readUInt32LE(row + x * 4);
        data[at] = red(dot);
        data[at + 1] = green(dot);
        data[at + 2] = blue(dot);
      };
    }
    case 24:
      return (at, row, x) => {
        const from = row + x * 3;
        data[at] = bytes[from + 2] ?? 0;
        data[at + 1] = bytes[from + 1] ?? 0;
        data[at + 2] = bytes[from] ?? 0;
      };
    default:
      return undefined;
  }
}

function paintIndex(
  data: Buffer,
  { at, palette, index }: { readonly at: number; readonly palette: Buffer; readonly index: number },
): void {
  const from = index * 4;
  if (from + 3 > palette.length) throw new BreaksOff();
  data[at] = palette[from + 2] ?? 0;
  data[at + 1] = palette[from + 1] ?? 0;
  data[at + 2] = palette[from] ?? 0;
}

/** Undoes run lengths: to one palette index a dot, rows as they are stored. Dots that are skipped stay the first colour. */
function withoutRuns(bytes: Buffer, { width, height, bits, start }: BmpHead): Uint8Array {
  const dots = new Uint8Array(width * height);
  let [x, y, from] = [0, 0, start];
  const next = (): number => {
    const byte = bytes[from];
    if (byte === undefined) throw new BreaksOff();
    from += 1;
    return byte;
  };
  const put = (index: number): void => {
    if (x < width && y < height) dots[y * width + x] = index;
    x += 1;
  };
  const half = (byte: number, n: number): number => (n % 2 === 0 ? byte >> 4 : byte & 15);
  const asTheyStand = (count: number): void => {
    const began = from;
    for (let n = 0, byte = 0; n < count; n += 1) {
      if (bits === 8 || n % 2 === 0) byte = next();
      put(bits === 8 ? byte : half(byte, n));
    }
    // Runs begin at even places.
    if ((from - began) % 2 === 1) from += 1;
  };
  // Some programs leave out the mark at the end: with its last row full the picture is whole.
  const whole = (): boolean => y >= height || (y === height - 1 && x >= width);
  while (!whole()) {
    const [count, what] = [next(), next()];
    if (count > 0) for (let n = 0; n < count; n += 1) put(bits === 8 ? what : half(what, n));
    else if (what === 0) [x, y] = [0, y + 1];
    else if (what === 1) break;
    else if (what === 2) [x, y] = [x + next(), y + next()];
    else asTheyStand(what);
  }
  return dots;
}

/**
 * The dots of a BMP, three bytes each, rows from the top.
 * @returns undefined where it breaks off, or has another number of bits than such files have
 */
export function bmpDots(bytes: Buffer, head: BmpHead): Buffer | undefined {
  const { width, height, fromTop, bits, packing, start, palette } = head;
  const data = Buffer.alloc(width * height * 3);
  const place = (y: number): number => (fromTop ? y : height - 1 - y) * width * 3;
  try {
    if (packing === 1 || packing === 2) {
      if (bits !== (packing === 1 ? 8 : 4)) return undefined;
      const dots = withoutRuns(bytes, head);
      for (const [n, index] of dots.entries())
        paintIndex(data, { at: place(Math.floor(n / width)) + (n % width) * 3, palette, index });
      return data;
    }
    const across = Math.ceil((width * bits) / 32) * 4;
    const paint = painter(bytes, data, head);
    // The last row's padding may be missing.
    if (paint === undefined || start + across * (height - 1) + Math.ceil((width * bits) / 8) > bytes.length)
      return undefined;
    for (let y = 0; y < height; y += 1) {
      for (let x = 0, at = place(y); x < width; x += 1, at += 3) paint(at, start + y * across, x);
    }
    return data;
  } catch (problem) {
    if (problem instanceof BreaksOff) return undefined;
    throw problem;
  }
}
