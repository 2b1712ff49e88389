import type { KindId, PaperKind, Practice } from '../../vocabulary/practice.ts';
import { folded, near } from './folded.ts';
import type { PageText, TextLine } from './page-text.ts';
import { type Hit, PhraseBook, phraseOf, type Spot, wordsAt } from './phrases.ts';
import type { KindSuggestion, Place, Sureness } from './reading-model.ts';
import { placeOf } from './trust.ts';

/** What a phrase on the page says for a kind. */
interface Sign {
  readonly kind: KindId;
  /** Letters of the phrase, divided by how many kinds use it. */
  readonly weight: number;
}

function phrasesOf(kind: PaperKind): readonly string[] {
  return [...new Set([...kind.looksLike, kind.title, kind.id.replaceAll('-', ' ')].map((text) => text.toLowerCase()))];
}

/** A scan of many pages is asked page by page. */
const books = new WeakMap<Practice, PhraseBook<Sign>>();

function bookOf(practice: Practice): PhraseBook<Sign> {
  const before = books.get(practice);
  if (before !== undefined) return before;
  const book = newBook(practice);
  books.set(practice, book);
  return book;
}

function newBook(practice: Practice): PhraseBook<Sign> {
  const kinds = Object.values(practice.papers);
  const users = new Map<string, number>();
  for (const kind of kinds) for (const text of phrasesOf(kind)) users.set(text, (users.get(text) ?? 0) + 1);
  return new PhraseBook(
    kinds.flatMap((kind) =>
      phrasesOf(kind).map((text) => {
        // A phrase of several words says more than its length; one word turns up anywhere.
        const spread = text.includes(' ') || text.includes('-') ? 1.5 : 0.6;
        return phraseOf<Sign>(text, {
          kind: kind.id,
          weight: (Math.min(24, text.length) * spread) / (users.get(text) ?? 1),
        });
      }),
    ),
  );
}

/** A line is as tall as its tallest word: a word without an ascender says nothing of its size. */
function tallest({ words }: TextLine): number {
  return Math.max(1, ...words.map((word) => word.box.height));
}

function medianHeight(page: PageText): number {
  const heights = page.lines.map(tallest).toSorted((a, b) => a - b);
  return Math.max(1, heights[Math.floor(heights.length / 2)] ?? 1);
}

/** A heading has no more words than this; a longer line is a sentence, however tall its letters were measured. */
const longestHeading = 11;

/** Large letters near the top of the first page are the title; the further down, the less a phrase says. */
function weightAt(hit: Hit<Sign>, first: PageText, usual: number): number {
  const words = wordsAt(hit);
  const line = hit.page.lines[hit.line];
  const tall = (line === undefined ? 1 : tallest(line)) / usual;
  const top = words[0] === undefined ? 0 : (words[0].box.y + words[0].box.height) / hit.page.height;
  if (hit.page !== first) return 0.4;
  const lineWords = line?.words ?? [];
  // "Re: driveway permit ..." says what a letter is about, not what it is.
  if (/^(?:re|subject|regarding)\b/i.test(lineWords[0]?.text ?? '')) return 1;
  const share = (hit.to - hit.from) / Math.max(1, lineWords.length);
  const heading =
    top > 0.62 &&
    lineWords.length <= longestHeading &&
    (tall > 1.22 ||
      (lineWords.length <= 9 && share > 0.5 && words.every((word) => word.text === word.text.toUpperCase())));
  if (heading) return 4 + 2 * share;
  return top > 0.62 && share > 0.6 ? 1.6 : 0.8;
}

const small = new Set(['of', 'the', 'and', 'a', 'to', 'for', 'copy']);

