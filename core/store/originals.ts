import { createHash } from 'node:crypto';
import { createReadStream, statSync } from 'node:fs';
import { open } from 'node:fs/promises';
import { basename, dirname } from 'node:path';
import type { KeptFile } from '../packet/plan-model.ts';
import { LotfileError } from '../vocabulary/errors.ts';
import { aboutTo, removeFile } from './disk.ts';
import type { FileUse, TakenIn } from './keeping-model.ts';
import type { Ledger } from './ledger.ts';
import { makeFolder, newTemporaryPath, originalFile, renameInto, safeEnding } from './places.ts';
import { standsBehind } from './shared-pages.ts';
import { storedJson } from './stored-json.ts';
import { fileTrouble } from './trouble.ts';

interface FileRow {
  readonly sha: string;
  readonly name: string;
  readonly ext: string;
  readonly bytes: number;
  readonly purged: number;
}

function fileRow(ledger: Ledger, sha: string): FileRow | undefined {
  return ledger.db.prepare<[string], FileRow>('SELECT * FROM file WHERE sha = ?').get(sha);
}

/** Reads the person's file piece by piece, so that an error there is told about their file and not about the lot. */
async function* piecesOf(path: string, name: string): AsyncGenerator<Buffer> {
  try {
    for await (const piece of createReadStream(path, { highWaterMark: 1 << 20 })) yield piece;
  } catch (error) {
    throw fileTrouble(error, name, `Reading "${name}"`);
  }
}

/** Copies a person's file into a new file of the lot, forced to disk, hashed on the way. */
export async function copyHashing(
  from: { path: string; name: string },
  to: string,
): Promise<{ sha256: string; bytes: number }> {
  const hash = createHash('sha256');
  let bytes = 0;
  const out = await open(to, 'wx');
  try {
    for await (const piece of piecesOf(from.path, from.name)) {
      hash.update(piece);
      bytes += piece.length;
      aboutTo('write', to);
      await out.writeFile(piece);
    }
    aboutTo('sync', to);
    await out.sync();
  } finally {
    await out.close();
  }
  return { sha256: hash.digest('hex'), bytes };
}

export function sizeOnDisk(path: string): number | undefined {
  return statSync(path, { throwIfNoEntry: false })?.size;
}

/** Rename, then row: a crash in between leaves a whole file without a row, which taking it in again adopts. */
function settle(ledger: Ledger, copy: { temporary: string; sha256: string; bytes: number; name: string }): boolean {
  const row = fileRow(ledger, copy.sha256);
  const ext = row?.ext ?? safeEnding(copy.name);
  const target = originalFile(ledger.folder, { sha: copy.sha256, ext });
  const known = row !== undefined && row.purged === 0;
  if (known && sizeOnDisk(target) === copy.bytes) return true;
  makeFolder(dirname(target));
  renameInto(copy.temporary, { folder: dirname(target), name: basename(target) });
  ledger.keep(
    () =>
      ledger.db
        .prepare(
          `INSERT INTO file (sha, name, ext, bytes) VALUES (?, ?, ?, ?)
         ON CONFLICT (sha) DO UPDATE SET purged = 0, name = CASE purged WHEN 1 THEN excluded.name ELSE name END`,
        )
        .run(copy.sha256, copy.name, ext, copy.bytes),
    row === undefined ? 'new content' : 'shown',
  );
  return known;
}

/**
 * Copies a file into the lot under its hash: temporary name, fsync, rename, fsync of the folder, row.
 * A file that is in the lot already but lost or cut short on disk is put back.
 * @throws LotfileError `not found` or `file refused` about the person's file, `disk` about the lot's.
 */
export async function takeIn(ledger: Ledger, path: string, name: string): Promise<TakenIn> {
  if (statSync(path, { throwIfNoEntry: false })?.isDirectory() === true) {
    throw new LotfileError('file refused', `"${name}" is a folder.`, { about: name, next: 'Add the files in it.' });
  }
  ledger.mustWrite();
  const temporary = newTemporaryPath(ledger);
  try {
    const { sha256, bytes } = await copyHashing({ path, name }, temporary);
    if (bytes === 0) {
      throw new LotfileError('file refused', `"${name}" is empty.`, {
        about: name,
        next: 'Save or scan it again, then add it.',
      });
    }
    const already = settle(ledger, { temporary, sha256, bytes, name });
    return { sha256, bytes, already, editions: editionsOf(ledger, sha256) };
  } catch (error) {
    throw fileTrouble(error, name, `Keeping "${name}" in the lot`);
  } finally {
    removeFile(temporary);
    ledger.issued.delete(temporary);
  }
}

