/** Upper case, accents off, punctuation to spaces: what is left when only letters and digits count. */
export function bare(text: string): string {
  return text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/[đĐ]/g, 'D')
    .replace(/[øØ]/g, 'O')
    .replace(/[łŁ]/g, 'L')
    .replace(/ß/g, 'SS')
    .replace(/[’'`]/g, '')
    .toUpperCase()
    .replace(/[^\p{L}\p{N}#&/-]+/gu, ' ')
    .trim();
}

export function wordsOf(text: string): readonly string[] {
  return bare(text)
    .split(/[\s-]+/)
    .filter((word) => word !== '');
}

/** Whether two words are one slip of the pen apart: a letter changed, left out, put in, or two swapped. */
export function oneSlipApart(a: string, b: string): boolean {
  if (a === b || Math.abs(a.length - b.length) > 1) return false;
  let start = 0;
  while (start < a.length && a[start] === b[start]) start += 1;
  let end = 0;
  while (end < Math.min(a.length, b.length) - start && a[a.length - 1 - end] === b[b.length - 1 - end]) end += 1;
  const left = a.slice(start, a.length - end);
  const right = b.slice(start, b.length - end);
  if (left.length <= 1 && right.length <= 1) return true;
  return left.length === 2 && right.length === 2 && left[0] === right[1] && left[1] === right[0];
}
