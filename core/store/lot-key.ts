import type { Database } from 'better-sqlite3';
import { hashText } from './migrations.ts';

/** What a lot is known by among its copies: hashed from how it began, which no act changes. */
export function lotKey(db: Database): string {
  const began = db.prepare<[], string>("SELECT at || ' ' || begun FROM act, lot WHERE act.seq = 1").pluck().get();
  return hashText(`lot ${began ?? ''}`).slice(0, 16);
}
