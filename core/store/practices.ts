import { LotfileError } from '../vocabulary/errors.ts';
import type { Practice } from '../vocabulary/practice.ts';
import type { KeptOfficeWord, OfficeWord, PracticeLayer } from './keeping-model.ts';
import type { Ledger } from './ledger.ts';
import { hashText } from './migrations.ts';
import { storedJson } from './stored-json.ts';

interface PracticeRow {
  readonly sha: string;
  readonly json: string;
  readonly layers: string;
}

/** Keeps a practice under the hash of its JSON and layer texts; the same one twice is one row. */
export function keepPractice(ledger: Ledger, practice: Practice, layers: readonly PracticeLayer[]): string {
  const json = JSON.stringify(practice);
  const texts = JSON.stringify(layers);
  const sha = hashText(`${json}\n${texts}`);
  ledger.db
    .prepare('INSERT OR IGNORE INTO practice (sha, title, json, layers) VALUES (?, ?, ?, ?)')
    .run(sha, practice.title, json, texts);
  return sha;
}

/** The practice in force, its hash and the texts it was made from. */
export function practiceInForce(ledger: Ledger): { sha: string; practice: Practice; layers: readonly PracticeLayer[] } {
  const row = ledger.db
    .prepare<[], PracticeRow>('SELECT practice.* FROM practice JOIN lot ON lot.practice = practice.sha')
    .get();
  if (row === undefined) {
    throw new LotfileError('lot damaged', 'The lot has lost its practice.', {
      about: 'lot.sqlite',
      next: 'Work on from your newest backup.',
    });
  }
  return { sha: row.sha, practice: storedJson(row.json), layers: storedJson(row.layers) };
}

export function practiceBySha(ledger: Ledger, sha: string): Practice {
  const row = ledger.db.prepare<[string], PracticeRow>('SELECT * FROM practice WHERE sha = ?').get(sha);
  if (row === undefined) throw new LotfileError('not found', 'This lot never used that practice.', { about: sha });
  return storedJson(row.json);
}

export function setPractice(
  ledger: Ledger,
  change: { practice: Practice; layers: readonly PracticeLayer[]; title?: string | undefined },
): void {
  ledger.act(change.title ?? `Practice set to "${change.practice.title}"`, () => {
    const sha = keepPractice(ledger, change.practice, change.layers);
    ledger.db.prepare('UPDATE lot SET practice = ?').run(sha);
  });
}

export function addOfficeWord(ledger: Ledger, word: OfficeWord): void {
  ledger.act(`${word.who} (${word.office}) said: ${word.said}`, () =>
    ledger.db
      .prepare('INSERT INTO office_word (office, who, day, said, layer) VALUES (?, ?, ?, ?, ?)')
      .run(word.office, word.who, word.day, word.said, JSON.stringify(word.layer)),
  );
}

/** In the order they were said, each with the act that brought it. */
export function officeWords(ledger: Ledger): readonly KeptOfficeWord[] {
  const rows = ledger.db
    .prepare<[], Omit<KeptOfficeWord, 'layer' | 'act'> & { layer: string; act: number | null }>(
      `SELECT word.seq AS id, office, who, day, said, layer,
         (SELECT max(act) FROM change WHERE tbl = 'office_word' AND row_key = word.seq AND before IS NULL) AS act
       FROM office_word AS word ORDER BY word.seq`,
    )
    .all();
  return rows.map((row) => ({ ...row, layer: storedJson(row.layer), act: row.act ?? undefined }));
}

export function removeOfficeWord(ledger: Ledger, id: number): void {
  ledger.act('Took back what an office said', () => {
    const done = ledger.db.prepare('DELETE FROM office_word WHERE seq = ?').run(id);
    if (done.changes > 0) return;
    throw new LotfileError('not found', 'No office said that, or it was taken back before.', {
      about: String(id),
      next: 'Look at the list again: practice-words.',
    });
  });
}
