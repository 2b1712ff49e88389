/** "3. Bolt it." or "3) Bolt it.", as people copy a numbered list; "2.5 inches" and "2 - 2x8" are no such numbers. */
const leading = /^\s*\(?(\d{1,3})[.):]\)?\s+(?=\S)/;

export interface Numbered {
  readonly number: string;
  readonly text: string;
}

/** The words of one comment without the number they were copied with. */
export function withoutNumber(text: string): string {
  return text.replace(leading, '').trim();
}

/** Comments as the office numbered them, where each bears a number of its own; else in the order they were given. */
export function numbered(lines: readonly string[]): readonly Numbered[] {
  const own = lines.map((line) => leading.exec(line)?.[1]);
  const theirs = own.every((number) => number !== undefined) && new Set(own).size === own.length;
  return lines.map((line, at) => ({
    number: (theirs ? own[at] : undefined) ?? String(at + 1),
    text: withoutNumber(line),
  }));
}
