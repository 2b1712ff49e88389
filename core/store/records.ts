import type { Day } from '../vocabulary/days.ts';
import { newId } from './ids.ts';
import type { LotRecord, NewRecord, RecordId, RecordSort } from './keeping-model.ts';
import type { Ledger } from './ledger.ts';
import { mustFile } from './originals.ts';
import { originalFile } from './places.ts';

export function addRecord(ledger: Ledger, record: NewRecord): RecordId {
  return ledger.act(`Noted the ${record.sort} "${record.title}"`, () => {
    if (record.file !== undefined) mustFile(ledger, record.file);
    const id = newId('r');
    ledger.db
      .prepare(
        `INSERT INTO record (id, sort, day, title, place, trade, amount, text, file)
         VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)`,
      )
      .run(
        id,
        record.sort,
        record.day,
        record.title,
        record.place ?? null,
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
  readonly trade: string | null;
  readonly amount: number | null;
  readonly text: string | null;
  readonly file: string | null;
  readonly fileName: string | null;
  readonly ext: string | null;
}

/** By day, then in the order they were noted. */
export function recordsOf(ledger: Ledger, sort: RecordSort | undefined): readonly LotRecord[] {
  const rows = ledger.db
    .prepare<[{ sort: string | null }], RecordRow>(
      `SELECT record.*, file.name AS fileName, file.ext FROM record LEFT JOIN file ON file.sha = record.file AND file.purged = 0
       WHERE :sort IS NULL OR sort = :sort ORDER BY day, record.seq`,
    )
    .all({ sort: sort ?? null });
  return rows.map((row) => ({
    id: row.id,
    sort: row.sort,
    day: row.day,
    title: row.title,
    place: row.place ?? undefined,
    trade: row.trade ?? undefined,
    amount: row.amount ?? undefined,
    text: row.text ?? undefined,
    file: row.file ?? undefined,
    fileName: row.fileName ?? undefined,
    filePath:
      row.file === null || row.ext === null ? undefined : originalFile(ledger.folder, { sha: row.file, ext: row.ext }),
  }));
}
