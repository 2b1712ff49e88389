import type { Fared } from './corpus-model.ts';

function counted(words: readonly string[]): readonly (readonly [say: string, times: number])[] {
  const counts = new Map<string, number>();
  for (const word of words) counts.set(word, (counts.get(word) ?? 0) + 1);
  return [...counts].toSorted(([, a], [, b]) => b - a);
}

function share(part: number, whole: number): string {
  return whole === 0 ? '-' : `${((part / whole) * 100).toFixed(2)} %`;
}

function linesOf(files: readonly Fared[]): readonly string[] {
  const kept = files.filter(({ rung }) => rung !== undefined);
  const same = kept.filter(({ differences }) => differences.length === 0);
  const lines = [
    `  ${files.length} tried, ${kept.length} kept, ${same.length} of them look the same in a packet on every page compared (${share(same.length, files.length)})`,
  ];
  for (const [rung, times] of counted(kept.map(({ rung = '' }) => rung)))
    lines.push(`  ${String(times).padStart(6)} kept: ${rung}`);
  const sentences = files.flatMap(({ refused }) => (refused === undefined ? [] : [refused.replace(/\d+/g, 'n')]));
  for (const [say, times] of counted(sentences)) lines.push(`  ${String(times).padStart(6)} refused: ${say}`);
  return lines;
}

/** Per sort of file, and for PDFs by whether the reader opens them: how many were tried, kept by which rung, refused and why. */
export function corpusTable(files: readonly Fared[]): string {
  const groups = Map.groupBy(files, ({ sort, opens }) => (sort === 'pdf' ? `pdf, ${opens}` : sort));
  return [...groups]
    .toSorted(([, a], [, b]) => b.length - a.length)
    .flatMap(([group, members]) => [group, ...linesOf(members)])
    .join('\n');
}
