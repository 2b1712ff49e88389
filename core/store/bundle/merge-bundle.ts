import { join } from 'node:path';
import Database from 'better-sqlite3';
import { LotfileError } from '../../vocabulary/errors.ts';
import { removeFile } from '../disk.ts';
import type { Ledger } from '../ledger.ts';
import type { LongWork } from '../long-work.ts';
import { lotKey } from '../lot-key.ts';
import { knownMigrations, pendingMigrations, runMigrations } from '../migrations.ts';
import { freePacketFolder } from '../packets.ts';
import { newTemporaryPath } from '../places.ts';
import { databaseTrouble } from '../trouble.ts';
import { checkDatabase } from './check-database.ts';
import { calendarName, databaseName } from './manifest.ts';
import { applySteps, type PacketFolders } from './merge-apply.ts';
import { type Comparison, compareSides, type MergeStep, type Side } from './merge-compare.ts';
import { addContent, LaidFiles, layContent, type NewContent, newContent } from './merge-content.ts';
import { MergeSide, sharedPapers, takeoverTitle } from './merge-side.ts';
import { conflictWords, takenWords } from './merge-words.ts';
import { type OpenBundle, openBundle } from './read-bundle.ts';
import { refuseNewer } from './restore-bundle.ts';

export interface MergeChoices {
  readonly look: boolean;
  /** Key of a conflict -> whose row stands. */
  readonly choices: Readonly<Record<string, Side>>;
  readonly all?: Side | undefined;
}

export interface MergeConflictShown {
  readonly key: string;
  readonly what: string;
  readonly mine: string;
  readonly theirs: string;
  readonly chosen?: Side | undefined;
}

export interface MergeDone {
  /** Something was taken over. */
  readonly done: boolean;
  readonly title: string;
  readonly taken: readonly string[];
  readonly conflicts: readonly MergeConflictShown[];
  readonly notes: readonly string[];
  /** The text of their calendar's memory; undefined where it sent none. */
  readonly calendar: string | undefined;
}

interface Merging {
  readonly ledger: Ledger;
  readonly bundle: OpenBundle;
  readonly theirs: Database.Database;
  readonly about: string;
  readonly work: LongWork;
}

function refuseStranger(ledger: Ledger, { manifest }: OpenBundle, about: string): void {
  if (manifest.lot === lotKey(ledger.db)) return;
  throw new LotfileError('wrong use', `This bundle is of another lot: "${manifest.title}".`, {
    about,
    next: 'Make a folder of its own for it: restore.',
  });
}

/** Their database laid aside, checked, and brought up to our tables. */
async function openTheirs(
  ledger: Ledger,
  bundle: OpenBundle,
  about: string,
): Promise<{ db: Database.Database; file: string }> {
  const file = newTemporaryPath(ledger);
  const listed = bundle.manifest.files.find(({ path }) => path === databaseName);
  if (listed === undefined) throw new LotfileError('internal', 'The bundle lost its lot.');
  await bundle.extract(listed, file);
  checkDatabase(file, about);
  const db = new Database(file);
  db.pragma('trusted_schema = OFF');
  runMigrations(db, pendingMigrations(db, knownMigrations()));
  return { db, file };
}

function notesOf({ purgedHere, purgedThere }: NewContent): readonly string[] {
  return [
    ...purgedHere.map((name) => `"${name}" was removed here for good; it stays gone.`),
    ...purgedThere.map((name) => `"${name}" was removed for good on the other computer. Purge it here too.`),
  ];
}

/** New packets get folders that are free here; their files are laid in before any row names them. */
async function layPackets(
  steps: readonly MergeStep[],
  laid: LaidFiles,
  { ledger, theirs, work }: Merging,
): Promise<PacketFolders> {
  const folders = new Map<string, string>();
  const folderOf = theirs.prepare<[string], string>('SELECT folder FROM packet WHERE id = ?').pluck();
  const filesOf = theirs.prepare<[string], { name: string; sha256: string }>(
    'SELECT name, sha256 FROM packet_file WHERE packet = ? AND purged = 0',
  );
  for (const { table, mine, theirs: row } of steps) {
    if (table !== 'packet' || mine !== undefined || row === undefined) continue;
    const id = String(row.plain.id);
    const there = folderOf.get(id) ?? id;
    const here = freePacketFolder(ledger, (n) => (n === 1 ? there : `${there} (${n})`));
    laid.makeFolder(join(ledger.folder, 'packets', here));
    for (const { name, sha256 } of filesOf.all(id)) {
      await laid.lay(`packets/${there}/${name}`, join(ledger.folder, 'packets', here, name), sha256, work.signal);
    }
    folders.set(id, here);
  }
  return folders;
}

