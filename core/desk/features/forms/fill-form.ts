import { copyFile, rm } from 'node:fs/promises';
import { type FormReading, troubledStates } from '../../../forms/form-model.ts';
import { filledTexts } from '../../../forms/out-of-date.ts';
import { ownersOn } from '../../../packet/plan/identity.ts';
import { asciiName } from '../../../packet/plan/names.ts';
import { dayInWords } from '../../../vocabulary/days.ts';
import { LotfileError } from '../../../vocabulary/errors.ts';
import { type FilledWith, filledRecipe } from '../../../vocabulary/forms.ts';
import type { EditionLink, PageFacts } from '../../../vocabulary/lot.ts';
import { type AtLot, onLot } from '../../context.ts';
import type { FilledAnswer } from '../../contract/form-answers.ts';
import { requests } from '../../contract/requests.ts';
import { kindTitle } from '../../named.ts';
import { offerMade } from '../made-files.ts';
import { lastAct } from '../record-card.ts';
import { filledFacts } from './filled-facts.ts';
import type { Blank } from './find-blank.ts';
import { type FormAt, formAt, mappingOf, readingOf } from './form-case.ts';
import { lastFilled } from './form-fields.ts';

interface Filled {
  readonly given: FormAt;
  readonly blank: Blank;
  readonly reading: FormReading;
  /** The copy, in the lot's working folder. */
  readonly path: string;
  readonly name: string;
  readonly sha256: string;
  readonly recipe: string;
  readonly tool: string;
}

function mustBlank({ found, form, errand, id }: FormAt): Blank {
  if (form === undefined) {
    throw new LotfileError('not found', `Nobody has said yet what goes into the form "${id}".`, {
      about: id,
      next: `See its boxes (form-fields ${errand.id}), and say what fills them (map-form).`,
    });
  }
  if (found.blank !== undefined) return found.blank;
  const parts = found.parts.map(({ title }) => `"${title}"`).join(', ');
  const passed = parts === '' ? '' : ` Not looked at, for it is a part of its file only: ${parts}.`;
  throw new LotfileError('not found', `The blank of "${form.title}" was not found among the papers.${passed}`, {
    about: form.title,
    next: 'Keep the office’s own fillable PDF, as it came, as a file of its own; or name the paper that is it (blank).',
  });
}

/** What the boxes are filled with, for telling later what has changed. */
function filledWith(given: FormAt, { boxes }: FormReading): FilledWith {
  const read = new Map(boxes.map((box) => [box.field, box]));
  const texts = filledTexts(mappingOf(given), { at: given.standpoint, subject: given.subject });
  const kept = Object.entries(texts).filter(([field, text]) => {
    const state = read.get(field)?.state;
    return state === 'filled' || (text === '' && (state === 'empty' || state === 'left'));
  });
  const titles = kept.map(([field]) => [field, read.get(field)?.title ?? field] as const);
  return { form: given.id, values: Object.fromEntries(kept), titles: Object.fromEntries(titles) };
}

function titleOf({ asked, kind }: FormAt): string {
  return kindTitle(asked.practice, kind);
}

/** Makes the copy in a worker, which reads it back. */
async function make(given: FormAt, at: AtLot): Promise<Filled> {
  const blank = mustBlank(given);
  const reading = await readingOf(given);
  const writes = reading.boxes.flatMap(({ write }) => write ?? []);
  if (writes.length === 0) {
    throw new LotfileError('wrong use', `None of the boxes of "${titleOf(given)}" can be filled yet.`, {
      next: `See what is missing: form-fields ${given.errand.id}.`,
    });
  }
  const path = at.lot.temporaryPath();
  const workers = await at.workers();
  const { flatten } = mappingOf(given);
  const job = { job: 'fill form', input: at.lot.renditionPath(blank.rendition), name: blank.paper.title } as const;
  const done = await workers.fillForm({ ...job, output: path, writes, flatten }, { signal: at.signal });
  const name = `${asciiName(`${titleOf(given)} filled ${at.day}`)}.pdf`;
  return { given, blank, reading, path, name, sha256: done.sha256, recipe: done.recipe, tool: done.tool };
}

/** Values stand in boxes, which a page's own text leaves out: the search finds them all the same. */
function withValues(pages: readonly PageFacts[], { boxes }: FormReading) {
  return pages.map(({ page, text }) => {
    const values = boxes.flatMap(({ state, value, place }) =>
      state === 'filled' && value !== undefined && place?.page === page && !text.includes(value) ? [value] : [],
    );
    return { page, text: [text, ...values].join('\n') };
  });
}

