import { readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { PacketPlan } from '../packet/plan-model.ts';
import { LotfileError } from '../vocabulary/errors.ts';
import { forgetCached } from './cache.ts';
import type { Ledger } from './ledger.ts';
import type { PurgeDone } from './lot-model.ts';
import { mustFile } from './originals.ts';
import { originalFile, renditionFile } from './places.ts';
import { fileTrouble } from './trouble.ts';

interface Touched {
  readonly renditions: readonly string[];
  readonly editions: readonly string[];
  readonly packets: readonly { readonly id: string; readonly title: string; readonly folder: string }[];
  readonly papers: readonly string[];
}

function touchedBy(ledger: Ledger, file: string): Touched {
  const { db } = ledger;
  const renditions = db.prepare<[string], string>('SELECT sha FROM rendition WHERE source = ?').pluck().all(file);
  const editions = db
    .prepare<[{ file: string }], string>(
      `SELECT edition FROM edition_original WHERE file = :file
       UNION SELECT edition FROM edition_part JOIN rendition ON sha = rendition WHERE source = :file`,
    )
    .pluck()
    .all({ file });
  const list = JSON.stringify(editions);
  return {
    renditions,
    editions,
    packets: db
      .prepare<[string], { id: string; title: string; folder: string }>(
        `SELECT id, title, folder FROM packet WHERE id IN
           (SELECT packet FROM packet_edition WHERE edition IN (SELECT value FROM json_each(?))) ORDER BY seq`,
      )
      .all(list),
    papers: db
      .prepare<[string], string>(
        `SELECT DISTINCT paper.title FROM paper JOIN edition ON edition.paper = paper.id
         WHERE edition.id IN (SELECT value FROM json_each(?)) ORDER BY paper.seq`,
      )
      .pluck()
      .all(list),
  };
}

/** What was read off the private pages goes too, from the rows and from the history that remembers them. */
function forgetWords(ledger: Ledger, touched: Touched): void {
  const { db } = ledger;
  for (const sha of touched.renditions) {
    db.prepare('DELETE FROM page_words WHERE rowid IN (SELECT seq FROM page WHERE rendition = ?)').run(sha);
    db.prepare('DELETE FROM page_text WHERE seq IN (SELECT seq FROM page WHERE rendition = ?)').run(sha);
    db.prepare('DELETE FROM page WHERE rendition = ?').run(sha);
    db.prepare("UPDATE rendition SET purged = 1, notes = '[]', asked = '', seals = '[]' WHERE sha = ?").run(sha);
  }
  for (const edition of touched.editions) {
    db.prepare('DELETE FROM fact WHERE edition = ?').run(edition);
    db.prepare('UPDATE edition SET number = NULL WHERE id = ?').run(edition);
  }
}

/** Kept plans of packets that held it: what they were goes on being known, what stood on the private paper does not. */
function forgetInPlans(ledger: Ledger, touched: Touched): void {
  const read = ledger.db.prepare<[string], { sha: string; json: string }>(
    'SELECT plan.sha, json FROM plan JOIN packet ON packet.plan = plan.sha WHERE packet.id = ?',
  );
  const write = ledger.db.prepare('UPDATE plan SET json = ? WHERE sha = ?');
  const isPrivate = (edition: string | undefined) => edition !== undefined && touched.editions.includes(edition);
  for (const packet of touched.packets) {
    const row = read.get(packet.id);
    if (row === undefined) continue;
    const plan: PacketPlan = JSON.parse(row.json);
    const bare: PacketPlan = {
      ...plan,
      files: [],
      findings: plan.findings.filter((finding) => !isPrivate(finding.edition)),
      tabs: plan.tabs.map((tab) => (isPrivate(tab.edition) ? { ...tab, number: '', findings: [] } : tab)),
    };
    write.run(JSON.stringify(bare), row.sha);
  }
}

/** Images of private rows leave the history, the purge's own included; the acts they belong to can't be undone then. */
function forgetHistory(ledger: Ledger, editions: readonly string[]): void {
  const images = `(tbl = 'fact' AND coalesce(after ->> 'edition', before ->> 'edition') = :edition)
    OR (tbl = 'edition' AND coalesce(after ->> 'id', before ->> 'id') = :edition)`;
  const lasting = ledger.db.prepare(
    `UPDATE act SET lasting = 'A file it was about was removed for good.'
     WHERE lasting IS NULL AND seq IN (SELECT act FROM change WHERE ${images})`,
  );
  const forget = ledger.db.prepare(`DELETE FROM change WHERE ${images}`);
  for (const edition of editions) {
    lasting.run({ edition });
    forget.run({ edition });
  }
}

/** Deleted words linger in the index's older pieces until these are merged. */
function mergeIndex(ledger: Ledger): void {
  ledger.db.exec("INSERT INTO page_words (page_words) VALUES ('optimize')");
  ledger.db.exec("INSERT INTO paper_words (paper_words) VALUES ('optimize')");
}

function purgeRows(ledger: Ledger, purge: { sha: string; name: string; reason: string; touched: Touched }): void {
  const { sha, name, reason, touched } = purge;
  ledger.act(`Removed "${name}" for good`, () => {
    forgetWords(ledger, touched);
    forgetInPlans(ledger, touched);
    ledger.db.prepare('UPDATE file SET purged = 1 WHERE sha = ?').run(sha);
    for (const packet of touched.packets) {
      ledger.db.prepare('UPDATE packet_file SET purged = 1 WHERE packet = ?').run(packet.id);
    }
    const at = ledger.now().toISOString();
    ledger.db.prepare('INSERT INTO purge (file, at, reason) VALUES (?, ?, ?)').run(sha, at, reason);
    ledger.lasting('What was removed for good is gone.');
  });
  forgetHistory(ledger, touched.editions);
  mergeIndex(ledger);
}

function removeBytes(ledger: Ledger, file: { sha: string; ext: string }, touched: Touched): void {
  rmSync(originalFile(ledger.folder, file), { force: true });
  forgetCached(ledger, file.sha);
  for (const sha of touched.renditions) rmSync(renditionFile(ledger.folder, sha), { force: true });
  for (const packet of touched.packets) {
    rmSync(join(ledger.folder, 'packets', packet.folder), { recursive: true, force: true });
  }
  for (const name of readdirSync(ledger.folder)) {
    if (/^lot\.before-.*\.sqlite$/.test(name)) rmSync(join(ledger.folder, name), { force: true });
  }
}

/**
 * Removes a private file for good: its bytes, the pages made of it, packets that hold it, their words, facts and the
 * history of those; safety copies of the database too. Paper, edition and a marker with the reason stay.
 * Rows are wiped before bytes: a crash in between leaves files no row knows, which verify names.
 */
export function purgeFile(ledger: Ledger, sha: string, reason: string): PurgeDone {
  if (reason.trim() === '') {
    throw new LotfileError('wrong use', 'Removing a file for good needs a reason.', {
      next: 'Say why in a few words.',
    });
  }
  const file = mustFile(ledger, sha);
  const touched = touchedBy(ledger, sha);
  ledger.keep(() => purgeRows(ledger, { sha, name: file.name, reason, touched }));
  try {
    removeBytes(ledger, file, touched);
  } catch (error) {
    throw fileTrouble(error, file.name, `Removing "${file.name}" from the disk`);
  }
  return { name: file.name, papers: touched.papers, packets: touched.packets.map((packet) => packet.title) };
}
