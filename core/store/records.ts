import type { Day } from '../vocabulary/days.ts';
import { LotfileError } from '../vocabulary/errors.ts';
import { newId } from './ids.ts';
import type { LotRecord, NewRecord, RecordCorrection, RecordId, RecordSort } from './keeping-model.ts';
import type { Ledger } from './ledger.ts';
import { mustFile } from './originals.ts';
import { originalFile } from './places.ts';

export function addRecord(ledger: Ledger, record: NewRecord): RecordId {
  return ledger.act(`Noted the ${record.sort} "${record.title}"`, () => {
    if (record.file !== undefined) mustFile(ledger, record.file);
    const id = newId('r');
    ledger.db
      .prepare(
        `INSERT INTO record (id, sort, day, title, place, wall, trade, amount, text, file)
         VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
      )
      .run(
        id,
        record.sort,
        record.day,
        record.title,
        record.place ?? null,
        record.wall ?? null,
        record.trade ?? null,
        record.amount ?? null,
        record.text ?? null,
        record.file ?? null,
      );
    return id;
  });
}

interface RecordRow {
  readonly id: string;
  readonly sort: RecordSort;
  readonly day: Day;
  readonly title: string;
  readonly place: string | null;
  readonly wall: string | null;
  readonly trade: string | null;
  readonly amount: number | null;
  readonly text: string | null;
  readonly file: string | null;
  readonly fileName: string | null;
  readonly ext: string | null;
}

/** By day, then in the order they were noted. */
export function allRecords(ledger: Ledger): readonly LotRecord[] {
  const rows = ledger.db
    .prepare<[], RecordRow>(
      `SELECT record.*, file.name AS fileName, file.ext FROM record LEFT JOIN file ON file.sha = record.file AND file.purged = 0
       ORDER BY day, record.seq`,
    )
    .all();
  return rows.map((row) => ({
    id: row.id,
    sort: row.sort,
    day: row.day,
    title: row.title,
    place: row.place ?? undefined,
    wall: row.wall ?? undefined,
    trade: row.trade ?? undefined,
    amount: row.amount ?? undefined,
    text: row.text ?? undefined,
    file: row.file ?? undefined,
    fileName: row.fileName ?? undefined,
    filePath:
      row.file === null || row.ext === null ? undefined : originalFile(ledger.folder, { sha: row.file, ext: row.ext }),
  }));
}

function mustRecord(ledger: Ledger, id: RecordId): void {
  const found = ledger.db.prepare<[string], number>('SELECT 1 FROM record WHERE id = ?').get(id);
  if (found !== undefined) return;
  throw new LotfileError('not found', 'There is no such photo, receipt or note in this lot.', {
    about: id,
    next: 'It may have been removed in another window; look at the list again.',
  });
}

const columns = ['title', 'day', 'place', 'wall', 'trade', 'amount', 'text'] as const;

/** Corrects one record; fields that aren't named stay. */
export function correctRecord(ledger: Ledger, id: RecordId, correction: RecordCorrection): void {
  ledger.act('Corrected a record', () => {
    mustRecord(ledger, id);
    for (const column of columns) {
      const value = correction[column];
      if (value !== undefined) ledger.db.prepare(`UPDATE record SET ${column} = ? WHERE id = ?`).run(value, id);
    }
  });
}

/** Takes a record off the list; its file stays in the lot, so that the act can be undone. */
export function removeRecord(ledger: Ledger, id: RecordId): void {
  ledger.act('Removed a record', () => {
    mustRecord(ledger, id);
    ledger.db.prepare('DELETE FROM record WHERE id = ?').run(id);
  });
}

/** Records that rest on a file. */
export function recordsOfFile(ledger: Ledger, sha: string): readonly RecordId[] {
  return ledger.db.prepare<[string], string>('SELECT id FROM record WHERE file = ? ORDER BY seq').pluck().all(sha);
}
