import type { Database } from 'better-sqlite3';
import { dayInWords, isDay } from '../vocabulary/days.ts';
import type { FactSort, FactValue } from '../vocabulary/facts.ts';
import { moneyInWords } from '../vocabulary/money.ts';
import { readFact } from './fact-value.ts';
import { kindNames } from './kind-names.ts';
import { indexedWords } from './search-words.ts';

interface EditionWords {
  readonly id: string;
  readonly seq: number;
  readonly number: string | null;
  readonly issuer: string | null;
  readonly revision: string | null;
}

interface PaperWords {
  readonly seq: number;
  readonly kind: string;
  readonly title: string;
  readonly subject: string | null;
  readonly firm: string | null;
}

function put(db: Database, row: { rowid: number; title: string; number: string; office: string; facts: string }): void {
  db.prepare('INSERT INTO paper_words (rowid, title, number, office, facts) VALUES (?, ?, ?, ?, ?)').run(
    row.rowid,
    indexedWords(row.title),
    indexedWords(row.number),
    indexedWords(row.office),
    indexedWords(row.facts),
  );
}

const paperSql = `
  SELECT paper.seq, paper.kind, paper.title, subject.title AS subject, subject.firm AS firm
  FROM paper LEFT JOIN subject ON subject.id = paper.subject WHERE paper.id = ?`;

/** A fact as a person would type it: dollars for money, both ways of writing a day. Yes and no say nothing here. */
function factInWords(value: FactValue): string {
  switch (value.sort) {
    case 'money':
      return moneyInWords(value.value);
    case 'day':
      return isDay(value.value) ? `${value.value} (${dayInWords(value.value)})` : value.value;
    case 'elevation':
      return `${value.value.feet} ft ${value.value.datum}`;
    case 'yes or no':
      return '';
    default:
      return String(value.value);
  }
}

/** The facts of an edition in words, in the order they were kept. */
export function factWords(db: Database, edition: string): string {
  return db
    .prepare<[string], { sort: FactSort; value: string }>('SELECT sort, value FROM fact WHERE edition = ? ORDER BY seq')
    .all(edition)
    .map((row) => factInWords(readFact(row)))
    .filter((words) => words !== '')
    .join(' · ');
}

/** Writes the search words of one paper and its editions anew. */
function indexPaper(db: Database, id: string): void {
  const paper = db.prepare<[string], PaperWords>(paperSql).get(id);
  if (paper === undefined) return;
  const drop = db.prepare('DELETE FROM paper_words WHERE rowid = ?');
  drop.run(paper.seq * 2 + 1);
  const names = kindNames(db)(paper.kind);
  const title = [paper.title, names.title, paper.subject ?? ''].join('\n');
  const office = [names.office, paper.firm ?? ''].join('\n');
  const editions = db
    .prepare<[string], EditionWords>('SELECT id, seq, number, issuer, revision FROM edition WHERE paper = ?')
    .all(id);
  if (editions.length === 0) put(db, { rowid: paper.seq * 2 + 1, title, number: '', office, facts: '' });
  for (const edition of editions) {
    drop.run(edition.seq * 2);
    put(db, {
      rowid: edition.seq * 2,
      title,
      number: [edition.number ?? '', edition.revision ?? ''].join('\n'),
      office: [office, edition.issuer ?? ''].join('\n'),
      facts: factWords(db, edition.id),
    });
  }
}

/** Papers touched by an act, through themselves, their editions, facts or subject; before and after. */
const touchedSql = `
  SELECT DISTINCT paper FROM (
    SELECT coalesce(json_extract(after, '$.id'), json_extract(before, '$.id')) AS paper
      FROM change WHERE act = :act AND tbl = 'paper'
    UNION SELECT coalesce(json_extract(after, '$.paper'), json_extract(before, '$.paper'))
      FROM change WHERE act = :act AND tbl = 'edition'
    UNION SELECT edition.paper FROM change JOIN edition
      ON edition.id = coalesce(json_extract(after, '$.edition'), json_extract(before, '$.edition'))
      WHERE act = :act AND tbl = 'fact'
    UNION SELECT paper.id FROM change JOIN paper
      ON paper.subject = coalesce(json_extract(after, '$.id'), json_extract(before, '$.id'))
      WHERE act = :act AND tbl = 'subject')`;

/** Brings the search words in line with what an act changed. */
export function indexChanged(db: Database, act: number): void {
  const practice = db
    .prepare("SELECT 1 FROM change WHERE act = ? AND tbl = 'lot' AND before ->> 'practice' IS NOT after ->> 'practice'")
    .get(act);
  const gone = db.prepare<[number], number>(
    "SELECT CASE tbl WHEN 'edition' THEN row_key * 2 ELSE row_key * 2 + 1 END FROM change WHERE act = ? AND tbl IN ('edition', 'paper') AND after IS NULL",
  );
  const drop = db.prepare('DELETE FROM paper_words WHERE rowid = ?');
  for (const rowid of gone.pluck().all(act)) drop.run(rowid);
  const papers =
    practice === undefined
      ? db.prepare<[{ act: number }], string>(touchedSql).pluck().all({ act })
      : db.prepare<[], string>('SELECT id FROM paper').pluck().all();
  for (const paper of papers) indexPaper(db, paper);
}

/** Adds the words of one page. */
export function indexPage(db: Database, seq: number, text: string): void {
  db.prepare('INSERT INTO page_words (rowid, text) VALUES (?, ?)').run(seq, indexedWords(text));
}

/** Writes the whole index into a database that has none yet. */
export function indexAll(db: Database): void {
  for (const paper of db.prepare<[], string>('SELECT id FROM paper').pluck().all()) indexPaper(db, paper);
  const pages = db.prepare<[], { seq: number; text: string }>('SELECT seq, text FROM page_text').all();
  for (const { seq, text } of pages) indexPage(db, seq, text);
}