function clash(error: unknown, about: string): unknown {
  const told = databaseTrouble(error, about);
  const cause = told instanceof LotfileError ? told.cause : undefined;
  const constraint = cause instanceof Error && 'code' in cause && String(cause.code).startsWith('SQLITE_CONSTRAINT');
  if (!constraint) return told;
  return new LotfileError('conflict', 'What was changed there and what was kept here don’t go together.', {
    about,
    next: 'Most likely something was taken away there on which something here rests. Choose "mine" for it, or put it right on one side first. Nothing was changed.',
    cause,
  });
}

async function takeOver(steps: readonly MergeStep[], content: NewContent, merging: Merging): Promise<void> {
  const { ledger, bundle, theirs, about, work } = merging;
  const laid = new LaidFiles(ledger, bundle, about);
  try {
    await layContent(content, laid, { folder: ledger.folder, signal: work.signal });
    const folders = await layPackets(steps, laid, merging);
    ledger.act(`${takeoverTitle} of ${bundle.manifest.day}`, () => {
      ledger.db.pragma('defer_foreign_keys = ON');
      addContent(ledger, theirs, { ...content, about });
      applySteps(ledger.db, steps, folders);
    });
  } catch (error) {
    laid.takeAway();
    throw clash(error, about);
  }
}

/** The rows to be made as theirs: what only they changed, and where the person chose theirs. */
function chosen({ take, conflicts }: Comparison, { choices, all }: MergeChoices) {
  const sides = conflicts.map((step) => ({ step, side: choices[step.key] ?? all }));
  const theirs = sides.filter(({ side }) => side === 'theirs').map(({ step }) => step);
  return { steps: [...take, ...theirs], sides, open: sides.some(({ side }) => side === undefined) };
}

function refuseUnknownChoices({ conflicts }: Comparison, choices: MergeChoices['choices']): void {
  const keys = new Set(conflicts.map(({ key }) => key));
  const strange = Object.keys(choices).find((key) => !keys.has(key));
  if (strange === undefined) return;
  throw new LotfileError('wrong use', `There is nothing to choose about "${strange}".`, {
    next: 'See what was changed on both sides: merge with look.',
  });
}

/**
 * Takes over from a bundle of the same lot: content by hash, rows by their names, in one act that undo takes back.
 * Where both sides changed a row nothing is taken over at all until each is chosen.
 * @throws LotfileError `file refused`, `lot newer`, `wrong use` for another lot, `conflict` where rows would rest on nothing.
 */
export async function mergeBundle(
  ledger: Ledger,
  path: string,
  given: MergeChoices & { readonly name: string; readonly work: LongWork },
): Promise<MergeDone> {
  ledger.mustWrite();
  const about = given.name;
  const bundle = await openBundle(path, about);
  let opened: { db: Database.Database; file: string } | undefined;
  try {
    refuseNewer(bundle.manifest, about);
    refuseStranger(ledger, bundle, about);
    opened = await openTheirs(ledger, bundle, about);
    const theirs = opened.db;
    const mineSide = new MergeSide(ledger.db);
    const compared = compareSides(mineSide, new MergeSide(theirs, sharedPapers(ledger.db, theirs)));
    refuseUnknownChoices(compared, given.choices);
    const { steps, sides, open } = chosen(compared, given);
    const content = newContent(ledger.db, theirs);
    const any = steps.length + content.files.length + content.renditions.length > 0;
    const done = !given.look && !open && any;
    const conflicts = sides.map(({ step, side }) => ({
      ...conflictWords(step, { mine: ledger.db, theirs }),
      chosen: side,
    }));
    if (done) await takeOver(steps, content, { ledger, bundle, theirs, about, work: given.work });
    const memory = bundle.manifest.files.find(({ path: name }) => name === calendarName);
    const calendar = memory === undefined ? undefined : await bundle.text(memory);
    const { title } = bundle.manifest;
    return { done, title, taken: takenWords(steps), conflicts, notes: notesOf(content), calendar };
  } finally {
    bundle.close();
    opened?.db.close();
    if (opened !== undefined) {
      removeFile(opened.file);
      ledger.issued.delete(opened.file);
    }
  }
}
