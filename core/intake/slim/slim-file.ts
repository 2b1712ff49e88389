import { copyFileSync, rmSync, statSync } from 'node:fs';
import { LotfileError } from '../../vocabulary/errors.ts';
import { fileHash } from '../file-hash.ts';
import { pageBytes } from '../page/page-bytes.ts';
import { type PageEntry, pagesOf } from '../page/page-tree.ts';
import { seenFrame } from '../page/seen-frame.ts';
import { fileSource } from '../pdfium/byte-source.ts';
import { openDocument } from '../pdfium/open-document.ts';
import { pictureTool } from '../recipe.ts';
import { drawnStreams } from '../redact/drawn-parts.ts';
import { entriesText } from '../redact/write-anew.ts';
import { refused } from '../refusals.ts';
import { RegularFile } from '../regular/regular-file.ts';
import { isDict, isRef } from '../regular/values.ts';
import { RegularWriter } from '../regular/write-file.ts';
import { valueText } from '../regular/write-value.ts';
import { judgeSlim } from './judge-slim.ts';
import { type Level, levels, type Pressed, press, pressedDict, type Shown } from './press.ts';
import { pressable } from './pressable.ts';
import { scannedPages } from './scanned-pages.ts';
import type { SlimDone, SlimJob, SlimPage } from './slim-model.ts';

/** Raised whenever the way of slimming changes what comes out. */
const slimRecipe = 1;
/** A guess from few pictures is trusted this far. */
const guessMargin = 1.03;
const guessFrom = 4;

type OnPage = (done: number, of: number) => Promise<void>;

interface Work {
  readonly job: SlimJob;
  readonly file: RegularFile;
  readonly pages: readonly PageEntry[];
  readonly scanned: ReadonlySet<number>;
  readonly onPage: OnPage;
}

/** Pictures that only scanned pages show, each with the largest of them; those of `sparing` pages are left out. */
function shownPictures({ file, pages, scanned }: Work, sparing: ReadonlySet<number>): readonly Shown[] {
  const spared = new Set<number>();
  const found = new Map<number, Shown>();
  for (const [index, page] of pages.entries()) {
    const numbers = drawnStreams(file, page);
    if (!scanned.has(index) || sparing.has(index)) {
      for (const number of numbers) spared.add(number);
      continue;
    }
    const size = seenFrame(file, page);
    for (const number of numbers) {
      const picture = pressable(file, number);
      const known = found.get(number);
      if (picture === undefined || (known !== undefined && known.page.width >= size.width)) continue;
      found.set(number, { picture, page: size });
    }
  }
  return [...found.values()].filter(({ picture }) => !spared.has(picture.number));
}

/** The first level that should fit, judged by the heaviest pictures. */
async function firstLevel({ job, file }: Work, shown: readonly Shown[], whole: number): Promise<number> {
  const weight = ({ picture }: Shown) => file.bytesOf(picture.number);
  const all = shown.reduce((sum, one) => sum + weight(one), 0);
  const heaviest = shown.toSorted((a, b) => weight(b) - weight(a)).slice(0, guessFrom);
  const before = heaviest.reduce((sum, one) => sum + weight(one), 0);
  for (const [index, level] of levels.entries()) {
    let after = 0;
    for (const one of heaviest) after += (await press(file, one, level))?.data.length ?? weight(one);
    if ((whole - all + (all * after) / Math.max(1, before)) * guessMargin <= job.most) return index;
  }
  return levels.length - 1;
}

/** Writes the file with its pictures pressed; every other object stays as it is, under its number. */
async function writeAt({ job, file, onPage }: Work, shown: readonly Shown[], level: Level): Promise<void> {
  const root = file.trailer.get('Root');
  if (!isRef(root)) throw new Error('The file has no catalog.');
  const byNumber = new Map(shown.map((one) => [one.picture.number, one]));
  const writer = new RegularWriter(job.output);
  let done = 0;
  try {
    for (let number = 1; number < file.size; number += 1) {
      const one = byNumber.get(number);
      const pressed: Pressed | undefined = one === undefined ? undefined : await press(file, one, level);
      if (one !== undefined) {
        done += 1;
        await onPage(Math.max(1, done), byNumber.size);
      }
      const { value, data } = file.entry(number);
      if (data === undefined) writer.add(valueText(value));
      else if (pressed !== undefined) writer.addStream(entriesText(pressedDict(file, number, pressed)), pressed.data);
      else
        writer.addStream(entriesText(isDict(value) ? value : new Map()), file.streamBytes(number) ?? Buffer.alloc(0));
    }
    writer.finish(root.ref, fileHash(job.input).slice(0, 32));
  } finally {
    writer.close();
  }
}

