import { type Day, isDay } from '../../vocabulary/days.ts';
import type { PaperKind } from '../../vocabulary/practice.ts';
import { type Candidate, candidatesOf, chooseValue, type Wanted } from './choose-value.ts';
import { notThePapers } from './furniture.ts';
import type { Concept } from './label-words.ts';
import type { LabelHit, Labels } from './labels.ts';
import { withInitials } from './number-initials.ts';
import { beginsCell } from './page-grid.ts';
import type { PageText } from './page-text.ts';
import type { Suggestion } from './reading-model.ts';
import { placeOfWords, surenessAfter } from './trust.ts';
import { readAddress, readName, readNumber, readParcel, streetSort } from './values.ts';

const key = (value: string) => value;

function choose(concept: Concept, labels: Labels, wanted: Wanted<string>): Suggestion<string> | undefined {
  const hits = labels.hits.filter((hit) => hit.phrase.means.concept === concept);
  return chooseValue(candidatesOf(hits, labels, wanted), wanted);
}

/** Nouns that name a paper: on a paper of another kind they point at the one it belongs to. */
const paperNouns = ['permit', 'license', 'policy', 'binder', 'loan', 'ticket', 'authorization', 'certificate'];

function nounsOf(text: string): readonly string[] {
  const plain = text.toLowerCase().replaceAll('licence', 'license');
  return paperNouns.filter((noun) => plain.includes(noun));
}

/** Whether the label's noun is the one the kind itself is called by. */
function nounFits(kind: PaperKind | undefined, label: LabelHit): 'fits' | 'another' | 'neither' {
  const [noun] = nounsOf(label.phrase.words);
  // Certificates and binders of insurance go by their policy's number.
  if (noun === 'policy' && /insur|liabil|compens|risk|binder/i.test(kind?.title ?? '')) return 'fits';
  if (kind === undefined || noun === undefined) return 'neither';
  return nounsOf(`${kind.title} ${kind.id}`).includes(noun) ? 'fits' : 'another';
}

/** A number as offices put it into their headings: letters or groups, and figures enough. */
const headingNumber = /^(?=.*\d{2})(?:[A-Z]{1,5}-?\d|\d{2,4}-[A-Z\d])[A-Z\d.-]{2,}$/;
const phone = /^\d{3}-\d{4}$/;
/** The telephone number of emergencies names the office that gives addresses. */
const emergency = /^E-?911$/i;

/** How far down from the top a heading may reach. */
const headingReach = 0.28;

/** A number at the end of a heading, or alone on the line under it. */
function inHeading(pages: readonly PageText[], parcel: string | undefined): readonly Candidate<string>[] {
  const page = pages[0];
  const heights =
    page?.lines.flatMap(({ words }) => words.map((word) => word.box.height)).toSorted((a, b) => a - b) ?? [];
  const usual = heights[Math.floor(heights.length / 2)] ?? 1;
  return (page?.lines ?? []).flatMap(({ words }, at): Candidate<string>[] => {
    const last = words.at(-1);
    if (page === undefined || last === undefined || last.box.y < page.height * (1 - headingReach)) return [];
    const value = last.text.replace(/[.,;]$/, '');
    const above = at === 0 ? undefined : page.lines[at - 1]?.words[0];
    const heading = (words.length > 1 ? words[0] : above)?.box.height ?? 0;
    if (heading < usual * 1.12 || !headingNumber.test(value) || phone.test(value) || isDay(value) || value === parcel)
      return [];
    return [
      { value, words: [last], page, rank: 2.4, doubt: 'It stands in the heading, and no label says what it is.' },
    ];
  });
}

const unlabelled = 'No label says what it is; only its shape speaks for it.';

function guess(candidates: readonly Candidate<string>[]): Suggestion<string> | undefined {
  const [first] = candidates;
  if (first === undefined) return undefined;
  const otherwise = [...new Set(candidates.map(({ value }) => value))].filter((value) => value !== first.value);
  return {
    value: first.value,
    sureness: 'guess',
    place: placeOfWords(first.page, first.words),
    doubts: [unlabelled],
    otherwise,
  };
}

/** Numbers that no label and no heading names; none from the blank form's own lines. */
function loneNumbers(pages: readonly PageText[], parcel: string | undefined): readonly Candidate<string>[] {
  return pages.flatMap((page) =>
    page.lines.flatMap(({ words }, line) =>
      words.flatMap((word, from): Candidate<string>[] => {
        const value = word.text.replace(/[.,;]$/, '');
        const own =
          headingNumber.test(value) &&
          !phone.test(value) &&
          !emergency.test(value) &&
          !isDay(value) &&
          value !== parcel;
        if (!own || notThePapers({ page, line, from, to: from + 1 }) !== undefined) return [];
        return [{ value, words: [word], page, rank: 0 }];
      }),
    ),
  );
}

