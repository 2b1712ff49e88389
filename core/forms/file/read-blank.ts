import { readFile } from 'node:fs/promises';
import { PDFDict, PDFDocument, PDFName } from 'pdf-lib';
import { formFields } from '../../intake/form-fields.ts';
import { pagesOf } from '../../intake/page/page-tree.ts';
import { fileSource } from '../../intake/pdfium/byte-source.ts';
import { RegularFile } from '../../intake/regular/regular-file.ts';
import { type Dict, isList, nameOf } from '../../intake/regular/values.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import type { BlankField, BlankForm } from '../form-model.ts';
import { fieldFacts } from './field-facts.ts';
import { type FieldNode, formTree, textOf } from './form-tree.ts';

/** The job handed to the worker program: sound pages of a blank in, its boxes out. */
export interface ReadFormJob {
  readonly job: 'read form';
  /** Sound pages (a rendition), never a file as it came. */
  readonly input: string;
  readonly name: string;
}

export interface ReadFormDone {
  readonly blank: BlankForm;
}

/** Reading options that keep a file's objects as they are. */
export const asItIs = { parseSpeed: Number.POSITIVE_INFINITY, updateMetadata: false } as const;

/** Fields of one full name are one field: their places are counted together. */
function united(fields: readonly BlankField[]): readonly BlankField[] {
  const byName = new Map<string, BlankField>();
  for (const field of fields) {
    const known = byName.get(field.name);
    const options = [...(known?.options ?? []), ...field.options];
    const once = options.filter((one, n) => options.findIndex(({ value }) => value === one.value) === n);
    byName.set(
      field.name,
      known === undefined ? field : { ...known, options: once, places: [...known.places, ...field.places] },
    );
  }
  return [...byName.values()].filter(({ name, places }) => name !== '' && places.length > 0);
}

/** A page with a box that no list of fields need name. */
function hasBox(file: RegularFile, page: Dict): boolean {
  const annotations = file.resolve(page.get('Annots'));
  if (!isList(annotations)) return false;
  return annotations.some((item) => nameOf(file.resolve(file.dict(item).get('Subtype'))) === 'Widget');
}

/** A cheap look first: most papers have no box at all, and are not read whole. */
function glance(path: string): { readonly boxes: boolean; readonly xfa: boolean; readonly pages: number } {
  const source = fileSource(path);
  try {
    const file = new RegularFile(source);
    const form = file.dict(file.dict(file.trailer.get('Root')).get('AcroForm'));
    const pages = pagesOf(file);
    const boxes = formFields(file).length > 0 || pages.some(({ dict }) => hasBox(file, dict));
    return { boxes, xfa: form.has('XFA'), pages: pages.length };
  } finally {
    source.close();
  }
}

function isSigned({ inherited }: FieldNode): boolean {
  return textOf(inherited('FT')) === 'Sig' && inherited('V') instanceof PDFDict;
}

/** The boxes of an open document. */
export function blankOf(document: PDFDocument): BlankForm {
  const { form, fields } = formTree(document);
  const look = textOf(form?.lookup(PDFName.of('DA'))) ?? '';
  const pages = document.getPages();
  const facts = united(fields.flatMap((node) => fieldFacts(node, { pages, look }) ?? []));
  const xfa = form?.has(PDFName.of('XFA')) === true;
  return {
    fields: facts,
    pages: pages.length,
    xfa: xfa ? (facts.length === 0 ? 'only' : 'beside') : 'none',
    sealed: fields.some(isSigned),
  };
}

/**
 * Reads the boxes of a form off its sound pages.
 * @throws LotfileError `file refused` where they can't be read
 */
export async function readBlank({ input, name }: ReadFormJob): Promise<ReadFormDone> {
  try {
    const { boxes, xfa, pages } = glance(input);
    if (!boxes) return { blank: { fields: [], pages, xfa: xfa ? 'only' : 'none', sealed: false } };
    return { blank: blankOf(await PDFDocument.load(await readFile(input), asItIs)) };
  } catch (cause) {
    throw new LotfileError('file refused', `The boxes of "${name}" can't be read.`, {
      about: name,
      next: 'Ask the office for the form again, or fill it by hand.',
      cause,
    });
  }
}
