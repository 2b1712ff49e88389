const longest = 24;
const shelves = 4096;
const shelf: string[] = Array.from({ length: shelves }, () => '');

/**
 * The bytes from `start` to `end` as text, one character per byte. Names and operators repeat by the thousand, so the
 * last short word of each kind is remembered and handed out again instead of being made anew.
 */
export function wordAt(bytes: Buffer, start: number, end: number): string {
  const length = end - start;
  if (length > longest) return bytes.toString('latin1', start, end);
  let sum = length;
  for (let at = start; at < end; at += 1) sum = (Math.imul(sum, 31) + (bytes[at] ?? 0)) | 0;
  const place = (sum ^ (sum >>> 12)) & (shelves - 1);
  const known = shelf[place] ?? '';
  if (known.length === length && isSame(known, bytes, start)) return known;
  const made = bytes.toString('latin1', start, end);
  shelf[place] = made;
  return made;
}

function isSame(word: string, bytes: Buffer, start: number): boolean {
  for (let at = 0; at < word.length; at += 1) if (word.charCodeAt(at) !== bytes[start + at]) return false;
  return true;
}
