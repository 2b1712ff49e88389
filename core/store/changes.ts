import type { Database } from 'better-sqlite3';

/** Tables whose every change is recorded and can be undone. The rest is content by hash, or derived. */
export const trackedTables = [
  'lot',
  'lot_fact',
  'identity',
  'same_as',
  'subject',
  'event',
  'office_word',
  'paper',
  'edition',
  'edition_part',
  'edition_original',
  'edition_link',
  'standing',
  'fact',
  'mark',
  'original_copy',
  'packet',
  'packet_file',
  'packet_edition',
  'visit',
  'comment',
  'handover',
  'handover_file',
  'handover_edition',
  'record',
  'cost_line',
  'change_order',
  'invoice',
  'payment',
  'supplier_notice',
  'waiver',
  'draw',
  'draw_line',
  'comment_more',
] as const;
export type TrackedTable = (typeof trackedTables)[number];

export function columnsOf(db: Database, table: string): readonly string[] {
  return db.prepare<[string], string>('SELECT name FROM pragma_table_info(?)').pluck().all(table);
}

/** The SQL that writes a row as JSON; the same expression writes and compares images. */
export function imageOf(columns: readonly string[], alias: string): string {
  const pairs = columns.map((name) => `'${name}', ${alias}."${name}"`);
  return `json_object(${pairs.join(', ')})`;
}

/**
 * Makes the triggers that write change rows, for this connection only: they follow the columns as they are now,
 * so no migration can forget them. A write outside an act fails, since its change row has no act.
 */
export function watchChanges(db: Database): void {
  db.exec('CREATE TEMP TABLE doing (act INTEGER)');
  for (const table of trackedTables) {
    const columns = columnsOf(db, table);
    const before = imageOf(columns, 'old');
    const after = imageOf(columns, 'new');
    const into = 'INSERT INTO change (act, tbl, row_key, before, after) SELECT';
    const act = '(SELECT act FROM doing)';
    db.exec(`
      CREATE TEMP TRIGGER ${table}_added AFTER INSERT ON main.${table} BEGIN
        ${into} ${act}, '${table}', new.seq, NULL, ${after}; END;
      CREATE TEMP TRIGGER ${table}_changed AFTER UPDATE ON main.${table} BEGIN
        ${into} ${act}, '${table}', new.seq, ${before}, ${after} WHERE ${before} <> ${after}; END;
      CREATE TEMP TRIGGER ${table}_removed AFTER DELETE ON main.${table} BEGIN
        ${into} ${act}, '${table}', old.seq, ${before}, NULL; END;`);
  }
}
