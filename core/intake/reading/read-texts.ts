import type { PaperKind } from '../../vocabulary/practice.ts';
import { candidatesOf, chooseValue, type Wanted } from './choose-value.ts';
import { folded } from './folded.ts';
import type { Concept } from './label-words.ts';
import type { LabelHit, Labels } from './labels.ts';
import type { PageText } from './page-text.ts';
import type { Suggestion } from './reading-model.ts';
import { placeOfWords } from './trust.ts';
import { readAddress, readName, readNumber, readParcel } from './values.ts';

const key = (value: string) => value;

function choose(concept: Concept, labels: Labels, wanted: Wanted<string>): Suggestion<string> | undefined {
  const hits = labels.hits.filter((hit) => hit.phrase.means.concept === concept);
  return chooseValue(candidatesOf(hits, labels, wanted), wanted);
}

/** A label whose noun the kind itself carries in its name fits better: a policy's policy number. */
function fits(kind: PaperKind | undefined): (label: LabelHit) => number {
  const words = kind === undefined ? '' : folded([kind.title, kind.id, ...kind.looksLike].join(' '));
  return (label) => {
    const noun = folded(label.phrase.words.split(' ')[0] ?? '');
    // The permit that a certificate or an inspection mentions comes after the paper's own number.
    return noun.length > 3 && words.includes(noun) ? 0.6 : 0;
  };
}

/** The paper's own number. */
export function readPaperNumber(labels: Labels, kind: PaperKind | undefined): Suggestion<string> | undefined {
  return choose('number', labels, { read: readNumber, bonus: fits(kind), letters: false, key });
}

export function readPaperParcel(labels: Labels): Suggestion<string> | undefined {
  return choose('parcel', labels, { read: readParcel, letters: false, key });
}

export function readPaperAddress(labels: Labels): Suggestion<string> | undefined {
  return choose('address', labels, { read: readAddress, letters: true, key });
}

export function readPaperOwner(labels: Labels): Suggestion<string> | undefined {
  return choose('owner', labels, { read: readName, letters: true, key });
}

export function readPaperFirm(labels: Labels): Suggestion<string> | undefined {
  return choose('firm', labels, { read: readName, letters: true, key });
}

const issuing =
  /\b(?:county|department|office|bureau|division|board|company|bank|insurance|mutual|credit|laborator|register|recorder|health|works|administrat|authority|district|surveying|surveyors|inc|llc)\b/i;

/** Who issued it: the first line of the letterhead that names an office or a firm. Never more than likely. */
export function readIssuer(pages: readonly PageText[]): Suggestion<string> | undefined {
  const page = pages[0];
  if (page === undefined) return undefined;
  const line = page.lines.slice(0, 5).find(({ words }) => {
    const text = words.map((word) => word.text).join(' ');
    return words.length <= 9 && issuing.test(text) && !/\d{3}/.test(text) && !/:/.test(text);
  });
  if (line === undefined) return undefined;
  const place = placeOfWords(page, line.words);
  return { value: place.words, sureness: 'likely', place, doubts: ['Taken from the head of the page.'], otherwise: [] };
}
