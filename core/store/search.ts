import { kindNames } from './kind-names.ts';
import type { Ledger } from './ledger.ts';
import type { SearchHit } from './lot-model.ts';
import { factWords } from './search-index.ts';
import { type Phrase, phraseSyntax, readQuery } from './search-words.ts';
import { snippetOf } from './snippet.ts';
import { storedJson } from './stored-json.ts';

interface PaperHit {
  readonly rowid: number;
  readonly paper: string;
  readonly title: string;
  readonly kind: string;
  readonly edition: string | null;
}

interface PartHit {
  readonly paper: string;
  readonly title: string;
  readonly kind: string;
  readonly edition: string;
  readonly pages: readonly number[];
  /** Pages of the edition that stand before this part. */
  readonly before: number;
}

interface PageHit {
  readonly seq: number;
  readonly part: PartHit;
  /** 1-based page in the edition's reading order. */
  readonly page: number;
}

/** The columns of paper_words, the most telling first. */
const parts = ['title', 'number', 'office', 'facts'] as const;
type Part = (typeof parts)[number];

const pagesPerEdition = 3;

function all(phrases: readonly Phrase[]): string {
  return phrases.map(phraseSyntax).join(' ');
}

function textOf(ledger: Ledger, hit: PaperHit, why: Part): string {
  if (why === 'title') return hit.title;
  if (why === 'facts') return hit.edition === null ? '' : factWords(ledger.db, hit.edition);
  const columns = why === 'number' ? 'number, revision' : 'issuer';
  const words = ledger.db
    .prepare<[string | null], string>(`SELECT concat_ws(' · ', ${columns}) FROM edition WHERE id = ?`)
    .pluck()
    .get(hit.edition);
  const office = why === 'office' ? kindNames(ledger.db)(hit.kind).office : '';
  return [words ?? '', office].filter((text) => text !== '').join(' · ');
}

function matching(ledger: Ledger, match: string, limit: number): readonly PaperHit[] {
  return ledger.db
    .prepare<[string, number], PaperHit>(
      `SELECT hits.rowid, paper.id AS paper, paper.title, paper.kind, edition.id AS edition
       FROM (SELECT rowid FROM paper_words WHERE paper_words MATCH ? ORDER BY rowid DESC LIMIT ?) AS hits
       LEFT JOIN edition ON hits.rowid % 2 = 0 AND edition.seq = hits.rowid / 2
       JOIN paper ON paper.id = edition.paper OR (hits.rowid % 2 = 1 AND paper.seq = hits.rowid / 2)
       ORDER BY hits.rowid DESC`,
    )
    .all(match, limit);
}

/** Papers that hold all words in their title, then number, office, facts; then those that hold them here and there. */
function paperHits(ledger: Ledger, phrases: readonly Phrase[], limit: number): readonly SearchHit[] {
  const hits = new Map<number, SearchHit>();
  const scattered = phrases.length > 1 ? [undefined] : [];
  for (const part of [...parts, ...scattered]) {
    if (hits.size >= limit) break;
    const match = part === undefined ? all(phrases) : `{${part}} : (${all(phrases)})`;
    for (const row of matching(ledger, match, limit)) {
      if (hits.has(row.rowid) || hits.size >= limit) continue;
      const why = part ?? 'title';
      const { paper, title, kind } = row;
      const words = snippetOf(textOf(ledger, row, why), phrases);
      hits.set(row.rowid, { paper, title, kind, edition: row.edition ?? undefined, why, ...words });
    }
  }
  return [...hits.values()];
}

/** The parts of editions that rest on one rendition, looked up once per search however many of its pages match. */
function partsByRendition(ledger: Ledger): (rendition: string) => readonly PartHit[] {
  const found = new Map<string, readonly PartHit[]>();
  const ask = ledger.db.prepare<[string], Omit<PartHit, 'pages'> & { pages: string }>(
    `SELECT paper.id AS paper, paper.title, paper.kind, part.edition, part.pages,
       (SELECT coalesce(sum(page_count), 0) FROM edition_part
        WHERE edition = part.edition AND position < part.position) AS before
     FROM edition_part AS part JOIN edition ON edition.id = part.edition JOIN paper ON paper.id = edition.paper
     WHERE part.rendition = ? ORDER BY edition.seq DESC, part.position`,
  );
  return (rendition) => {
    const known = found.get(rendition) ?? ask.all(rendition).map((row) => ({ ...row, pages: storedJson(row.pages) }));
    found.set(rendition, known);
    return known;
  };
}

/** Newest first, straight off the index; pages that stand in no edition (any more) are passed over. */
function* matchingPages(ledger: Ledger, match: string): Generator<PageHit> {
  const count = new Map<string, number>();
  const partsOn = partsByRendition(ledger);
  const rows = ledger.db
    .prepare<[string], { seq: number; rendition: string; page: number }>(
      `SELECT page.seq, page.rendition, page.page FROM page_words CROSS JOIN page ON page.seq = page_words.rowid
       WHERE page_words MATCH ? ORDER BY page_words.rowid DESC`,
    )
    .iterate(match);
  for (const { seq, rendition, page } of rows) {
    for (const part of partsOn(rendition)) {
      const shown = count.get(part.edition) ?? 0;
      const at = shown < pagesPerEdition ? part.pages.indexOf(page) : -1;
      if (at < 0) continue;
      count.set(part.edition, shown + 1);
      yield { seq, part, page: part.before + at + 1 };
    }
  }
}

function pageHits(ledger: Ledger, phrases: readonly Phrase[], limit: number): readonly SearchHit[] {
  const hits: SearchHit[] = [];
  if (limit < 1) return hits;
  const text = ledger.db.prepare<[number], string>('SELECT text FROM page_text WHERE seq = ?').pluck();
  for (const { seq, page, part } of matchingPages(ledger, all(phrases))) {
    const { paper, title, kind, edition } = part;
    hits.push({ paper, title, kind, edition, page, why: 'page', ...snippetOf(text.get(seq) ?? '', phrases) });
    if (hits.length >= limit) break;
  }
  return hits;
}

/**
 * Finds papers by title, number, office or facts, then pages by their text; newest first, at most three pages of one
 * edition. Every word must be there, the last letters may be missing ("sept" finds "septic"), accents and signs don't
 * matter, quoted words stand together.
 */
export function searchLot(ledger: Ledger, text: string, limit: number): readonly SearchHit[] {
  const phrases = readQuery(text);
  if (phrases.length === 0 || limit < 1) return [];
  return ledger.translated(() => {
    const papers = paperHits(ledger, phrases, limit);
    return [...papers, ...pageHits(ledger, phrases, limit - papers.length)];
  });
}
