import { type BoxReading, troubledStates } from '../../../forms/form-model.ts';
import { outOfDate } from '../../../forms/out-of-date.ts';
import { type BoxWords, suggestSources } from '../../../forms/suggest.ts';
import type { Edition } from '../../../vocabulary/lot.ts';
import type { Practice } from '../../../vocabulary/practice.ts';
import { type AtLot, onLot } from '../../context.ts';
import type { BlankRow, FormAnswer, FormBoxRow, SourceRow } from '../../contract/form-answers.ts';
import { requests } from '../../contract/requests.ts';
import { kindTitle } from '../../named.ts';
import { boxWords } from '../../templates.ts';
import { renditionTicket } from '../file-look.ts';
import type { Blank } from './find-blank.ts';
import { caution, type FormAt, formAt, mappingOf, readingOf } from './form-case.ts';

/** Words that name a question or paper this practice doesn't know are no offer here. */
function knownWords({ questions, papers }: Practice): BoxWords {
  const known = Object.entries(boxWords()).filter(([source]) => {
    const [head = '', tail] = source.split('.');
    if (tail === undefined) return true;
    return head === 'lot' ? Object.hasOwn(questions, tail) : Object.hasOwn(papers, head);
  });
  return Object.fromEntries(known);
}

function boxRow(box: BoxReading, words: BoxWords): FormBoxRow {
  const { field, title, state, sort, value, from, say, seat, place } = box;
  const offered = state === 'unmapped' ? suggestSources({ name: field, hint: title }, words) : [];
  return { field, title, state, sort, value, from, say, seat, page: place?.page, place: place?.rect, offered };
}

function blankRow({ paper, edition, form }: Blank): BlankRow {
  return { edition: edition.id, paper: paper.id, title: paper.title, boxes: form.fields.length };
}

function blankOf({ found }: FormAt, at: AtLot): FormAnswer['blank'] {
  const { blank, how } = found;
  if (blank === undefined) return undefined;
  const pages = at.lot.editionContent([blank.edition.id])[blank.edition.id]?.pages ?? [];
  return {
    ...blankRow(blank),
    how,
    ticket: renditionTicket(blank.rendition, at),
    pages: pages.map(({ facts: { width, height } }) => ({ width, height })),
  };
}

/** The newest edition of the form's own paper that was filled by this mapping. */
export function lastFilled({ asked, kind, subject, id }: FormAt): Edition | undefined {
  const papers = asked.lot.papers.filter((paper) => paper.kind === kind && paper.subject === subject);
  return papers
    .flatMap(({ editions }) => editions)
    .findLast(({ filled, received }) => filled?.form === id && received <= asked.day);
}

function filledOf(given: FormAt): FormAnswer['filled'] {
  const edition = lastFilled(given);
  if (edition?.filled === undefined) return undefined;
  const changed = outOfDate(edition.filled, given.standpoint, given.subject);
  return {
    edition: edition.id,
    paper: edition.paper,
    outOfDate: changed.map(({ title, was, now }) => ({ title, was, now })),
  };
}

/** What a box can be filled from here: names, the lot's questions, and facts of the papers in the lot. */
function sourcesOf(practice: Practice, { asked }: FormAt): readonly SourceRow[] {
  const names: readonly SourceRow[] = [
    { is: 'owner', title: 'All owners, as printed' },
    { is: 'owner 1', title: 'The first owner' },
    { is: 'owner 2', title: 'The second owner' },
    { is: 'place', title: 'The place' },
    { is: 'parcel', title: 'The parcel number' },
  ];
  const questions = Object.values(practice.questions).map(({ id, ask }) => ({ is: `lot.${id}`, title: ask }));
  const kinds = new Set(asked.lot.papers.map(({ kind }) => kind));
  const papers = Object.values(practice.papers)
    .filter(({ id }) => kinds.has(id))
    .flatMap(({ id, title, facts }) => [
      { is: `${id}.number`, title: `${title}: number` },
      ...Object.values(facts).map((fact) => ({
        is: `${id}.${fact.id}`,
        title: `${title}: ${fact.title.toLowerCase()}`,
      })),
    ]);
  return [...names, ...questions, ...papers];
}

function counted(boxes: readonly FormBoxRow[]): FormAnswer['counts'] {
  const of = (...states: readonly FormBoxRow['state'][]): number =>
    boxes.filter(({ state }) => states.includes(state)).length;
  return { filled: of('filled'), troubled: of(...troubledStates), unmapped: of('unmapped'), byHand: of('by hand') };
}

/** An errand's form, box by box. Nothing is written. */
export const formFields = onLot(requests['form-fields'], async (wanted, at): Promise<FormAnswer> => {
  const given = await formAt(wanted, at);
  const { practice } = given.asked;
  const reading = await readingOf(given);
  const words = knownWords(practice);
  const boxes = reading.boxes.map((box) => boxRow(box, words));
  const counts = counted(boxes);
  const { title, flatten, wordedByLaw } = mappingOf(given);
  return {
    form: given.id,
    title,
    errand: given.errand.id,
    need: given.need.id,
    kind: given.kind,
    kindTitle: kindTitle(practice, given.kind),
    subject: given.subject,
    mapped: given.form !== undefined,
    basis: given.form?.basis,
    blank: blankOf(given, at),
    candidates: given.found.blank === undefined ? given.found.others.map(blankRow) : [],
    partsOfFiles: given.found.blank === undefined ? given.found.parts : [],
    flatten,
    wordedByLaw,
    boxes,
    counts,
    notes: reading.notes,
    filled: filledOf(given),
    sources: counts.unmapped > 0 ? sourcesOf(practice, given) : [],
    caution,
  };
});
