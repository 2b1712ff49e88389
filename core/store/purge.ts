import { join } from 'node:path';
import { LotfileError } from '../vocabulary/errors.ts';
import type { Ledger } from './ledger.ts';
import type { PurgeDone, PurgeOrder } from './lot-model.ts';
import { removeBytes } from './purge-bytes.ts';
import { purgeRows, touchedBy } from './purge-rows.ts';
import type { SharedPages } from './shared-pages.ts';

interface FileRow {
  readonly sha: string;
  readonly name: string;
  readonly purged: number;
}

function rowsOf(ledger: Ledger, shas: readonly string[]): readonly FileRow[] {
  const read = ledger.db.prepare<[string], FileRow>('SELECT sha, name, purged FROM file WHERE sha = ?');
  return shas.map((sha) => {
    const row = read.get(sha);
    if (row !== undefined) return row;
    throw new LotfileError('not found', 'This lot has no such file.', {
      about: sha,
      next: 'Look at the papers again.',
    });
  });
}

function sharedWith({ heirName }: SharedPages): string {
  return `The very same pages came in as "${heirName}" too, and stay as that one's: remove it as well if nobody is to see them.`;
}

/**
 * Removes private files for good: their bytes wherever in the lot folder they lie, the pages made of them, packets that
 * hold them, their words, facts and the history of those; safety copies of the database too. Paper, edition and a marker
 * with the reason stay. Rows are wiped before bytes, in one transaction for all files: what the disk does not let go is
 * told, tried again at every opening, and can be removed by the same call once more.
 */
export async function purgeFiles(ledger: Ledger, shas: readonly string[], order: PurgeOrder): Promise<PurgeDone> {
  const { reason, also = [] } = order;
  if (reason.trim() === '') {
    throw new LotfileError('wrong use', 'Removing a file for good needs a reason.', {
      next: 'Say why in a few words.',
    });
  }
  ledger.mustWrite();
  const files = rowsOf(ledger, shas);
  const touched = touchedBy(ledger, shas);
  const fresh = files.filter(({ purged }) => purged === 0);
  const act = fresh.length === 0 ? undefined : ledger.keep(() => purgeRows(ledger, { files: fresh, reason, touched }));
  const undone = touched.undonePackets.map(({ folder, title }) => ({
    path: join(ledger.folder, 'packets', folder),
    name: title,
  }));
  const left = await removeBytes(ledger, shas, { undone, also });
  return {
    act,
    names: files.map(({ name }) => name),
    papers: touched.papers,
    packets: touched.packets.map((packet) => packet.title),
    left: [...left, ...touched.shared.map(sharedWith)],
  };
}

/** A file by its hash or name on which no paper and no record rests: its keeping was undone. */
export function looseOriginals(ledger: Ledger, said: string): readonly { sha256: string; name: string }[] {
  return ledger.db
    .prepare<[{ said: string }], { sha256: string; name: string }>(
      `SELECT sha AS sha256, name FROM file WHERE (sha = :said OR name = :said COLLATE NOCASE)
         AND NOT EXISTS (SELECT 1 FROM edition_original WHERE file = file.sha)
         AND NOT EXISTS (SELECT 1 FROM record WHERE record.file = file.sha)`,
    )
    .all({ said });
}
