import type { Day } from '../../vocabulary/days.ts';
import type { KindId, Practice } from '../../vocabulary/practice.ts';
import { withBestLooks } from './best-looks.ts';
import { folded } from './folded.ts';
import { Labels } from './labels.ts';
import { type PageText, withParagraphs } from './page-text.ts';
import { headedBy, readKind } from './read-kind.ts';
import { readIssuer, readPaperNumber, readPaperParcel } from './read-texts.ts';

/** "Page 2 of 5", as it stands on the page. */
interface PageMark {
  readonly page: number;
  readonly of: number;
  readonly words: string;
}

/** What one page of a scan says of where its paper begins. */
export interface PageSigns {
  readonly page: number;
  /** No ink stands on it. A drawing without a word is not blank: it belongs to some paper. */
  readonly blank: boolean;
  /** The kind its heading names, or all its words together. */
  readonly kind: KindId | undefined;
  /** The words that name the kind, as they stand on the page. */
  readonly named: string | undefined;
  readonly number: string | undefined;
  readonly mark: PageMark | undefined;
  /** Words near its top that say that it goes on with the page before: "continued", "Exhibit A". */
  readonly goesOn: string | undefined;
  /** How many lines are labels with values of their own, as first pages of forms have them. */
  readonly labels: number;
}

/** Parts of a page's height: what stands above is its head, what stands below its foot. */
const [head, foot] = [0.72, 0.14] as const;

const ofWords = /\b(?:page|sheet|pg\.?)\s*:?\s*(\d{1,3})\s*(?:of|\/)\s*(\d{1,3})\b/i;

const continues =
  /\b(?:continued|cont[’']?d|continuation|(?:exhibit|schedule|attachment|appendix|addendum|annex|rider|enclosure)\s+(?:[A-Z]|\d{1,2}|[IVX]{1,4})\b)/i;

function textOf(page: PageText, keep: (share: number) => boolean): readonly string[] {
  return page.lines
    .filter(({ words: [first] }) => first !== undefined && keep((first.box.y + first.box.height) / page.height))
    .map(({ words }) => words.map((word) => word.text).join(' '));
}

function markOf(page: PageText): PageMark | undefined {
  for (const text of textOf(page, (share) => share > head || share < foot)) {
    const match = ofWords.exec(text);
    const [at, of] = [Number(match?.[1]), Number(match?.[2])];
    if (match !== null && at >= 1 && at <= of) return { page: at, of, words: match[0] };
  }
  return undefined;
}

/** A heading says what the page is; a sentence that speaks of an exhibit is long. */
function goesOnWords(page: PageText): string | undefined {
  return textOf(page, (share) => share > head).find((text) => continues.test(text) && text.split(' ').length <= 12);
}

/** So many labels with values stand on the first page of a form, hardly ever on the next. */
export const manyLabels = 3;

interface NamedKind {
  readonly kind: KindId;
  readonly words: string;
}

const telephone = /\(?\b\d{3}\)?[ .-]{1,2}\d{3}-\d{4}\b/;

/** Its first lines name an office or firm, or give a telephone number. */
function underLetterhead(page: PageText): boolean {
  const first = page.lines.slice(0, 5).map(({ words }) => words.map((word) => word.text).join(' '));
  return readIssuer([page]) !== undefined || first.some((line) => telephone.test(line));
}

/** A heading names the kind; so do many words together on a page of labels. A later page only speaks of other papers. */
function namedKind(page: PageText, practice: Practice, labels: number): NamedKind | undefined {
  const headed = headedBy(page, practice);
  if (headed !== undefined && headed.sureness !== 'guess') return { kind: headed.kind, words: headed.heading.words };
  if (labels < manyLabels) return undefined;
  const [best] = readKind([page], practice);
  // Under the letterhead of an office or a firm, less is enough.
  const told = best !== undefined && (best.sureness !== 'guess' || underLetterhead(page));
  return told ? { kind: best.kind, words: best.because[0]?.words ?? '' } : undefined;
}

/** Reads one page for what it says of its place among the others. */
export function pageSigns(seen: PageText, practice: Practice, today: Day): PageSigns {
  const { page } = seen;
  const joined = withParagraphs(withBestLooks(seen));
  const blank = seen.blank === true;
  const labels = new Labels([joined]);
  const own = labels.hits.filter((hit) => hit.own && hit.begins).length;
  const named = blank ? undefined : namedKind(seen, practice, own);
  const kind = named === undefined ? undefined : practice.papers[named.kind];
  const number = readPaperNumber([joined], labels, { kind, parcel: readPaperParcel(labels)?.value, today });
  return {
    page,
    blank,
    kind: named?.kind,
    named: named?.words,
    number: number?.sureness === 'guess' && number.because === undefined ? undefined : number?.value,
    mark: markOf(seen),
    goesOn: goesOnWords(seen),
    labels: own,
  };
}

/** The same number, O for 0 and the like allowed; no other slip: an office's next number differs by one figure. */
export function sameNumber(a: string, b: string): boolean {
  return folded(a) === folded(b);
}
