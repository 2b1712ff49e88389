import { factWords } from './fact-words.ts';
import { type Concept, labelWords, type Strength } from './label-words.ts';
import {
  beginsCell,
  below,
  beside,
  endsCell,
  farApart,
  inList,
  nextCell,
  pointsOn,
  type Run,
  type Starts,
} from './page-grid.ts';
import type { PageText } from './page-text.ts';
import { type Hit, type Phrase, PhraseBook, phraseOf } from './phrases.ts';

export interface Meaning {
  readonly concept: Concept;
  readonly strength: Strength;
}

export type LabelHit = Hit<Meaning> & {
  /** It stands for itself: a colon or "is" follows, or it is all there is in its cell. */
  readonly own: boolean;
  /** It begins a cell or a sentence; else it may be the tail of a longer label. */
  readonly begins: boolean;
};

const phrases: readonly Phrase<Meaning>[] = [
  ...labelWords.flatMap(({ concept, strength, words }) => words.map((text) => phraseOf(text, { concept, strength }))),
  ...Object.values(factWords).flatMap((words) =>
    words.map((text) => phraseOf<Meaning>(text, { concept: 'fact', strength: 'bare' })),
  ),
];

function book(more: readonly string[]): PhraseBook<Meaning> {
  return new PhraseBook([
    ...phrases,
    ...more.map((text) => phraseOf<Meaning>(text, { concept: 'fact', strength: 'bare' })),
  ]);
}

function beginsSentence({ page, line, from }: Hit<Meaning>): boolean {
  const before = page.lines[line]?.words[from - 1]?.text ?? page.lines[line - 1]?.words.at(-1)?.text ?? '';
  return /[.;]$/.test(before);
}

/** Of labels that overlap, the longest counts ("Policy Expiration Date", not its "Date"). */
function withoutShorter(hits: readonly LabelHit[]): readonly LabelHit[] {
  return hits.filter(
    (hit) =>
      !hits.some(
        (other) =>
          other !== hit &&
          other.page === hit.page &&
          other.line === hit.line &&
          other.from <= hit.from &&
          other.to >= hit.to &&
          other.to - other.from > hit.to - hit.from,
      ),
  );
}

/** Everything on the pages that may be a label, and what ends a value. */
export class Labels implements Starts {
  readonly hits: readonly LabelHit[];
  readonly #starts = new Map<PageText, Map<number, number[]>>();

  /** @param more fact labels of the kind at hand that no list knows */
  constructor(pages: readonly PageText[], more: readonly string[] = []) {
    const all = book(more);
    const found = pages.flatMap((page) => all.find(page));
    const judged = found.map((hit): LabelHit => {
      const begins = beginsCell(hit) || beginsSentence(hit);
      return { ...hit, own: pointsOn(hit) || (begins && endsCell(hit)), begins };
    });
    this.hits = withoutShorter(judged);
    for (const hit of this.hits) if (this.#stops(hit)) this.#note(hit);
  }

  /** A label ends the value before it where it clearly is one. */
  #stops(hit: LabelHit): boolean {
    return hit.own || (hit.begins && hit.phrase.means.strength === 'strong');
  }

  #note({ page, line, from }: LabelHit): void {
    const lines = this.#starts.get(page) ?? new Map<number, number[]>();
    this.#starts.set(page, lines);
    lines.set(line, [...(lines.get(line) ?? []), from]);
  }

  at(page: PageText, line: number): readonly number[] {
    return this.#starts.get(page)?.get(line) ?? [];
  }

  /** The runs that may hold the label's value, the likelier first. */
  runsOf(label: LabelHit): readonly Run[] {
    const next = beside(label, this);
    const under = below(label, this);
    const further = nextCell(label, this);
    const more = further === undefined ? [] : [further];
    if (next.words.length === 0) return [...more, ...under];
    if (pointsOn(label) || !farApart(label, next) || under.length === 0) return [next, ...more, ...under];
    return inList(label, next) ? [next, ...under] : [...under, next];
  }
}
