import { existsSync } from 'node:fs';
import { basename, dirname } from 'node:path';
import type { Database } from 'better-sqlite3';
import { bareRecipe } from '../../vocabulary/forms.ts';
import { newFolder, removeFile } from '../disk.ts';
import { Ledger } from '../ledger.ts';
import { hashText } from '../migrations.ts';
import { makeFolder, newTemporaryPath, originalFile, renameInto, renditionFile } from '../places.ts';
import { insertRendition, pagesOf, type RenditionRow } from '../renditions.ts';
import { storedJson } from '../stored-json.ts';
import { type BundledFile, badBundle } from './manifest.ts';
import type { OpenBundle } from './read-bundle.ts';

/** Content by hash: files, sound pages, practices, plans. It is only ever added, and what was purged here stays gone. */

export interface FileRow {
  readonly sha: string;
  readonly name: string;
  readonly ext: string;
  readonly bytes: number;
  readonly purged: number;
}

export interface NewContent {
  /** Rows of files that are new here; those purged there come without bytes. */
  readonly files: readonly FileRow[];
  readonly renditions: readonly RenditionRow[];
  /** Names of files that were removed for good on one side alone. */
  readonly purgedHere: readonly string[];
  readonly purgedThere: readonly string[];
}

const filesSql = 'SELECT sha, name, ext, bytes, purged FROM file';

export function newContent(mine: Database, theirs: Database): NewContent {
  const own = new Map(
    mine
      .prepare<[], FileRow>(filesSql)
      .all()
      .map((row) => [row.sha, row]),
  );
  const other = theirs.prepare<[], FileRow>(filesSql).all();
  const pages = new Set(mine.prepare<[], string>('SELECT sha FROM rendition').pluck().all());
  const both = other.flatMap((row) => {
    const here = own.get(row.sha);
    return here === undefined || here.purged === row.purged ? [] : [{ row, here }];
  });
  const gone = new Set(both.filter(({ here }) => here.purged === 1).map(({ row }) => row.sha));
  return {
    files: other.filter(({ sha }) => !own.has(sha)),
    renditions: theirs
      .prepare<[], RenditionRow>('SELECT * FROM rendition')
      .all()
      .filter(({ sha, source }) => !pages.has(sha) && !gone.has(source)),
    purgedHere: both.filter(({ here }) => here.purged === 1).map(({ row }) => row.name),
    purgedThere: both.filter(({ row }) => row.purged === 1).map(({ row }) => row.name),
  };
}

/** Files laid into the lot before any row names them; taken away again where the act fails. */
export class LaidFiles {
  readonly #ledger: Ledger;
  readonly #bundle: OpenBundle;
  readonly #listed: ReadonlyMap<string, BundledFile>;
  readonly #placed: string[] = [];
  readonly #about: string;

  constructor(ledger: Ledger, bundle: OpenBundle, about: string) {
    this.#ledger = ledger;
    this.#bundle = bundle;
    this.#about = about;
    this.#listed = new Map(bundle.manifest.files.map((file) => [file.path, file]));
  }

  /** @param sha256 what the bytes must be, whatever the bundle's own list says */
  async lay(path: string, to: string, sha256: string, signal?: AbortSignal): Promise<void> {
    if (existsSync(to)) return;
    const file = this.#listed.get(path);
    if (file === undefined) throw badBundle(`"${path}" is missing from it.`, this.#about);
    if (file.sha256 !== sha256) throw badBundle(`"${path}" in it changed on the disk before it was made.`, this.#about);
    const aside = newTemporaryPath(this.#ledger);
    try {
      await this.#bundle.extract(file, aside, signal);
      makeFolder(dirname(to));
      renameInto(aside, { folder: dirname(to), name: basename(to) });
      this.#placed.push(to);
    } finally {
      removeFile(aside);
      this.#ledger.issued.delete(aside);
    }
  }

  makeFolder(path: string): void {
    newFolder(path);
    this.#placed.push(path);
  }

  takeAway(): void {
    for (const path of this.#placed.toReversed()) removeFile(path, { recursive: true });
  }
}

/** Lays the bytes of what is new into originals/ and renditions/. */
export async function layContent(
  content: NewContent,
  laid: LaidFiles,
  given: { readonly folder: string; readonly signal?: AbortSignal | undefined },
): Promise<void> {
  for (const { sha, ext, purged } of content.files) {
    if (purged === 1) continue;
    const path = `originals/${sha.slice(0, 2)}/${sha}.${ext}`;
    await laid.lay(path, originalFile(given.folder, { sha, ext }), sha, given.signal);
  }
  for (const { sha, purged } of content.renditions) {
    if (purged === 1) continue;
    await laid.lay(`renditions/${sha.slice(0, 2)}/${sha}.pdf`, renditionFile(given.folder, sha), sha, given.signal);
  }
}

interface PracticeRow {
  readonly sha: string;
  readonly title: string;
  readonly json: string;
  readonly layers: string;
}

function addPractices(mine: Database, theirs: Database, about: string): void {
  const add = mine.prepare('INSERT OR IGNORE INTO practice (sha, title, json, layers) VALUES (?, ?, ?, ?)');
  for (const { sha, title, json, layers } of theirs.prepare<[], PracticeRow>('SELECT * FROM practice').iterate()) {
    if (hashText(`${json}\n${layers}`) !== sha) throw badBundle('a practice in it is not what it is called.', about);
    add.run(sha, title, json, layers);
  }
  const plan = mine.prepare('INSERT OR IGNORE INTO plan (sha, json) VALUES (?, ?)');
  const plans = theirs.prepare<[], { sha: string; json: string }>('SELECT sha, json FROM plan').iterate();
  for (const { sha, json } of plans) plan.run(sha, json);
}

/** Rows of the new content; inside the act, so that all of it or nothing is there. */
export function addContent(ledger: Ledger, theirs: Database, given: NewContent & { readonly about: string }): void {
  const { db } = ledger;
  const file = db.prepare('INSERT INTO file (sha, name, ext, bytes, purged) VALUES (?, ?, ?, ?, ?)');
  const marker = db.prepare('INSERT INTO purge (file, at, reason) VALUES (?, ?, ?)');
  const markers = theirs.prepare<[string], { at: string; reason: string }>(
    'SELECT at, reason FROM purge WHERE file = ?',
  );
  for (const row of given.files) {
    file.run(row.sha, row.name, row.ext, row.bytes, row.purged);
    for (const { at, reason } of markers.all(row.sha)) marker.run(row.sha, at, reason);
  }
  const other = new Ledger({ db: theirs, folder: ledger.folder, lease: undefined, now: ledger.now });
  const purge = db.prepare("UPDATE rendition SET purged = 1, notes = '[]', asked = '', seals = '[]' WHERE sha = ?");
  for (const row of given.renditions) {
    const { sha, source, tool, rung, asked, bytes } = row;
    // A bundle of an earlier version still says in the recipe of purged pages what a form was filled with.
    const recipe = row.purged === 1 ? bareRecipe(row.recipe) : row.recipe;
    const said = { notes: storedJson(row.notes), seals: storedJson(row.seals), sealed: row.sealed === 1 };
    const rendition = { source, recipe, tool, rung, asked, ...said, pages: pagesOf(other, sha) };
    insertRendition(ledger, { rendition, sha256: sha, bytes });
    if (row.purged === 1) purge.run(sha);
  }
  addPractices(db, theirs, given.about);
}