/** A cell below the letterhead that reads as a house number and a road. */
function loneAddresses(pages: readonly PageText[]): readonly Candidate<string>[] {
  return pages.flatMap((page) =>
    page.lines.flatMap(({ words }, line) =>
      words.flatMap((word, from): Candidate<string>[] => {
        if (word.box.y > page.height * 0.86 || !beginsCell({ page, line, from, to: from })) return [];
        const end = words.findIndex((_, at) => at > from && beginsCell({ page, line, from: at, to: at }));
        const cell = words.slice(from, end < 0 ? words.length : end);
        const read = readAddress(cell);
        if (read === undefined || cell.length > 8 || !cell.some((one) => streetSort.test(one.text))) return [];
        return [{ value: read.value, words: cell.slice(read.from, read.to), page, rank: 0 }];
      }),
    ),
  );
}

/** The paper's own number: the one its label or heading names, not that of a paper it mentions. */
export function readPaperNumber(
  pages: readonly PageText[],
  labels: Labels,
  at: { readonly kind: PaperKind | undefined; readonly parcel: string | undefined; readonly today: Day },
): Suggestion<string> | undefined {
  const { kind, today } = at;
  const wanted: Wanted<string> = {
    read: (words, { page }) => {
      const read = readNumber(words);
      const value = page.source === 'picture' && read !== undefined ? withInitials(read.value, kind, today) : undefined;
      return read === undefined || value === undefined || value === read.value
        ? read
        : { ...read, value, asRead: read.value };
    },
    bonus: (label) => ({ fits: 0.6, neither: 0, another: -1.5 })[nounFits(kind, label)],
    doubt: (label) =>
      nounFits(kind, label) === 'another' ? 'It may be the number of a paper that this one belongs to.' : undefined,
    letters: false,
    mixed: true,
    key,
  };
  const hits = labels.hits.filter((hit) => hit.phrase.means.concept === 'number');
  const named = chooseValue([...candidatesOf(hits, labels, wanted), ...inHeading(pages, at.parcel)], wanted);
  return named ?? guess(loneNumbers(pages, at.parcel));
}

export function readPaperParcel(labels: Labels): Suggestion<string> | undefined {
  return choose('parcel', labels, { read: readParcel, letters: false, key });
}

function doubted(found: Suggestion<string>, doubt: string): Suggestion<string> {
  const doubts = [...found.doubts, doubt];
  return { ...found, doubts, sureness: surenessAfter(doubts) };
}

/** One that names no sort of road at the end of a line may go on in the next: it wants a look. */
export function readPaperAddress(pages: readonly PageText[], labels: Labels): Suggestion<string> | undefined {
  const found = choose('address', labels, { read: readAddress, letters: true, key });
  if (found === undefined) return guess(loneAddresses(pages));
  const whole = /^lot\b/i.test(found.value) || found.value.split(/[ ,]+/).some((word) => streetSort.test(word));
  return whole ? found : doubted(found, 'It names no sort of road: look whether it goes on.');
}

/** A name of one word at the end of a line may go on in the next: it wants a look. */
export function readPaperOwner(labels: Labels): Suggestion<string> | undefined {
  const found = choose('owner', labels, { read: readName, letters: true, key });
  if (found === undefined || found.value.includes(' ')) return found;
  return doubted(found, 'A name of one word: look whether it goes on.');
}

export function readPaperFirm(labels: Labels): Suggestion<string> | undefined {
  return choose('firm', labels, { read: readName, letters: true, key });
}

const issuing =
  /\b(?:county|department|office|bureau|division|board|company|bank|insurance|mutual|credit|laborator|register|recorder|health|works|administrat|authority|district|surveying|surveyors|inc|llc)\b/i;

const paperNoun =
  /\b(?:binder|policy|permit|certificate|report|determination|application|letter|evaluation|notice|survey|declaration)\b/i;
const bodyNoun =
  /\b(?:county|department|office|bureau|division|board|company|bank|mutual|authority|district|agency|group|inc|llc)\b/i;

/** "Builder's Risk Insurance Binder" names the paper, "Tract 4, ... County" the land: neither wrote it. */
function namesThePaper(text: string): boolean {
  return (
    (paperNoun.test(text) && !bodyNoun.test(text)) || /^(?:tract|lot|parcel|property|project|site|re)\b/i.test(text)
  );
}

/** Who issued it: the first line of the letterhead that names an office or a firm. Never more than likely. */
export function readIssuer(pages: readonly PageText[]): Suggestion<string> | undefined {
  const page = pages[0];
  if (page === undefined) return undefined;
  const line = page.lines.slice(0, 5).find(({ words }) => {
    const text = words.map((word) => word.text).join(' ');
    return words.length <= 9 && issuing.test(text) && !namesThePaper(text) && !/\d{3}/.test(text) && !/:/.test(text);
  });
  if (line === undefined) return undefined;
  const place = placeOfWords(page, line.words);
  return { value: place.words, sureness: 'likely', place, doubts: ['Taken from the head of the page.'], otherwise: [] };
}
