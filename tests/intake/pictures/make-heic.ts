/** A box of an ISO base media file (ISO/IEC 14496-12): four bytes of length, four of name. */
function boxAt(bytes: Buffer, from: number, name: string): number {
  const at = bytes.indexOf(name, from, 'latin1') - 4;
  if (at < 0) throw new Error(`no box "${name}"`);
  return at;
}

function grown(bytes: Buffer, at: number, by: number): void {
  bytes.writeUInt32BE(bytes.readUInt32BE(at) + by, at);
}

/** Moves what iloc (version 0 or 1, offsets of 4 bytes, one extent each) points at. */
function moveData(bytes: Buffer, by: number): void {
  const at = boxAt(bytes, 0, 'iloc');
  const version = bytes[at + 8] ?? 0;
  if (bytes[at + 12] !== 0x44 || version > 1) throw new Error('iloc of another shape');
  const base = (bytes[at + 13] ?? 0) >> 4;
  const count = bytes.readUInt16BE(at + 14);
  const size = 2 + (version === 1 ? 2 : 0) + 2 + base + 2 + 8;
  for (let index = 0; index < count; index += 1) {
    const extent = at + 16 + index * size + size - 8;
    // Method 0 points into the file, 1 into idat.
    grown(bytes, extent, by);
  }
}

/**
 * Gives a HEIC the transform property that says how it is to be turned before it is shown (ISO/IEC 23008-12, 6.5.10):
 * `quarters` counter-clockwise.
 */
export function withTurn(heic: Buffer, quarters: 1 | 2 | 3): Buffer {
  const [meta, iprp, ipco, ipma] = [
    boxAt(heic, 0, 'meta'),
    boxAt(heic, 0, 'iprp'),
    boxAt(heic, 0, 'ipco'),
    boxAt(heic, 0, 'ipma'),
  ];
  const ipcoEnd = ipco + heic.readUInt32BE(ipco);
  let properties = 0;
  for (let at = ipco + 8; at < ipcoEnd; at += heic.readUInt32BE(at)) properties += 1;
  const irot = Buffer.from([0, 0, 0, 9, 0x69, 0x72, 0x6f, 0x74, quarters]);
  // ipma: version and flags (4), number of items (4), then item (2), number of properties (1), one byte each.
  const list = ipma + 18;
  const ends = list + 1 + (heic[list] ?? 0);
  const before = Buffer.from(heic);
  const by = irot.length + 1;
  moveData(before, by);
  for (const box of [meta, iprp]) grown(before, box, by);
  grown(before, ipco, irot.length);
  grown(before, ipma, 1);
  before[list] = (before[list] ?? 0) + 1;
  return Buffer.concat([
    before.subarray(0, ipcoEnd),
    irot,
    before.subarray(ipcoEnd, ends),
    Buffer.from([0x80 | (properties + 1)]),
    before.subarray(ends),
  ]);
}
