import { type TrackedTable, trackedTables } from './changes.ts';
import type { ActId } from './keeping-model.ts';
import type { Ledger } from './ledger.ts';

/** What keeps an act from being undone, by the acts a person knows from the history. */

interface LaterAct {
  readonly seq: ActId;
  readonly title: string;
  readonly lasting: string | null;
}

interface Reference {
  readonly tbl: TrackedTable;
  readonly from: string;
  readonly to: string;
}

/** Columns of other tables that name a row of this one. */
function referencesTo({ db }: Ledger, table: string): readonly Reference[] {
  const keys = db.prepare<[string], { table: string; from: string; to: string | null }>(
    'SELECT "table", "from", "to" FROM pragma_foreign_key_list(?)',
  );
  return trackedTables.flatMap((tbl) =>
    keys
      .all(tbl)
      .filter((key) => key.table === table)
      .map(({ from, to }) => ({ tbl, from, to: to ?? 'seq' })),
  );
}

/** The newest acts first, each once. */
function actsNamed({ db }: Ledger, acts: ReadonlySet<ActId>): readonly LaterAct[] {
  const one = db.prepare<[number], LaterAct>('SELECT seq, title, lasting FROM act WHERE seq = ?');
  return [...acts].toSorted((a, b) => b - a).flatMap((act) => one.get(act) ?? []);
}

/** Acts whose rows name a row that this act made and that would go with it. */
export function actsRestingOn(ledger: Ledger, act: ActId): readonly LaterAct[] {
  const { db } = ledger;
  const made = db
    .prepare<[number], { tbl: string; after: string }>(
      'SELECT tbl, after FROM change WHERE act = ? AND before IS NULL AND after IS NOT NULL',
    )
    .all(act);
  const madeBy = db
    .prepare<[string, number], number>(
      'SELECT act FROM change WHERE tbl = ? AND row_key = ? AND before IS NULL ORDER BY seq DESC LIMIT 1',
    )
    .pluck();
  const found = new Set<ActId>();
  for (const { tbl, after } of made) {
    for (const { tbl: other, from, to } of referencesTo(ledger, tbl)) {
      const rows = db
        .prepare<[string], number>(`SELECT seq FROM ${other} WHERE "${from}" = json_extract(?, '$.${to}')`)
        .pluck()
        .all(after);
      for (const row of rows) found.add(madeBy.get(other, row) ?? act);
    }
  }
  found.delete(act);
  return actsNamed(ledger, found);
}

/** The act that changed a row last, where that was not this one. */
export function lastToChange(
  ledger: Ledger,
  { tbl, row_key }: { readonly tbl: TrackedTable; readonly row_key: number },
  act: ActId,
): readonly LaterAct[] {
  const last = ledger.db
    .prepare<[string, number, number], number>('SELECT max(act) FROM change WHERE tbl = ? AND row_key = ? AND act > ?')
    .pluck()
    .get(tbl, row_key, act);
  return last === undefined || last === null ? [] : actsNamed(ledger, new Set([last]));
}

/**
 * The act that made another paper of the very kind and subject of a row that was put back: there is one paper of
 * each, and an act that gave such a row back would make two. Papers no rule knows may be many. Undefined where none is.
 */
export function actsOfTwin(ledger: Ledger, put: string): readonly LaterAct[] | undefined {
  const twin = ledger.db
    .prepare<{ image: string }, number>(
      `SELECT seq FROM paper WHERE kind = json_extract(:image, '$.kind') AND kind <> 'other'
         AND subject IS json_extract(:image, '$.subject') AND id <> json_extract(:image, '$.id') ORDER BY seq DESC LIMIT 1`,
    )
    .pluck()
    .get({ image: put });
  if (twin === undefined) return undefined;
  const act = ledger.db
    .prepare<[number], number>(
      `SELECT act FROM change WHERE tbl = 'paper' AND row_key = ? AND after IS NOT NULL
         AND (before IS NULL OR json_extract(before, '$.kind') <> json_extract(after, '$.kind')
           OR json_extract(before, '$.subject') IS NOT json_extract(after, '$.subject')) ORDER BY seq DESC LIMIT 1`,
    )
    .pluck()
    .get(twin);
  return act === undefined ? [] : actsNamed(ledger, new Set([act]));
}

const shown = 3;

/** "Handed over the permit" and "Assembled the packet", at most three by name. */
export function namedInWords(acts: readonly LaterAct[]): string {
  const names = acts.slice(0, shown).map(({ title }) => `"${title}"`);
  const more = acts.length - names.length;
  const all = more > 0 ? [...names, `${more} more`] : names;
  return all.length < 2 ? (all[0] ?? '') : `${all.slice(0, -1).join(', ')} and ${all.at(-1)}`;
}

/** What to do about what stands in the way: take it back, or, where that can't be done, set the thing right instead. */
export function wayOut(acts: readonly LaterAct[]): string {
  const lasting = acts.filter((act) => act.lasting !== null);
  if (lasting.length === 0) return `Take back ${namedInWords(acts)} first; nothing was changed now.`;
  return (
    'What was handed over stays on record, so this stays too. If it did not happen as noted, withdraw the handover ' +
    '(With the offices); a wrong paper is corrected on its card, or a newer one kept in its place. Nothing was changed now.'
  );
}
