import type { Database } from 'better-sqlite3';
import type { PaperId } from '../vocabulary/lot.ts';

const image = 'coalesce(after, before)';

/** Tables whose rows belong to an edition and are read with its paper. */
const ofEditions = ['edition_part', 'edition_original', 'edition_link', 'standing', 'fact', 'mark'];

const touchedSql = `
  SELECT ${image} ->> 'id' FROM change WHERE act = :act AND tbl = 'paper'
  UNION SELECT after ->> 'paper' FROM change WHERE act = :act AND tbl = 'edition' AND after IS NOT NULL
  UNION SELECT before ->> 'paper' FROM change WHERE act = :act AND tbl = 'edition' AND before IS NOT NULL
  UNION SELECT edition.paper FROM change JOIN edition ON edition.id = ${image} ->> 'edition'
    WHERE act = :act AND tbl IN (${ofEditions.map((table) => `'${table}'`).join(', ')})`;

/** Papers whose picture an act changed: their own row, or one of their editions in any part. */
export function papersTouched(db: Database, act: number): readonly PaperId[] {
  return db.prepare<[{ act: number }], PaperId>(touchedSql).pluck().all({ act });
}
