import { LotfileError } from '../vocabulary/errors.ts';
import { columnsOf, imageOf, type TrackedTable } from './changes.ts';
import { actsOfTwin, actsRestingOn, lastToChange, namedInWords, wayOut } from './in-the-way.ts';
import type { ActId, ActShown } from './keeping-model.ts';
import type { Ledger } from './ledger.ts';
import type { UndoDone } from './lot-model.ts';

interface ActRow {
  readonly seq: number;
  readonly title: string;
  readonly at: string;
  readonly undoes: number | null;
  readonly lasting: string | null;
}

interface ChangeRow {
  readonly tbl: TrackedTable;
  readonly row_key: number;
  readonly before: string | null;
  readonly after: string | null;
}

/** Tells whether an act is undone: the newest act that took it back was not itself taken back. */
function undoneTest(ledger: Ledger): (act: ActId) => boolean {
  const newestTaker = new Map(
    ledger.db
      .prepare<[], { seq: number; undoes: number }>('SELECT seq, undoes FROM act WHERE undoes IS NOT NULL ORDER BY seq')
      .all()
      .map((row) => [row.undoes, row.seq]),
  );
  return (act) => {
    let taken = false;
    for (let taker = newestTaker.get(act); taker !== undefined; taker = newestTaker.get(taker)) taken = !taken;
    return taken;
  };
}

export function actsOf(ledger: Ledger, limit: number): readonly ActShown[] {
  const undone = undoneTest(ledger);
  const rows = ledger.db.prepare<[number], ActRow>('SELECT * FROM act ORDER BY seq DESC LIMIT ?').all(limit);
  return rows.map((row) => ({
    id: row.seq,
    title: row.title,
    at: row.at,
    undoes: row.undoes ?? undefined,
    undone: undone(row.seq),
    lasting: row.lasting ?? undefined,
  }));
}

/** The newest act that stands and is no undo itself. */
function newestStanding(ledger: Ledger, undone: (act: ActId) => boolean): ActRow | undefined {
  const rows = ledger.db.prepare<[], ActRow>('SELECT * FROM act WHERE undoes IS NULL ORDER BY seq DESC').iterate();
  for (const row of rows) if (!undone(row.seq)) return row;
  return undefined;
}

function chosenAct(ledger: Ledger, id: ActId | undefined): ActRow {
  const undone = undoneTest(ledger);
  const row =
    id === undefined
      ? newestStanding(ledger, undone)
      : ledger.db.prepare<[number], ActRow>('SELECT * FROM act WHERE seq = ?').get(id);
  if (row === undefined) throw new LotfileError('not found', 'There is nothing to undo.');
  if (row.lasting !== null) throw new LotfileError('conflict', row.lasting, { about: row.title });
  if (undone(row.seq)) throw new LotfileError('conflict', `"${row.title}" was undone before.`, { about: row.title });
  return row;
}

function conflict(ledger: Ledger, change: ChangeRow, target: ActRow, title: string): LotfileError {
  const later = lastToChange(ledger, change, target.seq);
  const by = later.length === 0 ? '' : ` by ${namedInWords(later)}`;
  return new LotfileError('conflict', `"${title}" can't be undone: what it did was changed again later${by}.`, {
    about: title,
    next:
      later.length === 0
        ? 'Undo the later changes first; nothing was changed now.'
        : 'Take that back first; nothing was changed now.',
  });
}

interface Taken {
  readonly target: ActRow;
  /** The title of what it did, whether done, undone or done again. */
  readonly bare: string;
}

interface PaperImage {
  readonly kind: string;
  readonly title: string;
  readonly subject: string | null;
}

/** Puts one row back as it was, where it still is as the act left it. */
function takeBack(ledger: Ledger, change: ChangeRow, of: Taken): void {
  const { db } = ledger;
  const columns = columnsOf(db, change.tbl);
  const now = db
    .prepare<[number], string>(`SELECT ${imageOf(columns, 'row')} FROM ${change.tbl} AS row WHERE seq = ?`)
    .pluck()
    .get(change.row_key);
  if ((now ?? null) !== change.after) throw conflict(ledger, change, of.target, of.bare);
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

/** A paper row that comes back with another kind or subject than it had, or from nothing, must not be a second one. */
function refuseTwin(ledger: Ledger, change: ChangeRow, { target, bare }: Taken): void {
  const { tbl, before, after } = change;
  if (tbl !== 'paper' || before === null) return;
  const [was, is]: readonly Partial<PaperImage>[] = [JSON.parse(before), JSON.parse(after ?? '{}')];
  if (was?.kind === is?.kind && was?.subject === is?.subject) return;
  const acts = actsOfTwin(ledger, before);
  if (acts === undefined) return;
  const since = acts.length === 0 ? '' : `, since ${namedInWords(acts)}`;
  const instead = target.undoes === null ? ' Or correct its kind once more: both are then editions of one paper.' : '';
  throw new LotfileError('conflict', `"${bare}" can't be undone: there is another "${was?.title}" by now${since}.`, {
    about: bare,
    next: `${acts.length === 0 ? 'Undo what came later first; nothing was changed now.' : wayOut(acts)}${instead}`,
  });
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
      for (const change of changes) takeBack(ledger, change, { target, bare });
      for (const change of changes) refuseTwin(ledger, change, { target, bare });
      return { act, title: bare };
    });
  } catch (error) {
    if (!isConstraint(error)) throw error;
    const acts = actsRestingOn(ledger, target.seq);
    const what = acts.length === 0 ? 'something kept later' : namedInWords(acts);
    throw new LotfileError(
      'conflict',
      `"${bare}" can't be undone: ${what} ${acts.length > 1 ? 'rest' : 'rests'} on it.`,
      {
        about: bare,
        next: acts.length === 0 ? 'Undo what came later first; nothing was changed now.' : wayOut(acts),
        cause: error,
      },
    );
  }
}