function titleWords(text: string): readonly string[] {
  return text
    .toLowerCase()
    .replace(/['\u2019]s\b/g, '')
    .split(/[^a-z0-9]+/)
    .filter((word) => word.length > 1 && !small.has(word))
    .map((word) => word.replace(/(?:ies|s)$/, ''))
    .map(folded);
}

/** Points for a kind whose own title stands in the heading, in whatever order ("Inspection Result: Framing"). */
const wholeTitle = 70;

/** The heading lines of the first page: large letters, in its upper third. */
function headings(page: PageText, usual: number): readonly Spot[] {
  return page.lines.flatMap(({ words }, line): Spot[] => {
    const [first] = words;
    if (first === undefined || first.box.y < page.height * 0.66 || words.length > longestHeading) return [];
    const tall = tallest({ words }) / usual;
    const capitals = words.length <= 9 && words.every((word) => word.text === word.text.toUpperCase());
    return tall > 1.12 || capitals ? [{ page, line, from: 0, to: words.length }] : [];
  });
}

function titleScore(
  kind: PaperKind,
  spots: readonly Spot[],
): { readonly spot: Spot; readonly points: number } | undefined {
  const wanted = titleWords(kind.title);
  if (wanted.length < 2) return undefined;
  const scored = spots.map((spot) => {
    const read = titleWords(
      wordsAt(spot)
        .map((word) => word.text)
        .join(' '),
    );
    const matched = wanted.filter((word) => read.some((other) => near(other, word))).length;
    const share = matched / wanted.length;
    // A sentence holds many words: the title must also be most of what the line says.
    const ofLine = Math.min(1, matched / Math.max(1, read.length));
    return { spot, points: share < 0.6 || ofLine < 0.3 ? 0 : wholeTitle * share ** 3 * Math.sqrt(ofLine) };
  });
  return scored.reduce<(typeof scored)[number] | undefined>(
    (best, next) => (next.points > (best?.points ?? 0) ? next : best),
    undefined,
  );
}

interface Score {
  readonly kind: KindId;
  points: number;
  /** The strongest sign for each phrase. */
  readonly signs: Map<string, { readonly hit: Spot; readonly points: number; readonly heading: boolean }>;
}

function scoresOf(pages: readonly PageText[], practice: Practice): readonly Score[] {
  const book = bookOf(practice);
  const scores = new Map<KindId, Score>();
  const [first] = pages;
  if (first === undefined) return [];
  const usual = medianHeight(first);
  for (const hit of pages.slice(0, 6).flatMap((page) => book.find(page))) {
    const { kind, weight } = hit.phrase.means;
    const score = scores.get(kind) ?? { kind, points: 0, signs: new Map() };
    scores.set(kind, score);
    const place = weightAt(hit, first, usual);
    const points = weight * place;
    if (points > (score.signs.get(hit.phrase.folded)?.points ?? 0)) {
      score.signs.set(hit.phrase.folded, { hit, points, heading: place >= 4 });
    }
  }
  const spots = headings(first, usual);
  for (const kind of Object.values(practice.papers)) {
    const title = titleScore(kind, spots);
    if (title === undefined || title.points === 0) continue;
    const score = scores.get(kind.id) ?? { kind: kind.id, points: 0, signs: new Map() };
    scores.set(kind.id, score);
    score.signs.set('title', { hit: title.spot, points: title.points, heading: true });
  }
  for (const score of scores.values()) {
    // The strongest sign counts in full, each further one for less: a long list of words is no better than a title.
    const points = [...score.signs.values()].map((sign) => sign.points).toSorted((a, b) => b - a);
    score.points = points.reduce((sum, next, at) => sum + next * 0.6 ** at, 0);
  }
  return [...scores.values()].toSorted((a, b) => b.points - a.points);
}

/** Words in a heading that make another paper of the one they speak of. */
const turning =
  /\b(?:applicat|request|exten[ds]|renew|amend|transfer|revo[ck]|denia|denied|notice|receipt|invoice|checklist|instruct|draft|cancel)\w*/gi;

/** The heading says one of these, and no word by which the kind is known does. */
function turnedAside(score: Score, known: string): boolean {
  const said = [...score.signs.values()].filter((sign) => sign.heading).map((sign) => headingText(sign.hit));
  const words = said.flatMap((text) => [...text.matchAll(turning)].map((match) => match[0].toLowerCase().slice(0, 5)));
  return words.some((word) => !known.includes(word));
}

function headingText({ page, line }: Spot): string {
  return (page.lines[line]?.words ?? []).map((word) => word.text).join(' ');
}

/** Points below which the words could stand on any paper; a title of two words makes about 60. */
const telling = 28;

function surenessOf(score: Score, next: Score | undefined, known: string): Sureness {
  const lead = score.points / Math.max(1, next?.points ?? 0);
  const signs = [...score.signs.values()];
  // A paper may well speak of another: without a word in its heading, or several below, nothing is sure.
  if (!signs.some((sign) => sign.heading) && signs.length < 3) return 'guess';
  if (score.points >= 1.6 * telling && lead >= 1.6 && !turnedAside(score, known)) return 'sure';
  return score.points >= telling && lead >= 1.15 ? 'likely' : 'guess';
}

function knownBy(practice: Practice, id: KindId): string {
  const kind = practice.papers[id];
  return kind === undefined ? '' : phrasesOf(kind).join(' ');
}

/** A page that bears a kind's name in its heading. */
export interface HeadedBy {
  readonly kind: KindId;
  readonly sureness: Sureness;
  /** The heading line. */
  readonly heading: Place;
}

/** The kind whose name stands in the heading of a page; undefined where none does, or its words could stand anywhere. */
export function headedBy(page: PageText, practice: Practice): HeadedBy | undefined {
  const [best, next] = scoresOf([page], practice);
  const sign = best === undefined ? undefined : [...best.signs.values()].filter(({ heading }) => heading);
  const [top] = (sign ?? []).toSorted((a, b) => b.points - a.points);
  if (best === undefined || top === undefined || best.points < telling) return undefined;
  const { line } = top.hit;
  const words = page.lines[line]?.words.length ?? 0;
  return {
    kind: best.kind,
    sureness: surenessOf(best, next, knownBy(practice, best.kind)),
    heading: placeOf({ page, line, from: 0, to: words }),
  };
}

/** The kinds that the words on the page speak for, best first. */
export function readKind(pages: readonly PageText[], practice: Practice): readonly KindSuggestion[] {
  const scores = scoresOf(pages, practice)
    .filter((score) => score.points > 6)
    .slice(0, 3);
  return scores.map((score, at) => ({
    kind: score.kind,
    sureness: at === 0 ? surenessOf(score, scores[1], knownBy(practice, score.kind)) : 'guess',
    because: [...score.signs.values()]
      .toSorted((a, b) => b.points - a.points)
      .slice(0, 4)
      .map((sign) => placeOf(sign.hit)),
  }));
}
