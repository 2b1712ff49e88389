/** The sector numbers of the file's table that stand in its header (MS-CFB 2.2: from 0x4C on, 109 at most). */
function tableSectors(bytes: Buffer): readonly number[] {
  const count = Math.min(109, bytes.readUInt32LE(0x2c));
  return Array.from({ length: count }, (_, n) => bytes.readUInt32LE(0x4c + 4 * n));
}

/** Which sector follows each (MS-CFB 2.3), of those that lie in the file. */
function followers(bytes: Buffer): readonly number[] {
  const size = 1 << bytes.readUInt16LE(0x1e);
  if (size !== 512 && size !== 4096) return [];
  const next: number[] = [];
  for (const sector of tableSectors(bytes)) {
    const at = (sector + 1) * size;
    for (let offset = at; offset + 4 <= Math.min(bytes.length, at + size); offset += 4) {
      next.push(bytes.readUInt32LE(offset));
    }
  }
  return next.slice(0, Math.ceil(bytes.length / size) - 1);
}

/**
 * Whether the sectors of a compound file (MS-CFB) lead round in a circle, as they do in no sound one: whoever follows
 * them never comes to an end, and gathers bytes until the memory is full.
 */
export function leadsRound(bytes: Buffer): boolean {
  if (bytes.length < 512) return false;
  const next = followers(bytes);
  const walk = new Uint32Array(next.length);
  for (const begin of next.keys()) {
    let here = begin;
    while (here < next.length && walk[here] === 0) {
      walk[here] = begin + 1;
      here = next[here] ?? next.length;
    }
    if (here < next.length && walk[here] === begin + 1) return true;
  }
  return false;
}
