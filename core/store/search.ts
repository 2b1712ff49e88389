import type { Ledger } from './ledger.ts';
import type { SearchHit } from './lot-model.ts';
import { type Phrase, phraseSyntax, readQuery } from './search-words.ts';
import { snippetOf } from './snippet.ts';

interface PaperHit {
  readonly rowid: number;
  readonly paper: string;
  readonly title: string;
  readonly kind: string;
  readonly edition: string | null;
}

interface PageHit {
  readonly paper: string;
  readonly title: string;
  readonly kind: string;
  readonly edition: string;
  readonly position: number;
  readonly page: number;
  readonly pages: string;
  readonly text: string;
}

const parts = ['title', 'number', 'office', 'facts'] as const;

/** The part of a paper that holds a phrase, the heaviest first; asked of the index again, so that it can't disagree. */
function whyOf(ledger: Ledger, rowid: number, phrases: readonly Phrase[]): (typeof parts)[number] {
  const asked = ledger.db.prepare<[string, number], unknown>(
    'SELECT 1 FROM paper_words WHERE paper_words MATCH ? AND rowid = ?',
  );
  const all = phrases.map(phraseSyntax).join(' ');
  const whole = parts.find((part) => asked.get(`{${part}} : (${all})`, rowid) !== undefined);
  if (whole !== undefined) return whole;
  const some = phrases.map(phraseSyntax).join(' OR ');
  return [...parts].reverse().find((part) => asked.get(`{${part}} : (${some})`, rowid) !== undefined) ?? 'title';
}

function factTexts(ledger: Ledger, edition: string): readonly string[] {
  return ledger.db
    .prepare<[string], string>(
      `SELECT CASE json_type(value) WHEN 'object' THEN json_extract(value, '$.feet') ELSE json_extract(value, '$') END
       FROM fact WHERE edition = ? AND sort <> 'yes or no' ORDER BY seq`,
    )
    .pluck()
    .all(edition)
    .map(String);
}

function textOf(ledger: Ledger, hit: PaperHit, why: (typeof parts)[number]): string {
  if (why === 'title' || hit.edition === null) return hit.title;
  if (why === 'facts') return factTexts(ledger, hit.edition).join(' · ');
  const columns = why === 'number' ? ['number', 'revision'] : ['issuer'];
  const words = ledger.db
    .prepare<[string], string | null>(`SELECT concat_ws(' · ', ${columns.join(', ')}) FROM edition WHERE id = ?`)
    .pluck()
    .get(hit.edition);
  return words === undefined || words === null || words === '' ? hit.title : words;
}

function paperHits(ledger: Ledger, phrases: readonly Phrase[], limit: number): readonly SearchHit[] {
  const rows = ledger.db
    .prepare<[string, number], PaperHit>(
      `SELECT hits.rowid, paper.id AS paper, paper.title, paper.kind, edition.id AS edition
       FROM (SELECT rowid FROM paper_words WHERE paper_words MATCH ? ORDER BY rowid DESC LIMIT ?) AS hits
       LEFT JOIN edition ON hits.rowid % 2 = 0 AND edition.seq = hits.rowid / 2
       JOIN paper ON paper.id = edition.paper OR (hits.rowid % 2 = 1 AND paper.seq = hits.rowid / 2)
       ORDER BY hits.rowid DESC`,
    )
    .all(phrases.map(phraseSyntax).join(' '), limit);
  const hits = rows.map((row): SearchHit => {
    const why = whyOf(ledger, row.rowid, phrases);
    const { paper, title, kind } = row;
    return {
      paper,
      title,
      kind,
      edition: row.edition ?? undefined,
      why,
      ...snippetOf(textOf(ledger, row, why), phrases),
    };
  });
  return hits.sort((a, b) => parts.indexOf(pageless(a.why)) - parts.indexOf(pageless(b.why)));
}

function pageless(why: SearchHit['why']): (typeof parts)[number] {
  return why === 'page' ? 'facts' : why;
}

/** 1-based number of a page of a part in the edition's reading order. */
function pageNumber(ledger: Ledger, hit: PageHit): number {
  const before = ledger.db
    .prepare<[string, number], number>(
      'SELECT coalesce(sum(page_count), 0) FROM edition_part WHERE edition = ? AND position < ?',
    )
    .pluck()
    .get(hit.edition, hit.position);
  const pages: readonly number[] = JSON.parse(hit.pages);
  return (before ?? 0) + pages.indexOf(hit.page) + 1;
}

/** Newest pages first, read straight off the index; pages that stand in no edition are passed over. */
function pageHits(ledger: Ledger, phrases: readonly Phrase[], limit: number): readonly SearchHit[] {
  const rows = ledger.db
    .prepare<[string, number], PageHit>(
      `SELECT paper.id AS paper, paper.title, paper.kind, edition.id AS edition, part.position, page.page, part.pages,
         page.text
       FROM page_words CROSS JOIN page ON page.seq = page_words.rowid
       CROSS JOIN edition_part AS part ON part.rendition = page.rendition
         AND EXISTS (SELECT 1 FROM json_each(part.pages) WHERE value = page.page)
       CROSS JOIN edition ON edition.id = part.edition CROSS JOIN paper ON paper.id = edition.paper
       WHERE page_words MATCH ? ORDER BY page_words.rowid DESC LIMIT ?`,
    )
    .all(phrases.map(phraseSyntax).join(' '), limit);
  return rows.map(
    (row): SearchHit => ({
      paper: row.paper,
      title: row.title,
      kind: row.kind,
      edition: row.edition,
      page: pageNumber(ledger, row),
      why: 'page',
      ...snippetOf(row.text, phrases),
    }),
  );
}

/**
 * Finds papers by title, number, office or facts, then pages by their text; newest first. Every word must be there,
 * the last letters may be missing ("sept" finds "septic"), accents and signs don't matter.
 */
export function searchLot(ledger: Ledger, text: string, limit: number): readonly SearchHit[] {
  const phrases = readQuery(text);
  if (phrases.length === 0 || limit < 1) return [];
  return ledger.translated(() => {
    const papers = paperHits(ledger, phrases, limit);
    return [...papers, ...pageHits(ledger, phrases, limit - papers.length)].slice(0, limit);
  });
}
