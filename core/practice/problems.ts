/** Where something stands in a practice file; line and column start at 1. */
export interface Place {
  readonly layer: string;
  readonly line: number;
  readonly column: number;
}

/** One mistake in a practice file, told in a sentence. */
export interface Problem extends Place {
  readonly sentence: string;
}

/** Collects every mistake, so that a file is mended in one go and not in twenty. */
export class Problems {
  readonly #found: Problem[] = [];

  add(at: Place, sentence: string): void {
    const twice = this.#found.some(
      (one) => one.layer === at.layer && one.line === at.line && one.sentence === sentence,
    );
    if (!twice) this.#found.push({ layer: at.layer, line: at.line, column: at.column, sentence });
  }

  get count(): number {
    return this.#found.length;
  }

  /** In the order of the layers given, then by line. */
  inOrder(layers: readonly string[]): readonly Problem[] {
    const rank = (problem: Problem): number => layers.indexOf(problem.layer);
    return [...this.#found].sort((a, b) => rank(a) - rank(b) || a.line - b.line || a.column - b.column);
  }
}

/** "county.yaml:12: There is no office ..." */
export function problemLine(problem: Problem): string {
  return `${problem.layer}:${problem.line}: ${problem.sentence}`;
}

/** Letters to change, add, leave out or swap to turn one word into the other (optimal string alignment). */
function distance(a: string, b: string): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const swap = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1] ? (before[j - 2] ?? 0) + 1 : i + j;
      const change = (last[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      row.push(Math.min((last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, change, swap));
    }
    before = last;
    last = row;
  }
  return last[b.length] ?? a.length;
}

function plain(word: string): string {
  return word.toLowerCase().replaceAll(/[_\s]/g, '-');
}

/** The known word nearest to a misspelt one, where one is near enough to be worth asking about. */
export function nearWord(word: string, known: Iterable<string>): string | undefined {
  let best: { readonly word: string; readonly far: number } | undefined;
  const limit = Math.max(1, Math.ceil(word.length / 3));
  for (const candidate of known) {
    const far = distance(plain(word), plain(candidate));
    if (far <= limit && (best === undefined || far < best.far)) best = { word: candidate, far };
  }
  return best?.word;
}

/** `; did you mean "x"?` or a full stop. */
export function didYouMean(word: string, known: Iterable<string>): string {
  const near = nearWord(word, known);
  return near === undefined ? '.' : `; did you mean "${near}"?`;
}
