import { existsSync, lstatSync, readdirSync, type Stats, statSync, utimesSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import type { KeptFile } from '../packet/plan-model.ts';
import { LotfileError } from '../vocabulary/errors.ts';
import { removeFile } from './disk.ts';
import { moveInto, plainName } from './free-name.ts';
import type { ActId, LaidFile, TableFile } from './keeping-model.ts';
import type { Ledger } from './ledger.ts';
import { onceEach } from './once-each.ts';
import {
  copyHashing,
  originalSizes,
  originalsLeftBy,
  originalsOfSize,
  paperOfFile,
  pathOfOriginal,
  sizeOnDisk,
} from './originals.ts';
import { hashFile, makeFolder, newTemporaryPath, originalFile } from './places.ts';
import { fileTrouble } from './trouble.ts';

/** What came in and is not kept yet lies in table/ as plain files: other programs may put some there too. */

const aside = 'put-aside';

/** Written to within this long: somebody may still be at it. */
const settledAfterMs = 2000;

/** Empty for this long it won't grow any more: browsers keep the place of a download with an empty file. */
const emptyAfterMs = 60_000;

/** Names that browsers and copying programs give to files they have not finished. */
const unfinishedName = /\.(part|crdownload|download|partial|tmp)$|~$|^~\$/i;

/** Files that systems scatter in folders. */
const notOurs = /^(\.|thumbs\.db$|desktop\.ini$)/i;

interface Hashed {
  readonly bytes: number;
  readonly changed: number;
  readonly sha256: string;
}

/** Hashes found in this run, by name; good for as long as size and time are those they were found at. */
const hashesOf = onceEach((_ledger: Ledger) => new Map<string, Hashed>());

export function tableFolder(ledger: Ledger): string {
  return join(ledger.folder, 'table');
}

function changedAt(stat: Stats): number {
  return Math.max(stat.mtimeMs, stat.ctimeMs);
}

function knownHash(ledger: Ledger, name: string, stat: Stats): string | undefined {
  const known = hashesOf(ledger).get(name);
  return known?.bytes === stat.size && known.changed === changedAt(stat) ? known.sha256 : undefined;
}

interface Seen {
  readonly bytes: number;
  /** When its size was last seen to change; undefined where it never was. */
  readonly grew?: number | undefined;
}

const sightings = onceEach((_ledger: Ledger) => new Map<string, Seen>());

/** Programs that set a file's time themselves give themselves away by its size. */
function grewLately(ledger: Ledger, name: string, bytes: number): boolean {
  const seen = sightings(ledger);
  const now = ledger.now().getTime();
  const before = seen.get(name);
  const grew = before === undefined || before.bytes === bytes ? before?.grew : now;
  seen.set(name, { bytes, grew });
  return grew !== undefined && now - grew < settledAfterMs;
}

/** An empty file a download will take the place of, not one that came empty. */
function isPlaceholder(ledger: Ledger, name: string, stat: Stats): boolean {
  if (existsSync(join(tableFolder(ledger), `${name}.part`))) return true;
  return Math.abs(ledger.now().getTime() - changedAt(stat)) < emptyAfterMs;
}

/** What we laid down ourselves is whole; anything else must have been left alone for a little. */
function isArriving(ledger: Ledger, name: string, stat: Stats): boolean {
  const grew = grewLately(ledger, name, stat.size);
  if (unfinishedName.test(name)) return true;
  if (stat.size === 0) return isPlaceholder(ledger, name, stat);
  if (knownHash(ledger, name, stat) !== undefined) return false;
  return grew || Math.abs(ledger.now().getTime() - stat.mtimeMs) < settledAfterMs;
}

function fileAt(ledger: Ledger, name: string): TableFile | undefined {
  const path = join(tableFolder(ledger), name);
  // A link is not followed: in a lot from a stranger it could lead to any file of this person's.
  const stat = lstatSync(path, { throwIfNoEntry: false });
  if (stat === undefined || !stat.isFile()) return undefined;
  const since = new Date(stat.birthtimeMs > 0 ? stat.birthtimeMs : stat.ctimeMs).toISOString();
  const arriving = isArriving(ledger, name, stat);
  return { name, path, bytes: stat.size, since, changed: changedAt(stat), arriving };
}

/** The item of the table a path stands for; undefined where it is no file of the table. */
export function tableFileAt(ledger: Ledger, path: string): TableFile | undefined {
  return resolve(dirname(path)) === tableFolder(ledger) ? fileAt(ledger, basename(path)) : undefined;
}

/** The hash of a file on the table; read only once for as long as nothing touches it. */
async function hashOf(ledger: Ledger, file: TableFile): Promise<string | undefined> {
  const stat = statSync(file.path, { throwIfNoEntry: false });
  if (stat === undefined) return undefined;
  const known = knownHash(ledger, file.name, stat);
  if (known !== undefined) return known;
  const { sha256, bytes } = await hashFile(file.path);
  if (bytes === stat.size) hashesOf(ledger).set(file.name, { bytes, changed: changedAt(stat), sha256 });
  return sha256;
}

/** The hash of a file on the table by its name; undefined where it is gone. */
export async function tableHash(ledger: Ledger, name: string): Promise<string | undefined> {
  const file = fileAt(ledger, name);
  return file === undefined ? undefined : hashOf(ledger, file);
}

/** The title of the paper that holds these very bytes. Only a file as large as some original is read at all. */
async function keptAs(ledger: Ledger, file: TableFile, sizes: ReadonlySet<number>): Promise<string | undefined> {
  if (file.arriving || !sizes.has(file.bytes)) return undefined;
  const sha256 = await hashOf(ledger, file);
  return sha256 === undefined ? undefined : paperOfFile(ledger, sha256);
}

/** Everything on the table, oldest first. */
export async function listTable(ledger: Ledger): Promise<readonly TableFile[]> {
  try {
    const names = readdirSync(tableFolder(ledger)).filter((name) => !notOurs.test(name));
    const files = names.flatMap((name) => fileAt(ledger, name) ?? []);
    const sizes = originalSizes(ledger);
    const told: TableFile[] = [];
    for (const file of files) told.push({ ...file, already: await keptAs(ledger, file, sizes) });
    return told.toSorted((a, b) => (a.since < b.since ? -1 : a.since > b.since ? 1 : a.name < b.name ? -1 : 1));
  } catch (error) {
    throw fileTrouble(error, 'table', 'Reading the table');
  }
}

function refuse(name: string, why: string, next: string): LotfileError {
  return new LotfileError('file refused', `"${name}" ${why}.`, { about: name, next });
}

/**
 * Lays a copy of a file on the table: temporary name, fsync, rename. A file that lies there already stays as it is.
 * @throws LotfileError `not found` or `file refused` about the person's file, `disk` about the lot's.
 */
export async function layOn(ledger: Ledger, path: string, name: string): Promise<LaidFile> {
  ledger.mustWrite();
  const there = tableFileAt(ledger, path);
  if (there !== undefined) {
    const sha256 = (await hashOf(ledger, there)) ?? '';
    return { name: there.name, bytes: there.bytes, sha256, already: paperOfFile(ledger, sha256) };
  }
  if (statSync(path, { throwIfNoEntry: false })?.isDirectory() === true) {
    throw refuse(name, 'is a folder', 'Add the files in it.');
  }
  const temporary = newTemporaryPath(ledger);
  try {
    const { sha256, bytes } = await copyHashing({ path, name }, temporary);
    if (bytes === 0) throw refuse(name, 'is empty', 'Save or scan it again, then add it.');
    const folder = tableFolder(ledger);
    makeFolder(folder);
    // The person's own date of the file: no other program takes it for one that is still being written.
    const { atime, mtime } = statSync(path);
    utimesSync(temporary, atime, mtime);
    const laid = moveInto(temporary, folder, plainName(name));
    const stat = statSync(join(folder, laid));
    hashesOf(ledger).set(laid, { bytes, changed: changedAt(stat), sha256 });
    return { name: laid, bytes, sha256, already: paperOfFile(ledger, sha256) };
  } catch (error) {
    throw fileTrouble(error, name, `Laying "${name}" on the table`);
  } finally {
    removeFile(temporary);
    ledger.issued.delete(temporary);
  }
}

async function liesThere(ledger: Ledger, file: KeptFile): Promise<boolean> {
  for (const there of await listTable(ledger)) {
    if (there.bytes === file.bytes && (await hashOf(ledger, there)) === file.sha256) return true;
  }
  return false;
}

/**
 * Lays the originals on which nothing rests any more since an act (a keeping undone) on the table again, so that
 * undoing loses nothing from sight; the names they bear there.
 */
export async function layBack(ledger: Ledger, act: ActId): Promise<readonly string[]> {
  const names: string[] = [];
  for (const file of originalsLeftBy(ledger, act)) {
    if (await liesThere(ledger, file)) continue;
    names.push((await layOn(ledger, pathOfOriginal(ledger, file.sha256), file.name)).name);
  }
  return names;
}

/** The folder for what was put aside. A file of that name, put there by another program, gets a name of its own. */
function asideFolder(ledger: Ledger): { readonly folder: string; readonly moved: string | undefined } {
  const folder = join(tableFolder(ledger), aside);
  const isFile = statSync(folder, { throwIfNoEntry: false })?.isFile() === true;
  const moved = isFile ? moveInto(folder, tableFolder(ledger), plainName(aside)) : undefined;
  makeFolder(folder);
  return { folder, moved };
}

/** Moves a file from the table into table/put-aside/; the name it bears there. */
export function putAside(ledger: Ledger, name: string): string {
  ledger.mustWrite();
  const file = basename(name) === name ? fileAt(ledger, name) : undefined;
  if (file === undefined) {
    throw new LotfileError('not found', `There is no "${name}" on the table.`, {
      about: name,
      next: 'It may have been kept or put aside in another window; look at the table again.',
    });
  }
  try {
    const { folder, moved } = asideFolder(ledger);
    hashesOf(ledger).delete(name);
    const now = name === aside && moved !== undefined ? moved : name;
    return moveInto(join(tableFolder(ledger), now), folder, now);
  } catch (error) {
    throw fileTrouble(error, name, `Putting "${name}" aside`);
  }
}

/** Names of the files that were put aside. */
export function listAside(ledger: Ledger): readonly string[] {
  const folder = join(tableFolder(ledger), aside);
  if (statSync(folder, { throwIfNoEntry: false })?.isDirectory() !== true) return [];
  const entries = readdirSync(folder, { withFileTypes: true });
  return entries.flatMap((entry) => (entry.isFile() && !notOurs.test(entry.name) ? [entry.name] : []));
}

/** Moves a file that was put aside onto the table again; its name there. */
export function takeUp(ledger: Ledger, name: string): string {
  ledger.mustWrite();
  if (!listAside(ledger).includes(name)) {
    throw new LotfileError('not found', `"${name}" was not put aside.`, {
      about: name,
      next: 'It may be on the table again; look there.',
    });
  }
  try {
    return moveInto(join(tableFolder(ledger), aside, name), tableFolder(ledger), name);
  } catch (error) {
    throw fileTrouble(error, name, `Taking "${name}" up`);
  }
}

/**
 * Takes a file that was kept off the table. It goes only where it still holds the bytes that were kept and the
 * original in the lot is whole; else it stays.
 * @returns whether it went.
 */
export async function takeOff(ledger: Ledger, path: string): Promise<boolean> {
  ledger.mustWrite();
  const file = tableFileAt(ledger, path);
  const sha256 = file === undefined ? undefined : await hashOf(ledger, file);
  if (file === undefined || sha256 === undefined) return false;
  const kept = originalsOfSize(ledger, file.bytes).find((each) => each.sha === sha256);
  if (kept === undefined || sizeOnDisk(originalFile(ledger.folder, kept)) !== file.bytes) return false;
  try {
    removeFile(file.path);
    hashesOf(ledger).delete(file.name);
    return true;
  } catch (error) {
    throw fileTrouble(error, file.name, `Taking "${file.name}" off the table`);
  }
}
