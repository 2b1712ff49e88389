import type { Day } from '../../vocabulary/days.ts';
import type { KindId, PaperKind, Practice } from '../../vocabulary/practice.ts';
import { withBestLooks } from './best-looks.ts';
import { Labels } from './labels.ts';
import { type PageText, withParagraphs } from './page-text.ts';
import { habitOf, type PaperDays, readDays } from './read-days.ts';
import { labelsOfFact, readFacts } from './read-facts.ts';
import { readKind } from './read-kind.ts';
import {
  readIssuer,
  readPaperAddress,
  readPaperFirm,
  readPaperNumber,
  readPaperOwner,
  readPaperParcel,
} from './read-texts.ts';
import type { PaperReading } from './reading-model.ts';

export interface ReadingWishes {
  /** For years of two figures, and to tell a date that lies ahead. */
  readonly today: Day;
  /** The kind whose facts to look for, where the person named it; else the one the words speak for. */
  readonly kind?: KindId | undefined;
}

/** A ticket's or binder's first day stands as its effective day where no label says so. */
function withFirstDay(days: PaperDays, facts: PaperReading['facts']): PaperDays['effective'] {
  const fact = facts.work_from ?? facts.cover_from;
  if (days.effective !== undefined || fact?.value.sort !== 'day') return days.effective;
  const otherwise = fact.otherwise.flatMap((other) => (other.sort === 'day' ? [other.value] : []));
  return { ...fact, value: fact.value.value, otherwise };
}

function moreLabels(kind: PaperKind | undefined): readonly string[] {
  return kind === undefined ? [] : Object.values(kind.facts).flatMap(labelsOfFact);
}

/**
 * Reads one paper: from its words and where they stand to suggestions, each with page, place, the words that say so,
 * how far it may be trusted and why not further. Nothing here is a fact: the person confirms each. Pure.
 * @param pages of this paper alone, in order (a scan that holds several papers is split first)
 * @returns what was found; a value that can't be read is missing, never made up
 */
export function readPaper(pages: readonly PageText[], practice: Practice, wishes: ReadingWishes): PaperReading {
  const kinds = readKind(pages, practice);
  const kindId = wishes.kind ?? kinds[0]?.kind;
  const kind = kindId === undefined ? undefined : practice.papers[kindId];
  const joined = pages.map((page) => withParagraphs(withBestLooks(page)));
  const labels = new Labels(joined, moreLabels(kind));
  const days = readDays(joined, labels, wishes.today);
  const parcel = readPaperParcel(labels);
  const number = readPaperNumber(joined, labels, { kind, parcel: parcel?.value, today: wishes.today });
  const address = readPaperAddress(joined, labels);
  const owner = readPaperOwner(labels);
  const read = { days, number, parcel, address, owner, firm: readPaperFirm(labels) };
  const facts =
    kind === undefined ? {} : readFacts(kind, { pages: joined, labels, habit: habitOf(joined, wishes.today), read });
  return {
    kinds,
    kind: kind?.id,
    issued: days.issued,
    effective: withFirstDay(days, facts),
    goodThrough: days.goodThrough,
    number,
    issuer: readIssuer(pages),
    parcel,
    address,
    owner,
    facts,
    notes: days.notes,
  };
}