function editionsOf(ledger: Ledger, sha: string): readonly string[] {
  return ledger.db
    .prepare<[string], string>('SELECT DISTINCT edition FROM edition_original WHERE file = ? ORDER BY seq')
    .pluck()
    .all(sha);
}

/** Originals of exactly this size: the cheap question before a file is hashed to see whether it is kept. */
export function originalsOfSize(
  ledger: Ledger,
  bytes: number,
): readonly { readonly sha: string; readonly ext: string }[] {
  return ledger.db
    .prepare<[number], { sha: string; ext: string }>('SELECT sha, ext FROM file WHERE bytes = ? AND purged = 0')
    .all(bytes);
}

/** Every size an original has: most files that come in have none of them, and need no hashing to be new. */
export function originalSizes(ledger: Ledger): ReadonlySet<number> {
  return new Set(ledger.db.prepare<[], number>('SELECT DISTINCT bytes FROM file WHERE purged = 0').pluck().all());
}

/** The title of the paper that rests on these very bytes; the newest where there are several. */
export function paperOfFile(ledger: Ledger, sha: string): string | undefined {
  return ledger.db
    .prepare<[string], string>(
      `SELECT paper.title FROM edition_original JOIN edition ON edition.id = edition
       JOIN paper ON paper.id = edition.paper WHERE file = ? ORDER BY edition.seq DESC LIMIT 1`,
    )
    .pluck()
    .get(sha);
}

/** Which pages of a file which editions hold, newest first. */
export function usesOf(ledger: Ledger, sha: string): readonly FileUse[] {
  const rows = ledger.db
    .prepare<[string], { edition: string; title: string; pages: string; count: number }>(
      `SELECT edition.id AS edition, paper.title, p.pages,
         (SELECT count(*) FROM page WHERE page.rendition = p.rendition) AS count
       FROM file f, edition_part p JOIN rendition r ON r.sha = p.rendition
         JOIN edition ON edition.id = p.edition JOIN paper ON paper.id = edition.paper
       WHERE f.sha = ? AND ${standsBehind} ORDER BY edition.seq DESC, p.position`,
    )
    .all(sha);
  return rows.map(({ pages, ...row }) => ({ ...row, pages: storedJson(pages) }));
}

/** Originals that an act took the last paper of: nothing rests on them any more. */
export function originalsLeftBy(ledger: Ledger, act: number): readonly KeptFile[] {
  return ledger.db
    .prepare<[number], KeptFile>(
      `SELECT DISTINCT file.sha AS sha256, file.name, file.bytes FROM change JOIN file ON file.sha = before ->> 'file'
       WHERE act = ? AND tbl = 'edition_original' AND after IS NULL AND purged = 0
         AND NOT EXISTS (SELECT 1 FROM edition_original WHERE file = file.sha)
         AND NOT EXISTS (SELECT 1 FROM record WHERE record.file = file.sha)`,
    )
    .all(act);
}

/** @throws LotfileError `not found` where the lot never had it, or it was purged. */
export function mustFile(ledger: Ledger, sha: string): FileRow {
  const row = fileRow(ledger, sha);
  if (row === undefined || row.purged === 1) {
    throw new LotfileError(
      'not found',
      row === undefined ? 'This lot has no such file.' : `"${row.name}" was removed from this lot for good.`,
      { about: row?.name ?? sha, next: 'Add the file again.' },
    );
  }
  return row;
}

export function originalInfo(ledger: Ledger, sha: string): KeptFile {
  const row = mustFile(ledger, sha);
  return { sha256: row.sha, name: row.name, bytes: row.bytes };
}

export function pathOfOriginal(ledger: Ledger, sha: string): string {
  return originalFile(ledger.folder, mustFile(ledger, sha));
}
