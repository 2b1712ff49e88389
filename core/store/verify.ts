import { readdirSync, statSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { LotfileError } from '../vocabulary/errors.ts';
import type { PacketId } from '../vocabulary/lot.ts';
import type { Ledger } from './ledger.ts';
import type { LongWork } from './long-work.ts';
import type { Problem, VerifyReport } from './lot-model.ts';
import { hashFile, originalFile, renditionFile } from './places.ts';

interface Kept {
  readonly of: 'original' | 'pages' | 'packet file';
  readonly sha: string;
  /** The name the person knew. */
  readonly name: string;
  readonly bytes: number;
  readonly path: string;
}

function keptFiles(ledger: Ledger): readonly Kept[] {
  const { db, folder } = ledger;
  const originals = db
    .prepare<[], { sha: string; name: string; ext: string; bytes: number }>('SELECT * FROM file WHERE purged = 0')
    .all()
    .map((row): Kept => ({ of: 'original', ...row, path: originalFile(folder, row) }));
  const renditions = db
    .prepare<[], { sha: string; name: string; bytes: number }>(
      `SELECT rendition.sha, file.name, rendition.bytes FROM rendition JOIN file ON file.sha = source
       WHERE rendition.purged = 0`,
    )
    .all()
    .map((row): Kept => ({ of: 'pages', ...row, path: renditionFile(folder, row.sha) }));
  const packets = db
    .prepare<[], { sha: string; name: string; bytes: number; folder: string }>(
      `SELECT sha256 AS sha, name, bytes, folder FROM packet_file JOIN packet ON packet.id = packet
       WHERE purged = 0`,
    )
    .all()
    .map((row): Kept => ({ of: 'packet file', ...row, path: join(folder, 'packets', row.folder, row.name) }));
  return [...originals, ...renditions, ...packets];
}

/** Titles of the papers that rest on an original or on pages. */
function papersOn(ledger: Ledger, sha: string): readonly string[] {
  return ledger.db
    .prepare<[{ sha: string }], string>(
      `SELECT DISTINCT paper.title FROM paper JOIN edition ON edition.paper = paper.id
       WHERE edition.id IN (SELECT edition FROM edition_original WHERE file = :sha
         UNION SELECT edition FROM edition_part WHERE rendition = :sha) ORDER BY paper.seq`,
    )
    .pluck()
    .all({ sha });
}

const nextSteps = {
  original: 'Add the very same file again, or take it from your newest backup.',
  pages: 'Add the file they were made from again: the pages are made anew.',
  'packet file': 'Assemble the packet again, or take it from your newest backup.',
} as const;

function fileProblem(ledger: Ledger, kept: Kept, sort: 'missing' | 'changed'): Problem {
  const papers = papersOn(ledger, kept.sha);
  const what = {
    original: `"${kept.name}"`,
    pages: `The pages made from "${kept.name}"`,
    'packet file': `"${kept.name}"`,
  };
  const rests = papers.length === 0 ? '' : ` ${papers.map((title) => `"${title}"`).join(', ')} rests on it.`;
  const verb = kept.of === 'pages' ? 'are' : 'is';
  const say = sort === 'missing' ? `${verb} missing from the lot folder.` : 'changed on the disk since it was kept.';
  return {
    sort,
    file: kept.name,
    sha256: kept.sha,
    papers,
    say: `${what[kept.of]} ${say}${rests}`,
    next: nextSteps[kept.of],
  };
}

/** A folder in a file's place is no file: what the lot kept there is missing. */
function sizeOf(path: string): number | undefined {
  const stat = statSync(path, { throwIfNoEntry: false });
  return stat?.isFile() === true ? stat.size : undefined;
}

/** Files in originals/, renditions/ and packets/ that no row knows. */
function orphans(ledger: Ledger, known: ReadonlySet<string>): readonly Problem[] {
  const places = ['originals', 'renditions', 'packets'].flatMap((place) =>
    readdirSync(join(ledger.folder, place), { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath, entry.name)),
  );
  return places
    .filter((path) => !known.has(path))
    .map((path) => {
      const file = relative(ledger.folder, path).split(sep).join('/');
      return {
        sort: 'orphan',
        file,
        papers: [],
        say: `${file} stands in the lot folder, but the lot knows nothing of it.`,
        next: file.startsWith('packets/')
          ? 'It may be a packet whose keeping was undone. Look at it; it does no harm.'
          : 'If you want it, copy it elsewhere and add it as a paper; otherwise it does no harm.',
      };
    });
}

/** Another lot.sqlite beside ours is what a folder that is copied to and fro behind our back looks like. */
function secondDatabases(ledger: Ledger): readonly Problem[] {
  return readdirSync(ledger.folder)
    .filter((name) => /^lot.*\.sqlite$/i.test(name) && name !== 'lot.sqlite' && !/^lot\.(before|damaged)-/.test(name))
    .map((file) => ({
      sort: 'second database',
      file,
      papers: [],
      say: `"${file}" stands beside lot.sqlite: perhaps something copies this folder while it is worked on.`,
      next: 'Keep the lot out of folders that are copied automatically; look into the second one before removing it.',
    }));
}

const mendIt = 'Close the lot and mend it: mend. What can’t be read is taken from its copies.';

function damage(line: string): Problem {
  return { sort: 'database', file: 'lot.sqlite', papers: [], say: `lot.sqlite is damaged: ${line}.`, next: mendIt };
}

/** A look that meets a damaged page may itself end there. */
function looked(look: () => readonly Problem[]): readonly Problem[] {
  try {
    return look();
  } catch (error) {
    if (!(error instanceof Error && 'code' in error && String(error.code).startsWith('SQLITE_CORRUPT'))) throw error;
    return [damage(error.message)];
  }
}

function databaseProblems({ db }: Ledger): readonly Problem[] {
  const broken = looked(() =>
    db
      .prepare<[], string>('SELECT integrity_check FROM pragma_integrity_check')
      .pluck()
      .all()
      .filter((line) => line !== 'ok')
      .map(damage),
  );
  if (broken.length > 0) return broken;
  return looked(() =>
    db
      .prepare<[], { table: string; parent: string; n: number }>(
        'SELECT "table", parent, count(*) AS n FROM pragma_foreign_key_check GROUP BY 1, 2',
      )
      .all()
      .map(({ table, parent, n }) => ({
        sort: 'rows',
        file: 'lot.sqlite',
        papers: [],
        say: `${n} ${table} rows rest on a ${parent} that is gone.`,
        next: mendIt,
      })),
  );
}

/** Re-hashes every file the lot knows, checks the database, and names what is missing, changed or unknown. */
export async function verifyLot(ledger: Ledger, work: LongWork): Promise<VerifyReport> {
  const files = keptFiles(ledger);
  const problems: Problem[] = [...ledger.translated(() => databaseProblems(ledger))];
  let bytes = 0;
  for (const [i, kept] of files.entries()) {
    if (work.signal?.aborted === true) throw new LotfileError('stopped', 'Stopped as you asked; nothing was changed.');
    work.onProgress?.({ what: kept.name, done: i, of: files.length });
    if (sizeOf(kept.path) === undefined) problems.push(fileProblem(ledger, kept, 'missing'));
    else {
      const found = await hashFile(kept.path, work.signal);
      bytes += found.bytes;
      if (found.sha256 !== kept.sha) problems.push(fileProblem(ledger, kept, 'changed'));
    }
  }
  work.onProgress?.({ what: 'files no row knows', done: files.length, of: files.length });
  problems.push(...orphans(ledger, new Set(files.map((kept) => kept.path))), ...secondDatabases(ledger));
  const count = (of: Kept['of']) => files.filter((kept) => kept.of === of).length;
  return {
    originals: count('original'),
    renditions: count('pages'),
    packetFiles: count('packet file'),
    bytes,
    problems,
  };
}

function packetFileProblem(ledger: Ledger, kept: Kept & { readonly purged: number }, sort: 'missing' | 'changed') {
  const problem = fileProblem(ledger, kept, sort);
  if (kept.purged === 0) return problem;
  return { ...problem, say: `"${kept.name}" was removed from this lot for good.`, next: 'Assemble the packet again.' };
}

/** Re-hashes the files of one packet: what goes out of the house must be what was read back when it was assembled. */
export async function checkPacket(ledger: Ledger, packet: PacketId, signal?: AbortSignal): Promise<readonly Problem[]> {
  ledger.mustHave('packet', packet);
  const files = ledger.db
    .prepare<[string], { sha: string; name: string; bytes: number; folder: string; purged: number }>(
      `SELECT sha256 AS sha, name, bytes, folder, purged FROM packet_file JOIN packet ON packet.id = packet
       WHERE packet = ? ORDER BY position`,
    )
    .all(packet)
    .map((row) => ({ of: 'packet file', ...row, path: join(ledger.folder, 'packets', row.folder, row.name) }) as const);
  const problems: Problem[] = [];
  for (const kept of files) {
    const size = sizeOf(kept.path);
    if (size === undefined) problems.push(packetFileProblem(ledger, kept, 'missing'));
    else if (size !== kept.bytes || (await hashFile(kept.path, signal)).sha256 !== kept.sha) {
      problems.push(packetFileProblem(ledger, kept, 'changed'));
    }
  }
  return problems;
}

/** Are these originals and renditions there at their full size? The bytes are hashed while linking reads them. */
export function checkFiles(ledger: Ledger, shas: readonly string[]): readonly Problem[] {
  const wanted = new Set(shas);
  const kept = keptFiles(ledger).filter((file) => wanted.has(file.sha) && file.of !== 'packet file');
  const known = new Set(kept.map((file) => file.sha));
  const unknown = shas
    .filter((sha) => !known.has(sha))
    .map(
      (sha): Problem => ({
        sort: 'missing',
        file: sha,
        sha256: sha,
        papers: [],
        say: 'This lot has no such file.',
        next: 'Add it again.',
      }),
    );
  const bad = kept.flatMap((file) => {
    const size = sizeOf(file.path);
    if (size === file.bytes) return [];
    return [fileProblem(ledger, file, size === undefined ? 'missing' : 'changed')];
  });
  return [...unknown, ...bad];
}
