import type { Day } from '../vocabulary/days.ts';
import type { Answer, FactSort, FactValue } from '../vocabulary/facts.ts';
import { filledFrom } from '../vocabulary/forms.ts';
import type {
  Edition,
  EditionLink,
  Identity,
  LotEvent,
  LotView,
  Paper,
  PaperId,
  SameAs,
  Standing,
  Subject,
  Visit,
  VisitSaid,
} from '../vocabulary/lot.ts';
import { readFact } from './fact-value.ts';
import type { Ledger } from './ledger.ts';
import { onceEach } from './once-each.ts';
import { storedJson } from './stored-json.ts';

type Nullable<T> = { readonly [K in keyof T]-?: Exclude<T[K], undefined> | (undefined extends T[K] ? null : never) };

/** Nulls of a row become absent properties: what was never said is not there. */
function present<T extends object>(row: Nullable<T>): T;
function present(row: object): object {
  return Object.fromEntries(Object.entries(row).filter(([, value]) => value !== null));
}

function grouped<Row extends { readonly edition: string }, T>(rows: readonly Row[], make: (row: Row) => T) {
  const groups = new Map<string, T[]>();
  for (const row of rows) {
    const group = groups.get(row.edition);
    if (group === undefined) groups.set(row.edition, [make(row)]);
    else group.push(make(row));
  }
  return (edition: string): readonly T[] => groups.get(edition) ?? [];
}

interface EditionRow {
  readonly id: string;
  readonly paper: string;
  readonly received: Day;
  readonly issued: Day | null;
  readonly effective: Day | null;
  readonly good_through: Day | null;
  readonly number: string | null;
  readonly issuer: string | null;
  readonly revision: string | null;
  readonly physical_only: number;
  readonly sealed: number;
  readonly readable: number;
  /** Originals it came as, and how many of them were removed for good. */
  readonly originals: number;
  readonly purged: number;
}

interface PartRow {
  readonly edition: string;
  readonly page_count: number;
  readonly sheets: string;
  readonly purged: number;
  /** How its pages were made; null unless they were filled. */
  readonly filled: string | null;
}

type Rows<T> = T & { readonly edition: string };

/** Everything of the editions of these papers, a list as JSON; of all where none is given. */
function editionGroups({ db }: Ledger, papers: string | undefined) {
  const of =
    papers === undefined
      ? ''
      : 'WHERE edition IN (SELECT id FROM edition WHERE paper IN (SELECT value FROM json_each(?)))';
  const all = <Row>(sql: string): readonly Row[] => {
    const asked = db.prepare<string[], Row>(sql.replace('$of', of));
    return papers === undefined ? asked.all() : asked.all(papers);
  };
  return {
    facts: grouped(
      all<Rows<{ fact: string; sort: FactSort; value: string }>>('SELECT * FROM fact $of ORDER BY seq'),
      (row): readonly [string, FactValue] => [row.fact, readFact(row)],
    ),
    marks: grouped(all<Rows<{ mark: string }>>('SELECT * FROM mark $of ORDER BY seq'), (row) => row.mark),
    standings: grouped(
      all<Rows<Nullable<Standing>>>('SELECT edition, office, word, day, note FROM standing $of ORDER BY seq'),
      ({ office, word, day, note }): Standing => ({ office, word, day, ...(note === null ? {} : { note }) }),
    ),
    links: grouped(
      all<Rows<EditionLink>>('SELECT edition, word, target AS "to" FROM edition_link $of ORDER BY seq'),
      ({ word, to }): EditionLink => ({ word, to }),
    ),
    parts: grouped(
      all<PartRow>(
        `SELECT edition, page_count, sheets, purged,
           CASE WHEN instr(recipe, '; filled/') > 0 THEN recipe END AS filled
         FROM edition_part JOIN rendition ON sha = rendition $of
         ORDER BY edition, position`,
      ),
      (row) => row,
    ),
  };
}

type Groups = ReturnType<typeof editionGroups>;

function sheetsOf(parts: readonly PartRow[]): readonly string[] {
  const sheets = new Set<string>();
  for (const part of parts) {
    const names: readonly string[] = storedJson(part.sheets);
    for (const name of names) sheets.add(name);
  }
  return [...sheets];
}

/** Every file it came as was removed for good, and nobody holds the sheets themselves. */
function lostItsFile({ originals, purged, physical_only }: EditionRow): boolean {
  return originals > 0 && purged === originals && physical_only === 0;
}

const editionSql = (of: string): string => `
  SELECT edition.*, count(file.sha) AS originals, coalesce(sum(file.purged), 0) AS purged
  FROM edition LEFT JOIN edition_original ON edition_original.edition = edition.id
    LEFT JOIN file ON file.sha = edition_original.file
  ${of} GROUP BY edition.seq ORDER BY edition.seq`;

