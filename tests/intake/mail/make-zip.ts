import { crc32, deflateRawSync } from 'node:zlib';

/** One entry of a ZIP, with the lies a test needs (APPNOTE 6.3). */
export interface ZipEntry {
  readonly name: string;
  readonly data: Buffer;
  /** 0 stored, 8 deflated (the data is deflated for it), anything else: as given. */
  readonly method?: number;
  readonly flags?: number;
  /** What it claims to unpack to. */
  readonly claims?: number;
  readonly crc?: number;
  /** File mode, as a Unix writes it. */
  readonly mode?: number;
}

/** Writes a ZIP byte by byte. */
export function zipOf(entries: readonly ZipEntry[]): Buffer {
  const parts: Buffer[] = [];
  const central: Buffer[] = [];
  let at = 0;
  for (const { name, data, method = 8, flags = 0x800, claims = data.length, crc = crc32(data), mode } of entries) {
    const packed = method === 8 ? deflateRawSync(data) : data;
    const told = Buffer.from(name);
    const head = Buffer.alloc(26);
    head.writeUInt16LE(20, 0);
    head.writeUInt16LE(flags, 2);
    head.writeUInt16LE(method, 4);
    head.writeUInt32LE(crc, 10);
    head.writeUInt32LE(packed.length, 14);
    head.writeUInt32LE(claims, 18);
    head.writeUInt16LE(told.length, 22);
    const local = Buffer.concat([Buffer.from('PK\u0003\u0004', 'latin1'), head, told, packed]);
    const made = Buffer.from([20, mode === undefined ? 20 : 3]);
    const rest = Buffer.alloc(14);
    rest.writeUInt32LE(((mode ?? 0) << 16) >>> 0, 6);
    rest.writeUInt32LE(at, 10);
    central.push(Buffer.concat([Buffer.from('PK\u0001\u0002', 'latin1'), made, head, rest, told]));
    parts.push(local);
    at += local.length;
  }
  const directory = Buffer.concat(central);
  const end = Buffer.alloc(22);
  end.write('PK\u0005\u0006', 'latin1');
  end.writeUInt16LE(entries.length, 8);
  end.writeUInt16LE(entries.length, 10);
  end.writeUInt32LE(directory.length, 12);
  end.writeUInt32LE(at, 16);
  return Buffer.concat([...parts, directory, end]);
}
