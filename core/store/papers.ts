import { LotfileError } from '../vocabulary/errors.ts';
import type { EditionId, PaperId, SubjectId } from '../vocabulary/lot.ts';
import type { KindId } from '../vocabulary/practice.ts';
import { sealedParts, writeParts } from './edition-parts.ts';
import { writeCopies, writeFacts, writeLinks, writeMarks } from './edition-rows.ts';
import { newId } from './ids.ts';
import type { NewEdition } from './keeping-model.ts';
import type { Ledger } from './ledger.ts';
import { mustFile } from './originals.ts';

interface PaperKey {
  readonly kind: KindId;
  readonly title: string;
  readonly subject?: SubjectId | undefined;
}

/** Papers no rule knows ("other") are told apart by their titles; of all other kinds there is one per subject. */
function findPaper(ledger: Ledger, key: PaperKey): PaperId | undefined {
  const one = 'SELECT id FROM paper WHERE kind = ? AND subject IS ?';
  return key.kind === 'other'
    ? ledger.db
        .prepare<[string, string | null, string], string>(`${one} AND title = ? ORDER BY seq LIMIT 1`)
        .pluck()
        .get(key.kind, key.subject ?? null, key.title)
    : ledger.db
        .prepare<[string, string | null], string>(`${one} ORDER BY seq LIMIT 1`)
        .pluck()
        .get(key.kind, key.subject ?? null);
}

function findOrMakePaper(ledger: Ledger, key: PaperKey): PaperId {
  const found = findPaper(ledger, key);
  if (found !== undefined) return found;
  if (key.subject !== undefined) ledger.mustHave('subject', key.subject);
  const id = newId('p');
  ledger.db
    .prepare('INSERT INTO paper (id, kind, title, subject) VALUES (?, ?, ?, ?)')
    .run(id, key.kind, key.title, key.subject ?? null);
  return id;
}

function mustBeSomething(edition: NewEdition): void {
  if (edition.physicalOnly === true || edition.parts.length > 0 || edition.originals.length > 0) return;
  throw new LotfileError('wrong use', `"${edition.title}" has no pages.`, {
    about: edition.title,
    next: 'Add a scan of it, or say that you hold it only on paper.',
  });
}

function insertEdition(ledger: Ledger, paper: PaperId, edition: NewEdition): EditionId {
  const id = newId('e');
  ledger.db
    .prepare(
      `INSERT INTO edition (id, paper, received, issued, effective, good_through, number, issuer, revision,
         physical_only, sealed, readable) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
    )
    .run(
      id,
      paper,
      edition.received,
      edition.issued ?? null,
      edition.effective ?? null,
      edition.goodThrough ?? null,
      edition.number ?? null,
      edition.issuer ?? null,
      edition.revision ?? null,
      Number(edition.physicalOnly ?? false),
      Number(edition.sealed ?? sealedParts(ledger, edition.parts)),
      Number(edition.readable ?? true),
    );
  return id;
}

/** Keeps a received version of a paper with all that is known of it; the paper is found or made. */
export function keepEdition(ledger: Ledger, edition: NewEdition): { paper: PaperId; edition: EditionId } {
  mustBeSomething(edition);
  return ledger.act(`Kept "${edition.title}"`, () => {
    if (edition.paper !== undefined) ledger.mustHave('paper', edition.paper);
    const paper = edition.paper ?? findOrMakePaper(ledger, edition);
    const id = insertEdition(ledger, paper, edition);
    writeParts(ledger, id, edition.parts);
    const original = ledger.db.prepare('INSERT INTO edition_original (edition, position, file) VALUES (?, ?, ?)');
    for (const [position, sha] of edition.originals.entries()) {
      mustFile(ledger, sha);
      original.run(id, position, sha);
    }
    writeFacts(ledger, id, edition.facts ?? []);
    writeMarks(ledger, id, edition.marks ?? []);
    writeLinks(ledger, id, edition.links ?? []);
    writeCopies(ledger, id, edition.copies ?? []);
    return { paper, edition: id };
  });
}

export function setNotApplicable(ledger: Ledger, key: PaperKey, reason: string | undefined): PaperId {
  const title = reason === undefined ? `"${key.title}" applies again` : `"${key.title}" doesn't apply`;
  return ledger.act(title, () => {
    const paper = findOrMakePaper(ledger, key);
    ledger.db.prepare('UPDATE paper SET not_applicable = ? WHERE id = ?').run(reason ?? null, paper);
    return paper;
  });
}

export function setPaperTitle(ledger: Ledger, paper: PaperId, title: string): void {
  ledger.act(`Paper renamed "${title}"`, () => {
    ledger.mustHave('paper', paper);
    ledger.db.prepare('UPDATE paper SET title = ? WHERE id = ?').run(title, paper);
  });
}

/** One edition and nothing said of the paper as a whole: the paper is what its edition is. */
function isAlone(ledger: Ledger, paper: PaperId): boolean {
  const count = ledger.db
    .prepare<[string], number>(
      `SELECT count(*) FROM edition JOIN paper ON paper.id = edition.paper
       WHERE paper.id = ? AND paper.not_applicable IS NULL`,
    )
    .pluck()
    .get(paper);
  return count === 1;
}

/**
 * Makes an edition one of another paper, found or made: the kind it was kept under was the wrong one. A paper with
 * no other edition becomes that paper itself, or goes where there is one; one said not to apply stays.
 */
export function moveEdition(ledger: Ledger, edition: EditionId, key: PaperKey): PaperId {
  return ledger.act(`Edition kept as "${key.title}"`, () => {
    ledger.mustHave('edition', edition);
    const { db } = ledger;
    const left = db.prepare<[string], string>('SELECT paper FROM edition WHERE id = ?').pluck().get(edition);
    const found = findPaper(ledger, key);
    if (left !== undefined && found === undefined && isAlone(ledger, left)) {
      if (key.subject !== undefined) ledger.mustHave('subject', key.subject);
      db.prepare('UPDATE paper SET kind = ?, title = ?, subject = ? WHERE id = ?').run(
        key.kind,
        key.title,
        key.subject ?? null,
        left,
      );
      return left;
    }
    const paper = found ?? findOrMakePaper(ledger, key);
    db.prepare('UPDATE edition SET paper = ? WHERE id = ?').run(paper, edition);
    db.prepare(
      `DELETE FROM paper WHERE id = ? AND not_applicable IS NULL
         AND NOT EXISTS (SELECT 1 FROM edition WHERE edition.paper = paper.id)`,
    ).run(left ?? '');
    return paper;
  });
}
