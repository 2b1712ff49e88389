import type { Ledger } from './ledger.ts';

/**
 * Two files that differ in a byte nobody sees may have the very same sound pages; these name only the first as their
 * source. Which file a part of an edition was made from follows from the edition's originals: the pages' source where it
 * is among them, else the one that has no pages of its own there.
 */

/** SQL: the file `f` stands behind the part `p` of an edition, whose pages are `r`. */
export const standsBehind = `(
  EXISTS (SELECT 1 FROM edition_original o WHERE o.edition = p.edition AND o.file = f.sha)
  AND (f.sha = r.source OR (
    NOT EXISTS (SELECT 1 FROM edition_original o WHERE o.edition = p.edition AND o.file = r.source)
    AND NOT EXISTS (SELECT 1 FROM edition_part q JOIN rendition s ON s.sha = q.rendition
      WHERE q.edition = p.edition AND s.source = f.sha)))
)`;

/** Pages of a file that goes, which are those of another one too. */
export interface SharedPages {
  readonly rendition: string;
  /** The file that keeps them. */
  readonly heir: string;
  readonly heirName: string;
}

/** @param files JSON list of the hashes that go */
export function sharedPages({ db }: Ledger, files: readonly string[]): readonly SharedPages[] {
  return db
    .prepare<[{ files: string }], SharedPages>(
      `WITH gone AS (SELECT value AS sha FROM json_each(:files)),
       behind AS (SELECT r.sha AS rendition, r.source AS file FROM rendition r
         UNION SELECT r.sha, f.sha FROM edition_part p JOIN rendition r ON r.sha = p.rendition, file f
           WHERE ${standsBehind})
       SELECT rendition, min(file.sha) AS heir, file.name AS heirName FROM behind JOIN file ON file.sha = behind.file
       WHERE file.purged = 0 AND file.sha NOT IN (SELECT sha FROM gone)
         AND rendition IN (SELECT rendition FROM behind WHERE file IN (SELECT sha FROM gone))
       GROUP BY rendition`,
    )
    .all({ files: JSON.stringify(files) });
}

/** The pages go on as the other file's; papers that rested on the files that go hold them no more. */
export function handOnPages({ db }: Ledger, shared: readonly SharedPages[], files: readonly string[]): void {
  const given = JSON.stringify(files);
  for (const { rendition, heir } of shared) {
    db.prepare(
      `DELETE FROM edition_part WHERE rowid IN (
         SELECT p.rowid FROM edition_part p JOIN rendition r ON r.sha = p.rendition
         WHERE r.sha = :rendition AND EXISTS (SELECT 1 FROM file f WHERE f.sha IN (SELECT value FROM json_each(:given))
           AND ${standsBehind}))`,
    ).run({ rendition, given });
    db.prepare(
      'UPDATE rendition SET source = :heir WHERE sha = :rendition AND source IN (SELECT value FROM json_each(:given))',
    ).run({ rendition, heir, given });
  }
}
