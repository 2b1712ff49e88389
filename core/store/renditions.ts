import { statSync } from 'node:fs';
import { basename, dirname, join, relative } from 'node:path';
import type { Database } from 'better-sqlite3';
import { LotfileError } from '../vocabulary/errors.ts';
import type { PageFacts } from '../vocabulary/lot.ts';
import { sheetNameOf } from '../vocabulary/sheets.ts';
import { removeFile, syncFile } from './disk.ts';
import type { KeptRendition, NewRendition, PageWords } from './keeping-model.ts';
import type { Ledger } from './ledger.ts';
import { onceEach } from './once-each.ts';
import { mustFile } from './originals.ts';
import { hashFile, makeFolder, renameInto, renditionFile } from './places.ts';
import { indexPage } from './search-index.ts';
import { storedJson } from './stored-json.ts';
import { fileTrouble } from './trouble.ts';

export interface RenditionRow {
  readonly sha: string;
  readonly source: string;
  readonly recipe: string;
  readonly tool: string;
  readonly rung: string;
  readonly sealed: number;
  readonly notes: string;
  readonly asked: string;
  readonly seals: string;
  readonly bytes: number;
  readonly purged: number;
}

interface PageRow {
  readonly page: number;
  readonly width: number;
  readonly height: number;
  readonly clear_strips: string;
  readonly open_saves: number;
  readonly extra_restores: number;
  readonly bytes: number;
  readonly text: string;
}

function readsOf(db: Database) {
  return {
    row: db.prepare<[string], RenditionRow>('SELECT * FROM rendition WHERE sha = ?'),
    pages: db.prepare<[string], PageRow>(
      'SELECT page.*, text FROM page JOIN page_text USING (seq) WHERE rendition = ? ORDER BY page',
    ),
    wordless: db.prepare<[string], PageRow>(`SELECT page.*, '' AS text FROM page WHERE rendition = ? ORDER BY page`),
  };
}

/** A plan asks for hundreds of renditions at once: their statements are prepared once per database. */
const reads = onceEach(readsOf);

export function renditionRow({ db }: Ledger, sha: string): RenditionRow | undefined {
  return reads(db).row.get(sha);
}

/** Pages of a rendition by their number. */
export function pagesOf({ db }: Ledger, sha: string, words: PageWords = 'with words'): readonly PageFacts[] {
  const { pages, wordless } = reads(db);
  const rows = (words === 'with words' ? pages : wordless).all(sha);
  return rows.map((row) => ({
    page: row.page,
    width: row.width,
    height: row.height,
    clearStrips: storedJson(row.clear_strips),
    openSaves: row.open_saves,
    extraRestores: row.extra_restores,
    bytes: row.bytes,
    text: row.text,
  }));
}

function insertPages(ledger: Ledger, sha: string, pages: readonly PageFacts[]): void {
  const insert = ledger.db.prepare(
    `INSERT INTO page (rendition, page, width, height, sheet, clear_strips, open_saves, extra_restores, bytes)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)`,
  );
  const insertText = ledger.db.prepare('INSERT INTO page_text (seq, text) VALUES (?, ?)');
  for (const page of pages) {
    const sheet = sheetNameOf(page.width, page.height) ?? 'other';
    const strips = JSON.stringify(page.clearStrips);
    const { width, height, openSaves, extraRestores, bytes } = page;
    // Unpaired surrogates (garbage fonts) can't be stored as UTF-8 and would come back changed.
    const text = page.text.toWellFormed();
    const added = insert.run(sha, page.page, width, height, sheet, strips, openSaves, extraRestores, bytes);
    insertText.run(added.lastInsertRowid, text);
    indexPage(ledger.db, Number(added.lastInsertRowid), text);
  }
}

/**
 * Words read off pages that had none of their own take their place in the search; pages read better before keep theirs.
 * @param texts by the page's number in the rendition, 0-based.
 */
export function putPageTexts(
  ledger: Ledger,
  sha: string,
  texts: readonly { readonly page: number; readonly text: string }[],
): void {
  const find = ledger.db.prepare<[string, number], { seq: number; text: string }>(
    'SELECT page.seq, text FROM page JOIN page_text USING (seq) WHERE rendition = ? AND page = ?',
  );
  const write = ledger.db.prepare('UPDATE page_text SET text = ? WHERE seq = ?');
  const forget = ledger.db.prepare('DELETE FROM page_words WHERE rowid = ?');
  ledger.keep(() => {
    for (const { page, text } of texts) {
      const row = find.get(sha, page);
      const read = text.toWellFormed();
      if (row === undefined || read.length <= row.text.length) continue;
      write.run(read, row.seq);
      forget.run(row.seq);
      indexPage(ledger.db, row.seq, read);
    }
  });
}