/** The copy's own sound pages, with what it was filled with written into their recipe. */
async function keepPages({ path, name, given, reading, recipe, tool }: Filled, at: AtLot) {
  const { lot, signal } = at;
  const output = lot.temporaryPath();
  try {
    const workers = await at.workers();
    const kept = await workers.keep({ job: 'keep', input: path, name, output }, { signal, onProgress: at.progress });
    signal.throwIfAborted();
    const { sha256 } = await lot.takeInOriginal(path, name);
    const { rendition } = kept;
    const filled = filledRecipe(`${rendition.recipe}; ${recipe}`, filledWith(given, reading));
    await lot.keepRendition(output, {
      rendition: { ...rendition, source: sha256, recipe: filled, tool: `${rendition.tool}; ${tool}` },
      sha256: kept.sha256,
      bytes: kept.bytes,
    });
    lot.putPageTexts(kept.sha256, withValues(rendition.pages, reading));
    return { original: sha256, rendition: kept.sha256, notes: rendition.notes };
  } finally {
    await rm(output, { force: true });
  }
}

function linksOf({ given, blank }: Filled): readonly EditionLink[] {
  const before = lastFilled(given);
  return [
    { word: 'made from', to: blank.edition.id },
    ...(before === undefined ? [] : [{ word: 'replaces', to: before.id } as const]),
  ];
}

/**
 * The edition made of these very bytes, where it is there already and still the last one filled: an answer that came
 * back to what it was makes a new one, and so does one that was removed for good.
 */
function keptBefore({ given }: Filled, original: string, at: AtLot): { edition: string; paper: string } | undefined {
  const editions = given.asked.lot.papers
    .filter(({ kind, subject }) => kind === given.kind && subject === given.subject)
    .flatMap(({ editions: all }) => all);
  const contents = at.lot.editionContent(editions.map(({ id }) => id));
  const holds = (id: string) => contents[id]?.originals.some(({ sha256 }) => sha256 === original) === true;
  const found = editions.findLastIndex(({ id, readable }) => readable && holds(id));
  const last = editions.findIndex(({ id }) => id === lastFilled(given)?.id);
  const edition = found < last ? undefined : editions[found];
  return edition === undefined ? undefined : { edition: edition.id, paper: edition.paper };
}

interface Noted {
  readonly edition: string;
  readonly paper: string;
  readonly act?: string | undefined;
  readonly already: boolean;
  readonly notes: readonly string[];
}

async function keepCopy(filled: Filled, at: AtLot): Promise<Noted> {
  const { original, rendition, notes } = await keepPages(filled, at);
  const before = keptBefore(filled, original, at);
  if (before !== undefined) return { ...before, already: true, notes };
  const { given, reading } = filled;
  const { lot, day } = at;
  const title = titleOf(given);
  const kept = lot.act(`Filled ${title}`, () =>
    lot.keepEdition({
      kind: given.kind,
      title,
      subject: given.subject,
      parts: [{ rendition }],
      originals: [original],
      received: day,
      issuer: ownersOn(given.asked.lot, day) || undefined,
      facts: filledFacts(given, reading.boxes),
      links: linksOf(filled),
    }),
  );
  return { ...kept, act: lastAct(at), already: false, notes };
}

/** Boxes that stay empty and shouldn't, each in a sentence. */
function leftOpen({ boxes }: FormReading): readonly string[] {
  return boxes.filter(({ state }) => troubledStates.includes(state)).map(({ title, say = '' }) => `${title}: ${say}`);
}

/** Fills a copy of the office's own blank; with `look` only to be looked at, else kept for the packet. */
export const fillForm = onLot(requests['fill-form'], async ({ look, ...wanted }, at): Promise<FilledAnswer> => {
  const given = await formAt(wanted, at);
  const filled = await make(given, at);
  const { path, name, reading } = filled;
  const shown = at.lot.temporaryPath();
  try {
    await copyFile(path, shown);
    const noted = look ? undefined : await keepCopy(filled, at);
    const made = await offerMade({ path: shown, name, key: `form ${filled.sha256}` }, at);
    return {
      ...made,
      act: noted?.act,
      edition: noted?.edition,
      paper: noted?.paper,
      title: `${titleOf(given)}, filled ${dayInWords(at.day)}`,
      boxes: reading.boxes.filter(({ state }) => state === 'filled').length,
      already: noted?.already ?? false,
      left: leftOpen(reading),
      notes: [...reading.notes, ...(noted?.notes ?? [])],
    };
  } finally {
    await rm(path, { force: true });
    await rm(shown, { force: true });
  }
});