function pagesNow({ file, pages }: Work, output: string): readonly SlimPage[] {
  const before = pageBytes(file, pages);
  const source = fileSource(output);
  try {
    const slim = new RegularFile(source);
    const after = pageBytes(slim, pagesOf(slim));
    return before.map((bytes, page) => ({ page, before: bytes, after: after[page] ?? bytes }));
  } finally {
    source.close();
  }
}

/** One level, written and looked at; pages that lost too much keep their pictures. */
async function pressTo(work: Work, level: Level): Promise<ReadonlySet<number>> {
  const { job, onPage } = work;
  const sparing = new Set<number>();
  for (let round = 0; round < 2; round += 1) {
    await writeAt(work, shownPictures(work, sparing), level);
    const judged = await judgeSlim(job.input, job.output, onPage);
    if (!judged.ok) throw refused(job.name, `can't be made smaller: ${judged.why}.`);
    if (judged.worse.size === 0) return sparing;
    for (const page of judged.worse) sparing.add(page);
  }
  // What differs twice differs for another reason than its pictures: nothing is changed then.
  copyFileSync(job.input, job.output);
  return new Set(work.pages.keys());
}

function inMegabytes(bytes: number): string {
  return `${(bytes / 1_000_000).toFixed(1)} MB`;
}

interface Outcome {
  readonly level: Level | undefined;
  readonly spared: ReadonlySet<number>;
}

function doneOf(work: Work, { level, spared }: Outcome): SlimDone {
  const { job, scanned, pages } = work;
  const [before, after] = [statSync(job.input).size, statSync(job.output).size];
  const fits = after <= job.most;
  const kept = pages.length - [...scanned].filter((page) => !spared.has(page)).length;
  const notes = [`${inMegabytes(before)} became ${inMegabytes(after)}.`];
  if (kept > 0 && level !== undefined)
    notes.push(
      `${kept} of ${pages.length} pages were left as they are: drawings, text, or pictures that would have lost too much.`,
    );
  if (level !== undefined && level.dpi < 150)
    notes.push('Its pictures were pressed hard: look at the small print before you send it.');
  if (!fits)
    notes.push(
      `That is still more than ${inMegabytes(job.most)}: hand it in as several files, or ask the office for another way.`,
    );
  return {
    before,
    after,
    sha256: fileHash(job.output),
    fits,
    recipe:
      level === undefined
        ? `slim/${slimRecipe}: nothing pressed`
        : `slim/${slimRecipe}: pictures at ${level.dpi} dots an inch, JPEG ${level.quality}`,
    tool: pictureTool,
    pages: pagesNow(work, job.output),
    notes,
  };
}

async function slim(work: Work): Promise<SlimDone> {
  const { job } = work;
  const whole = statSync(job.input).size;
  const shown = shownPictures(work, new Set());
  if (whole <= job.most || shown.length === 0) {
    copyFileSync(job.input, job.output);
    return doneOf(work, { level: undefined, spared: new Set(work.pages.keys()) });
  }
  for (let index = await firstLevel(work, shown, whole); ; index += 1) {
    const level = levels[Math.min(index, levels.length - 1)];
    if (level === undefined) throw new Error('There is no way of pressing.');
    const spared = await pressTo(work, level);
    if (statSync(job.output).size <= job.most || index >= levels.length - 1) return doneOf(work, { level, spared });
  }
}

/**
 * Makes kept pages smaller for an office's or a mailbox's limit: pictures on scanned pages are encoded anew, just as
 * far as needed; drawings, text and sealed papers are never touched. Judged page by page by the independent reader.
 * @throws LotfileError `file refused` for a sealed paper, or where the smaller file fails the proof
 */
export async function slimFile(job: SlimJob, onPage: OnPage = async () => {}): Promise<SlimDone> {
  if (job.sealed) {
    throw refused(
      job.name,
      'carries a seal, which pressing would break.',
      'Hand it in as it is, or ask the office for another way.',
    );
  }
  const source = fileSource(job.input);
  try {
    const outcome = await openDocument(fileSource(job.input));
    if (!outcome.ok) throw refused(job.name, "can't be opened.");
    const scanned = scannedPages(outcome.document);
    outcome.document.close();
    const file = new RegularFile(source);
    const pages = pagesOf(file);
    await onPage(0, pages.length);
    return await slim({ job, file, pages, scanned, onPage });
  } catch (problem) {
    rmSync(job.output, { force: true });
    if (problem instanceof LotfileError) throw problem;
    throw refused(
      job.name,
      "can't be made smaller.",
      'Hand it in as several files, or ask the office for another way.',
    );
  } finally {
    source.close();
  }
}