/** Rows of sound pages whose file lies in place: pages, their words, their search. */
export function insertRendition(
  ledger: Ledger,
  kept: { rendition: NewRendition; sha256: string; bytes: number },
): void {
  const { rendition, sha256, bytes } = kept;
  ledger.db
    .prepare(
      `INSERT INTO rendition (sha, source, recipe, tool, rung, sealed, notes, asked, seals, bytes)
       VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)
       ON CONFLICT (sha) DO UPDATE SET purged = 0, recipe = excluded.recipe, sealed = excluded.sealed,
         notes = excluded.notes, asked = excluded.asked, seals = excluded.seals`,
    )
    .run(
      sha256,
      rendition.source,
      rendition.recipe,
      rendition.tool,
      rendition.rung,
      Number(rendition.sealed),
      JSON.stringify(rendition.notes),
      rendition.asked ?? '',
      JSON.stringify(rendition.seals ?? []),
      bytes,
    );
  insertPages(ledger, sha256, rendition.pages);
}

/** The same bytes came of the file itself, too: told as its own pages, with what is noted on those. */
function makePlain(
  { db }: Ledger,
  { rendition, sha256 }: { readonly rendition: NewRendition; readonly sha256: string },
): void {
  const { recipe, notes, seals = [] } = rendition;
  db.prepare("UPDATE rendition SET asked = '', recipe = ?, notes = ?, seals = ? WHERE sha = ?").run(
    recipe,
    JSON.stringify(notes),
    JSON.stringify(seals),
    sha256,
  );
}

/**
 * Moves sound pages from the working folder into renditions/ under their hash and records what was measured on them.
 * @throws LotfileError `internal` where the bytes are not those the worker reported, `not found` for an unknown source.
 */
export async function keep(
  ledger: Ledger,
  temporary: string,
  kept: { rendition: NewRendition; sha256: string; bytes: number },
): Promise<void> {
  const source = mustFile(ledger, kept.rendition.source);
  if (relative(join(ledger.folder, 'working'), temporary).startsWith('..')) {
    throw new LotfileError('internal', 'Finished pages must wait in the working folder.', { about: source.name });
  }
  try {
    const found = await hashFile(temporary);
    if (found.sha256 !== kept.sha256 || found.bytes !== kept.bytes) {
      throw new LotfileError('internal', `The pages made from "${source.name}" changed on their way into the lot.`, {
        about: source.name,
        next: 'Add the file again.',
      });
    }
    const row = renditionRow(ledger, kept.sha256);
    const target = renditionFile(ledger.folder, kept.sha256);
    const known = row !== undefined && row.purged === 0;
    // A clean-up that found nothing to mend leaves the file's own pages: they are those from now on.
    if (known && row.asked !== '' && (kept.rendition.asked ?? '') === '') ledger.keep(() => makePlain(ledger, kept));
    if (known && statSync(target, { throwIfNoEntry: false })?.size === kept.bytes) return;
    syncFile(temporary);
    makeFolder(dirname(target));
    renameInto(temporary, { folder: dirname(target), name: basename(target) });
    if (!known) ledger.keep(() => insertRendition(ledger, kept), row === undefined ? 'new content' : 'shown');
  } catch (error) {
    throw fileTrouble(error, source.name, `Keeping the pages of "${source.name}"`);
  } finally {
    removeFile(temporary);
    ledger.issued.delete(temporary);
  }
}

export function renditionsOf(ledger: Ledger, original: string): readonly KeptRendition[] {
  const rows = ledger.db
    .prepare<[string], RenditionRow>('SELECT * FROM rendition WHERE source = ? AND purged = 0 ORDER BY rowid DESC')
    .all(original);
  return rows.map((row) => ({
    sha256: row.sha,
    bytes: row.bytes,
    source: row.source,
    recipe: row.recipe,
    tool: row.tool,
    rung: row.rung,
    sealed: row.sealed === 1,
    notes: storedJson(row.notes),
    asked: row.asked,
    seals: storedJson(row.seals),
    pages: pagesOf(ledger, row.sha),
  }));
}

export function pathOfRendition(ledger: Ledger, sha: string): string {
  const row = renditionRow(ledger, sha);
  if (row === undefined || row.purged === 1) {
    throw new LotfileError('not found', 'This lot has no such pages.', {
      about: sha,
      next: 'Add the file they were made from again.',
    });
  }
  return renditionFile(ledger.folder, sha);
}
