import { readFile, writeFile } from 'node:fs/promises';
import type { BlankForm } from '../../../forms/form-model.ts';
import { type Recognised, recognise } from '../../../forms/recognise.ts';
import { LotfileError } from '../../../vocabulary/errors.ts';
import type { FormRule } from '../../../vocabulary/forms.ts';
import type { Need } from '../../../vocabulary/practice.ts';
import { blankForm } from '../../../workers/form-messages.ts';
import type { AtLot } from '../../context.ts';
import { editionNamed, type NamedEdition } from '../../named.ts';
import { askedOf } from '../asked.ts';

/** A kept paper with boxes: its sound pages in one file. */
export interface Blank extends NamedEdition {
  readonly original: string;
  readonly rendition: string;
  readonly form: BlankForm;
}

export interface FoundBlank {
  readonly blank: Blank | undefined;
  readonly how: Exclude<Recognised, 'no'> | 'named';
  /** Kept papers with boxes that are not known to be this form. */
  readonly others: readonly Blank[];
  /** Papers that were passed over: each is only a part of its file. */
  readonly parts: readonly { readonly paper: string; readonly title: string }[];
}

/** More papers without a kind than this are not looked through for a blank. */
const mostLooked = 60;
/** A copy with more of its boxes filled than this is no blank. */
const mostFilled = 0.3;

/**
 * Boxes are read once for each rendition of a file: one that was cleaned up or blacked out has others. The number is
 * raised when what is read of them changes.
 */
function remembered(rendition: string): string {
  return `boxes-2-${rendition.slice(0, 16)}.json`;
}

/**
 * The file that is the paper, whole and in its own order. Pages of it alone are no blank: filling takes the whole file,
 * and what else stands in it would go along to the office.
 */
function wholeFile({ edition }: NamedEdition, { lot }: AtLot) {
  const content = lot.editionContent([edition.id])[edition.id];
  const [first] = content?.pages ?? [];
  const file = (content?.originals ?? [])
    .flatMap(({ sha256 }) => lot.renditionsOf(sha256))
    .find(({ sha256 }) => sha256 === first?.rendition);
  if (content === undefined || file === undefined || file.pages.length !== content.pages.length) return undefined;
  const whole = content.pages.every(
    ({ rendition, facts }, n) => rendition === file.sha256 && facts.page === file.pages[n]?.page,
  );
  return whole ? { original: file.source, rendition: file.sha256 } : undefined;
}

async function boxesOf(entry: NamedEdition, at: AtLot): Promise<Blank | undefined> {
  const { lot, signal } = at;
  const file = wholeFile(entry, at);
  if (file === undefined) return undefined;
  const { original, rendition } = file;
  const ending = remembered(rendition);
  const known = lot.cachedPath(original, ending);
  const before = known === undefined ? undefined : blankForm.safeParse(JSON.parse(await readFile(known, 'utf8')));
  if (before?.success === true) return { ...entry, ...file, form: before.data };
  const workers = await at.workers();
  const job = { job: 'read form', input: lot.renditionPath(rendition), name: entry.paper.title } as const;
  const { blank } = await workers.readForm(job, { signal });
  if (!lot.readOnly) {
    const path = lot.temporaryPath();
    await writeFile(path, JSON.stringify(blank));
    lot.keepCached(path, { sha: original, ending });
  }
  return { ...entry, ...file, form: blank };
}

function isEmpty({ form }: Blank): boolean {
  const boxes = form.fields.filter(({ sort, readOnly }) => sort === 'text' && !readOnly);
  return boxes.filter(({ value }) => value !== undefined).length <= boxes.length * mostFilled;
}

/** Papers no rule knows, and those kept under the form's own kind: newest first, likely titles before others. */
function lookThrough(need: Need, at: AtLot): readonly NamedEdition[] {
  const { lot: view, day } = askedOf(at);
  const likely = ({ paper }: NamedEdition): number => (/\b(blank|form|application)\b/i.test(paper.title) ? 0 : 1);
  return view.papers
    .filter(({ kind }) => kind === 'other' || need.kinds.includes(kind))
    .flatMap((paper) => paper.editions.map((edition) => ({ paper, edition })))
    .filter(
      ({ edition }) => edition.filled === undefined && edition.pages > 0 && !edition.sealed && edition.received <= day,
    )
    .toReversed()
    .toSorted((a, b) => likely(a) - likely(b))
    .slice(0, mostLooked);
}

/** The blank the person named. */
async function namedBlank(said: string, at: AtLot): Promise<FoundBlank> {
  const entry = editionNamed({ view: at.lot.view(), practice: at.lot.practice(), day: at.day }, said);
  if (entry.edition.pages > 0 && wholeFile(entry, at) === undefined) {
    throw new LotfileError('wrong use', `"${said}" is only a part of its file, or of several files.`, {
      about: said,
      next: 'Keep the form as a file of its own: filling takes the whole file, and all its pages would go along.',
    });
  }
  const blank = await boxesOf(entry, at);
  if (blank === undefined || blank.form.fields.length === 0) {
    const xfa = blank?.form.xfa === 'only';
    throw new LotfileError(
      'wrong use',
      xfa ? `"${said}" is a form that only its own program can show (XFA).` : `"${said}" has no boxes to fill.`,
      {
        about: said,
        next: xfa
          ? 'Ask the office for it as an ordinary PDF, or fill it in that program and keep the print.'
          : 'Fill it by hand, or ask the office for a fillable one.',
      },
    );
  }
  return { blank, how: 'named', others: [], parts: [] };
}

/**
 * Finds an office's blank among the kept papers: by the hash or the boxes its mapping names, or as another issue of it.
 * A copy that somebody filled already is never taken for the blank.
 */
export async function findBlank(
  wanted: { readonly need: Need; readonly form: FormRule | undefined; readonly said?: string | undefined },
  at: AtLot,
): Promise<FoundBlank> {
  if (wanted.said !== undefined) return namedBlank(wanted.said, at);
  const others: Blank[] = [];
  const parts: { paper: string; title: string }[] = [];
  let near: Blank | undefined;
  for (const entry of lookThrough(wanted.need, at)) {
    at.signal.throwIfAborted();
    const blank = await boxesOf(entry, at);
    if (blank === undefined) parts.push({ paper: entry.paper.id, title: entry.paper.title });
    if (blank === undefined || blank.form.fields.length === 0 || !isEmpty(blank)) continue;
    const how = wanted.form === undefined ? 'no' : recognise(wanted.form, blank.form, blank.original);
    if (how === 'this very file' || how === 'its boxes') return { blank, how, others: [], parts: [] };
    if (how === 'another issue') near ??= blank;
    others.push(blank);
  }
  return { blank: near, how: 'another issue', others: others.filter((one) => one !== near), parts };
}
