import type { Database } from 'better-sqlite3';
import type { EditionContent, KeptFile } from '../packet/plan-model.ts';
import { LotfileError } from '../vocabulary/errors.ts';
import type { EditionId, EditionPage, PageFacts } from '../vocabulary/lot.ts';
import type { EditionPart, PageWords } from './keeping-model.ts';
import type { Ledger } from './ledger.ts';
import { onceEach } from './once-each.ts';
import { pagesOf, renditionRow } from './renditions.ts';
import { storedJson } from './stored-json.ts';

interface PartRow {
  readonly rendition: string;
  readonly pages: string;
  readonly turn: 0 | 90 | 180 | 270;
}

function mustRendition(ledger: Ledger, sha: string): { sealed: boolean; notes: readonly string[] } {
  const row = renditionRow(ledger, sha);
  if (row === undefined || row.purged === 1) {
    throw new LotfileError('not found', 'These pages are not in the lot.', {
      about: sha,
      next: 'Add the file they come from again.',
    });
  }
  return { sealed: row.sealed === 1, notes: storedJson(row.notes) };
}

export function sealedParts(ledger: Ledger, parts: readonly EditionPart[]): boolean {
  return parts.some((part) => mustRendition(ledger, part.rendition).sealed);
}

/** Writes which pages an edition consists of. Sizes are taken as measured; an asked page that doesn't exist is refused. */
export function writeParts(ledger: Ledger, edition: EditionId, parts: readonly EditionPart[]): void {
  const insert = ledger.db.prepare(
    `INSERT INTO edition_part (edition, position, rendition, pages, page_count, sheets, turn)
     VALUES (?, ?, ?, ?, ?, ?, ?)`,
  );
  for (const [position, part] of parts.entries()) {
    mustRendition(ledger, part.rendition);
    const all = new Map(
      ledger.db
        .prepare<[string], { page: number; sheet: string }>(
          'SELECT page, sheet FROM page WHERE rendition = ? ORDER BY page',
        )
        .all(part.rendition)
        .map((row) => [row.page, row.sheet]),
    );
    const pages = part.pages ?? [...all.keys()];
    const sheets = new Set<string>();
    for (const page of pages) {
      const sheet = all.get(page);
      if (sheet === undefined) {
        throw new LotfileError('wrong use', `There is no page ${page + 1}; the file has ${all.size} pages.`, {
          next: 'Choose among the pages it has.',
        });
      }
      sheets.add(sheet);
    }
    if (pages.length === 0) throw new LotfileError('wrong use', 'A part of a paper must have at least one page.');
    const lists = [JSON.stringify(pages), pages.length, JSON.stringify([...sheets])] as const;
    insert.run(edition, position, part.rendition, ...lists, part.turn ?? 0);
  }
}

function notesOf(ledger: Ledger, parts: readonly PartRow[]): readonly string[] {
  const notes = new Set<string>();
  for (const sha of new Set(parts.map((part) => part.rendition))) {
    const row = renditionRow(ledger, sha);
    const kept: readonly string[] = row === undefined ? [] : storedJson(row.notes);
    for (const note of kept) notes.add(note);
  }
  return [...notes];
}

function readsOf(db: Database) {
  return {
    parts: db.prepare<[string], PartRow>(
      'SELECT rendition, pages, turn FROM edition_part WHERE edition = ? ORDER BY position',
    ),
    originals: db.prepare<[string], KeptFile>(
      `SELECT file.sha AS sha256, file.name, file.bytes FROM edition_original JOIN file ON file.sha = file
       WHERE edition = ? AND purged = 0 ORDER BY position`,
    ),
  };
}

const reads = onceEach(readsOf);

/** Pages of a rendition by their number. */
type FoundPages = ReadonlyMap<number, PageFacts>;

/** Contents of editions; one scan may serve many of them and is read once. */
export function contentsOf(
  ledger: Ledger,
  ids: readonly EditionId[],
  words?: PageWords,
): Readonly<Record<EditionId, EditionContent>> {
  const found = new Map<string, FoundPages>();
  const read = (sha: string): FoundPages => {
    const known = found.get(sha) ?? new Map(pagesOf(ledger, sha, words).map((page) => [page.page, page]));
    found.set(sha, known);
    return known;
  };
  return Object.fromEntries(ids.map((id) => [id, contentOf(ledger, id, read)]));
}

/** All pages of an edition in reading order, its originals, and what keeping noticed. */
function contentOf(ledger: Ledger, edition: EditionId, read: (sha: string) => FoundPages): EditionContent {
  ledger.mustHave('edition', edition);
  const parts = reads(ledger.db).parts.all(edition);
  const pages = parts.flatMap((part): EditionPage[] => {
    const facts = read(part.rendition);
    const chosen: readonly number[] = storedJson(part.pages);
    return chosen
      .map((page) => facts.get(page))
      .filter((page): page is PageFacts => page !== undefined)
      .map((page) => ({ rendition: part.rendition, facts: page, turn: part.turn }));
  });
  const originals = reads(ledger.db).originals.all(edition);
  return { pages, originals, notes: notesOf(ledger, parts) };
}