function editionFrom(row: EditionRow, groups: Groups): Edition {
  const all = groups.parts(row.id);
  const parts = all.filter((part) => part.purged === 0);
  const filled = filledFrom(parts[0]?.filled ?? '');
  return {
    id: row.id,
    paper: row.paper,
    received: row.received,
    ...(row.issued === null ? {} : { issued: row.issued }),
    ...(row.effective === null ? {} : { effective: row.effective }),
    ...(row.good_through === null ? {} : { goodThrough: row.good_through }),
    ...(row.number === null ? {} : { number: row.number }),
    ...(row.issuer === null ? {} : { issuer: row.issuer }),
    ...(row.revision === null ? {} : { revision: row.revision }),
    facts: Object.fromEntries(groups.facts(row.id)),
    marks: groups.marks(row.id),
    standings: groups.standings(row.id),
    links: groups.links(row.id),
    physicalOnly: row.physical_only === 1,
    sealed: row.sealed === 1,
    // What was purged can't be read, whatever was once said of it.
    readable: row.readable === 1 && parts.length === all.length && !lostItsFile(row),
    pages: parts.reduce((sum, part) => sum + part.page_count, 0),
    sheets: sheetsOf(parts),
    ...(filled === undefined ? {} : { filled }),
  };
}

interface Placed {
  readonly seq: number;
  readonly paper: Paper;
}

/** These papers as they stand, or all of them. */
function readPapers(ledger: Ledger, ids: ReadonlySet<PaperId> | undefined): readonly Placed[] {
  const given = ids === undefined ? [] : [JSON.stringify([...ids])];
  const among = (column: string): string =>
    ids === undefined ? '' : `WHERE ${column} IN (SELECT value FROM json_each(?))`;
  const groups = editionGroups(ledger, given[0]);
  const rows = ledger.db.prepare<string[], EditionRow>(editionSql(among('edition.paper'))).all(...given);
  const editions = Map.groupBy(
    rows.map((row) => editionFrom(row, groups)),
    ({ paper }) => paper,
  );
  return ledger.db
    .prepare<string[], Nullable<Omit<Paper, 'editions'>> & { readonly seq: number }>(
      `SELECT seq, id, kind, title, subject, not_applicable AS "notApplicable" FROM paper ${among('id')} ORDER BY seq`,
    )
    .all(...given)
    .map(({ seq, ...row }) => {
      return { seq, paper: { ...present<Omit<Paper, 'editions'>>(row), editions: editions.get(row.id) ?? [] } };
    });
}

interface Remembered {
  placed: ReadonlyMap<PaperId, Placed>;
  papers: readonly Paper[];
}

const remembered = onceEach((_ledger: Ledger): Remembered => ({ placed: new Map(), papers: [] }));

/** Only what changed since the last look is read again: of thousands of papers an act touches one. */
function papersOf(ledger: Ledger): readonly Paper[] {
  const before = remembered(ledger);
  const touched = ledger.takeTouched();
  if (touched !== 'all' && touched.size === 0) return before.papers;
  const read = new Map(
    readPapers(ledger, touched === 'all' ? undefined : touched).map((one) => [one.paper.id, one] as const),
  );
  const kept = touched === 'all' ? [] : [...before.placed].filter(([id]) => !touched.has(id));
  const all = [...kept, ...read].toSorted(([, a], [, b]) => a.seq - b.seq);
  before.placed = new Map(all);
  before.papers = all.map(([, { paper }]) => paper);
  return before.papers;
}

type SaidRow = Nullable<VisitSaid> & { readonly visit: string };

/** Visits with what the office left them with, so that nothing they asked for is forgotten. */
function visitsOf({ db }: Ledger): readonly Visit[] {
  const said = Map.groupBy(
    db
      .prepare<[], SaidRow>(
        `SELECT visit, number, text, due, answered FROM comment
         LEFT JOIN comment_more ON comment_more.comment = comment.seq ORDER BY comment.seq`,
      )
      .all(),
    ({ visit }) => visit,
  );
  return db
    .prepare<[], Nullable<Omit<Visit, 'said'>>>(
      'SELECT id, errand, subject, day, state, outcome, note, packet FROM visit ORDER BY seq',
    )
    .all()
    .map((row) => {
      const rows = said.get(row.id)?.map(({ visit: _visit, ...one }) => present<VisitSaid>(one));
      return { ...present<Omit<Visit, 'said'>>(row), ...(rows === undefined ? {} : { said: rows }) };
    });
}

/** Everything readiness needs to know, read in a dozen statements. */
export function readView(ledger: Ledger): LotView {
  const { db } = ledger;
  const lot = db.prepare<[], { title: string; target: Day | null }>('SELECT title, target FROM lot').get();
  const answers = db
    .prepare<[], { question: string; answer: string }>('SELECT question, answer FROM lot_fact ORDER BY seq')
    .all()
    .map(({ question, answer }): readonly [string, Answer] => [question, storedJson(answer)]);
  const all = <T extends object>(sql: string): readonly T[] =>
    db
      .prepare<[], Nullable<T>>(sql)
      .all()
      .map((row) => present<T>(row));
  return {
    title: lot?.title ?? '',
    ...(lot === undefined || lot.target === null ? {} : { target: lot.target }),
    answers: Object.fromEntries(answers),
    identities: all<Identity>('SELECT sort, text, since AS "from", till AS "to" FROM identity ORDER BY seq'),
    sameAs: all<SameAs>('SELECT sort, a, b FROM same_as ORDER BY seq'),
    subjects: all<Subject>(
      'SELECT id, sort, title, firm, trade, since AS "from", till AS "to" FROM subject ORDER BY seq',
    ),
    events: all<LotEvent>('SELECT event, day, note FROM event ORDER BY day, seq'),
    papers: papersOf(ledger),
    visits: visitsOf(ledger),
  };
}
