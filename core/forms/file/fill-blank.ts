import { readFile, rm, stat, writeFile } from 'node:fs/promises';
import { type PDFDict, PDFDocument, PDFName, PDFString } from 'pdf-lib';
import { fileHash } from '../../intake/file-hash.ts';
import { formTool } from '../../intake/recipe.ts';
import { features, sheetEngine } from '../../packet/sheets/encode-text.ts';
import { loadFonts } from '../../packet/sheets/fonts.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import type { BlankField, FieldWrite } from '../form-model.ts';
import { defaultLook } from './field-facts.ts';
import { flattenForm } from './flatten.ts';
import { arrayAt, dictAt, formTree, numberOf, textOf } from './form-tree.ts';
import { readBack } from './read-back.ts';
import { asItIs, blankOf } from './read-blank.ts';
import { drawLooksLeftOpen, type Filling, writeField } from './write-fields.ts';

/** Raised whenever the way of filling changes what comes out. */
export const fillNumber = 1;

/** The job handed to the worker program: sound pages of a blank and values in, a filled copy out. */
export interface FillFormJob {
  readonly job: 'fill form';
  /** Sound pages (a rendition), never a file as it came. */
  readonly input: string;
  readonly name: string;
  readonly output: string;
  readonly writes: readonly FieldWrite[];
  /** Boxes become part of the page. */
  readonly flatten: boolean;
}

export interface FillFormDone {
  readonly filled: number;
  readonly sha256: string;
  readonly bytes: number;
  /** "fill/1", with what made it. */
  readonly recipe: string;
  readonly tool: string;
}

const key = (name: string): PDFName => PDFName.of(name);

function refused(
  name: string,
  say: string,
  next = 'Fill it by hand, or ask the office for the form again.',
): LotfileError {
  return new LotfileError('file refused', `"${name}" ${say}`, { about: name, next });
}

/** A font that boxes name and the form's resources lack is put there (ISO 32000-1, 12.7.2: DR, DA). */
function mendFonts(form: PDFDict, looks: readonly string[], document: PDFDocument): void {
  const { context } = document;
  const resources = dictAt(form, 'DR') ?? context.obj({});
  const fonts = dictAt(resources, 'Font') ?? context.obj({});
  if (!form.has(key('DA'))) form.set(key('DA'), PDFString.of('/Helv 0 Tf 0 g'));
  for (const look of looks) {
    const { font } = defaultLook(look);
    if (fonts.has(key(font))) continue;
    const plain = { Type: 'Font', Subtype: 'Type1', BaseFont: 'Helvetica', Encoding: 'WinAnsiEncoding' };
    fonts.set(key(font), context.register(context.obj(plain)));
  }
  resources.set(key('Font'), fonts);
  form.set(key('DR'), resources);
}

/** What another program's half of the form, or its maker's rights, would say against the values. */
function dropWhatContradicts(document: PDFDocument, form: PDFDict): void {
  form.delete(key('XFA'));
  form.delete(key('NeedAppearances'));
  document.catalog.delete(key('NeedsRendering'));
  document.catalog.delete(key('Perms'));
}

async function openFilling(document: PDFDocument): Promise<Filling> {
  const metrics = await loadFonts();
  document.registerFontkit(sheetEngine);
  const font = await document.embedFont(metrics.bytesOf('text'), { subset: true, features });
  const known = dictAt(document.catalog, 'AcroForm');
  const form = known ?? document.context.obj({ Fields: [] });
  if (known === undefined) document.catalog.set(key('AcroForm'), document.context.register(form));
  return { document, form, pen: { context: document.context, font, metrics } };
}

/** Writes every value; the number of fields, each name once. */
function writeAll(filling: Filling, { writes, name }: FillFormJob): number {
  const tree = formTree(filling.document);
  const fields = arrayAt(filling.form, 'Fields') ?? filling.document.context.obj([]);
  for (const ref of tree.stray) fields.push(ref);
  filling.form.set(key('Fields'), fields);
  drawLooksLeftOpen(tree.fields, filling);
  for (const write of writes) {
    const nodes = tree.fields.filter((node) => node.name === write.field);
    if (nodes.length === 0 || !nodes.every((node) => writeField(node, write, filling))) {
      throw refused(name, `could not be filled: the box "${write.field}" doesn't take its value.`);
    }
  }
  const looks = tree.fields.flatMap((node) => textOf(node.inherited('DA')) ?? []);
  mendFonts(filling.form, [textOf(filling.form.lookup(key('DA'))) ?? '/Helv 0 Tf 0 g', ...looks], filling.document);
  dropWhatContradicts(filling.document, filling.form);
  return writes.length;
}

interface Written {
  readonly filled: number;
  readonly fields: readonly BlankField[];
  readonly units: readonly number[];
}

async function writeCopy(job: FillFormJob): Promise<Written> {
  const document = await PDFDocument.load(await readFile(job.input), asItIs);
  const blank = blankOf(document);
  if (blank.sealed) {
    throw refused(
      job.name,
      'is digitally signed, and filling it would break the signature.',
      'Ask the office for a blank that nobody signed.',
    );
  }
  const units = document.getPages().map(({ node }) => numberOf(node.lookup(key('UserUnit'))) ?? 1);
  const filling = await openFilling(document);
  const filled = writeAll(filling, job);
  if (job.flatten) flattenForm(document);
  const bytes = await document.save({
    useObjectStreams: false,
    objectsPerTick: Number.POSITIVE_INFINITY,
    addDefaultPage: false,
  });
  await writeFile(job.output, bytes);
  return { filled, fields: blank.fields, units };
}

/**
 * Fills a copy of a blank: values and looks, nothing else of its pages changes; then another reader looks whether each
 * value shows. The same blank and values give the same bytes.
 * @throws LotfileError `file refused`; nothing stands at `output` then
 */
export async function fillBlank(job: FillFormJob): Promise<FillFormDone> {
  try {
    const { filled, fields, units } = await writeCopy(job);
    const wrong = await readBack({ blank: job.input, filled: job.output, fields, writes: job.writes, units });
    if (wrong.length > 0) throw refused(job.name, `could not be filled: ${wrong.slice(0, 3).join('; ')}.`);
    return {
      filled,
      sha256: fileHash(job.output),
      bytes: (await stat(job.output)).size,
      recipe: `fill/${fillNumber}: ${job.flatten ? 'values made part of the page' : 'boxes left fillable'}`,
      tool: formTool,
    };
  } catch (problem) {
    await rm(job.output, { force: true });
    if (problem instanceof LotfileError) throw problem;
    throw new LotfileError('file refused', `"${job.name}" could not be filled.`, {
      about: job.name,
      next: 'Fill it by hand, or ask the office for the form again.',
      cause: problem,
    });
  }
}
