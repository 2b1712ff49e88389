/** Shapes that a reader of scans takes for one another, folded onto one of them. */
const lookalikes: Readonly<Record<string, string>> = {
  '0': 'o',
  '1': 'l',
  i: 'l',
  '|': 'l',
  '!': 'l',
  '5': 's',
  '8': 'b',
  '6': 'b',
};

/** Letters and figures only, small, without accents; what looks alike is alike. For comparing, never for showing. */
export function folded(text: string): string {
  return text
    .normalize('NFKD')
    .toLowerCase()
    .replace(/#/g, 'no')
    .replace(/[^a-z0-9|!]/g, '')
    .replace(/[01i|!586]/g, (sign) => lookalikes[sign] ?? sign)
    .replace(/rn/g, 'm')
    .replace(/vv/g, 'w');
}

/** How many letters may differ: none in a short word, two in a long phrase. */
function allowance(length: number): number {
  if (length < 6) return 0;
  return length < 12 ? 1 : 2;
}

/** Edits from one text to the other, or `most + 1` where there are more (Levenshtein, in a band). */
function edits(a: string, b: string, most: number): number {
  if (Math.abs(a.length - b.length) > most) return most + 1;
  let row = Array.from({ length: b.length + 1 }, (_, at) => at);
  for (let i = 1; i <= a.length; i += 1) {
    const next = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const swap = (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min(swap, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1));
    }
    if (Math.min(...next) > most) return most + 1;
    row = next;
  }
  return row[b.length] ?? most + 1;
}

/** The same word or phrase, a slip of the reader allowed. Both folded. */
export function near(read: string, wanted: string): boolean {
  if (read === wanted) return true;
  const most = allowance(wanted.length);
  // A letter may be lost or doubled, a whole little word ("no") may not.
  return most > 0 && Math.abs(read.length - wanted.length) < 2 && edits(read, wanted, most) <= most;
}

/** Letters and figures alone, for asking whether two looks saw the same. */
export function bare(text: string): string {
  return text.normalize('NFKD').replace(/[^A-Za-z0-9]/g, '');
}
