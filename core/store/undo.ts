import { LotfileError } from '../vocabulary/errors.ts';
import { columnsOf, imageOf, type TrackedTable } from './changes.ts';
import type { ActId, ActShown } from './keeping-model.ts';
import type { Ledger } from './ledger.ts';
import type { UndoDone } from './lot-model.ts';

interface ActRow {
  readonly seq: number;
  readonly title: string;
  readonly at: string;
  readonly undoes: number | null;
  readonly lasting: string | null;
  readonly undone: number;
}

interface ChangeRow {
  readonly tbl: TrackedTable;
  readonly row_key: number;
  readonly before: string | null;
  readonly after: string | null;
}

/**
 * An act is undone where the newest act that took it back was not itself taken back.
 * Follows that chain of newest takers; its length decides.
 */
const actSql = `
  WITH RECURSIVE chain (root, seq, depth) AS (
    SELECT seq, seq, 0 FROM act
    UNION ALL SELECT chain.root, (SELECT max(act.seq) FROM act WHERE act.undoes = chain.seq), chain.depth + 1
      FROM chain WHERE EXISTS (SELECT 1 FROM act WHERE act.undoes = chain.seq))
  SELECT act.*, (SELECT max(depth) FROM chain WHERE root = act.seq) % 2 AS undone FROM act`;

export function actsOf(ledger: Ledger, limit: number): readonly ActShown[] {
  const rows = ledger.db.prepare<[number], ActRow>(`${actSql} ORDER BY seq DESC LIMIT ?`).all(limit);
  return rows.map((row) => ({
    id: row.seq,
    title: row.title,
    at: row.at,
    undoes: row.undoes ?? undefined,
    undone: row.undone === 1,
    lasting: row.lasting ?? undefined,
  }));
}

function chosenAct(ledger: Ledger, id: ActId | undefined): ActRow {
  const row =
    id === undefined
      ? ledger.db
          .prepare<[], ActRow>(
            `SELECT * FROM (${actSql}) WHERE undoes IS NULL AND undone = 0 ORDER BY seq DESC LIMIT 1`,
          )
          .get()
      : ledger.db.prepare<[number], ActRow>(`SELECT * FROM (${actSql}) WHERE seq = ?`).get(id);
  if (row === undefined) throw new LotfileError('not found', 'There is nothing to undo.');
  if (row.lasting !== null) throw new LotfileError('conflict', row.lasting, { about: row.title });
  if (row.undone === 1) throw new LotfileError('conflict', `"${row.title}" was undone before.`, { about: row.title });
  return row;
}

function conflict(title: string): LotfileError {
  return new LotfileError('conflict', `"${title}" can't be undone: what it did was changed again later.`, {
    about: title,
    next: 'Undo the later changes first; nothing was changed now.',
  });
}

/** Puts one row back as it was, where it still is as the act left it. */
function takeBack(ledger: Ledger, change: ChangeRow, title: string): void {
  const { db } = ledger;
  const columns = columnsOf(db, change.tbl);
  const now = db
    .prepare<[number], string>(`SELECT ${imageOf(columns, 'row')} FROM ${change.tbl} AS row WHERE seq = ?`)
    .pluck()
    .get(change.row_key);
  if ((now ?? null) !== change.after) throw conflict(title);
  const values = columns.map((name) => `json_extract(:image, '$.${name}')`);
  if (change.before === null) db.prepare(`DELETE FROM ${change.tbl} WHERE seq = ?`).run(change.row_key);
  else if (change.after === null) {
    const names = columns.map((name) => `"${name}"`).join(', ');
    db.prepare(`INSERT INTO ${change.tbl} (${names}) VALUES (${values.join(', ')})`).run({ image: change.before });
  } else {
    const sets = columns.map((name, i) => `"${name}" = ${values[i]}`).join(', ');
    db.prepare(`UPDATE ${change.tbl} SET ${sets} WHERE seq = :seq`).run({ image: change.before, seq: change.row_key });
  }
}

/** Rows made later that rest on what goes, or a name taken anew meanwhile: the database says no. */
function isConstraint(error: unknown): boolean {
  return (
    error instanceof LotfileError &&
    error.cause instanceof Error &&
    'code' in error.cause &&
    String(error.cause.code).startsWith('SQLITE_CONSTRAINT')
  );
}

/**
 * Takes an act back as a new act: every row it changed must still be as it left it, and nothing later may rest on it.
 * @throws LotfileError `conflict` with the reason; nothing is changed then.
 */
export function undoAct(ledger: Ledger, id: ActId | undefined): UndoDone {
  if (ledger.version() === undefined) throw new LotfileError('internal', 'Undo is an act of its own.');
  const target = chosenAct(ledger, id);
  const bare = target.title.replace(/^(Undone|Done again): /, '');
  try {
    return ledger.act(`${target.undoes === null ? 'Undone' : 'Done again'}: ${bare}`, () => {
      ledger.db.pragma('defer_foreign_keys = ON');
      const act = ledger.currentAct();
      ledger.db.prepare('UPDATE act SET undoes = ? WHERE seq = ?').run(target.seq, act);
      const changes = ledger.db
        .prepare<[number], ChangeRow>('SELECT tbl, row_key, before, after FROM change WHERE act = ? ORDER BY seq DESC')
        .all(target.seq);
      for (const change of changes) takeBack(ledger, change, bare);
      return { act, title: bare };
    });
  } catch (error) {
    if (!isConstraint(error)) throw error;
    throw new LotfileError('conflict', `"${bare}" can't be undone: something kept later rests on it.`, {
      about: bare,
      next: 'Undo what came later first; nothing was changed now.',
      cause: error,
    });
  }
}
