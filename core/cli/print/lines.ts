import { moneyInWords } from '../../desk/door.ts';

const width = 100;

/** Wraps a sentence to the terminal, each line after `indent` blanks. */
export function wrapped(text: string, indent: number): readonly string[] {
  const room = width - indent;
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/)) {
    if (line !== '' && line.length + word.length + 1 > room) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  if (line !== '') lines.push(line);
  return lines.map((each) => ' '.repeat(indent) + each);
}

/** A label and its wrapped text in a hanging indent. */
export function labelled(label: string, text: string, indent: number): readonly string[] {
  const lines = wrapped(text, indent + label.length + 1);
  const [first = '', ...rest] = lines;
  return [`${' '.repeat(indent)}${label} ${first.trimStart()}`, ...rest];
}

/** Columns as wide as their widest cell, two blanks between. */
export function table(rows: readonly (readonly string[])[]): readonly string[] {
  const columns = Math.max(0, ...rows.map((row) => row.length));
  const widths = Array.from({ length: columns }, (_, n) => Math.max(...rows.map((row) => [...(row[n] ?? '')].length)));
  return rows.map((row) =>
    row
      .map((cell, n) => (n === row.length - 1 ? cell : cell + ' '.repeat((widths[n] ?? 0) - [...cell].length)))
      .join('  ')
      .trimEnd(),
  );
}

export function sizeInWords(bytes: number): string {
  if (bytes < 1000) return `${bytes} bytes`;
  return bytes < 1_000_000 ? `${Math.round(bytes / 1000)} KB` : `${(bytes / 1_000_000).toFixed(1)} MB`;
}

export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** "$640, 150 of it now", "none", what is noted of it, or that it has to be asked for. */
export function feeWords({
  fee,
  feeNote,
}: {
  readonly fee?: number | undefined;
  readonly feeNote?: string | undefined;
}): string {
  if (fee === undefined) return feeNote ?? 'not known: ask';
  const money = fee === 0 ? 'none' : moneyInWords(fee);
  return feeNote === undefined ? money : `${money}, ${feeNote}`;
}

/** How a comment is named to the program: by its row, for the office's number may stand twice. */
export function commentWords(row: string, answered: unknown): string {
  return answered === undefined ? `answer-comment ${row}` : `comment ${row}`;
}
