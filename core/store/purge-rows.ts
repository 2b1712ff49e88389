import type { PacketPlan } from '../packet/plan-model.ts';
import type { ActId } from './keeping-model.ts';
import type { Ledger } from './ledger.ts';
import { handOnPages, type SharedPages, sharedPages } from './shared-pages.ts';
import { storedJson } from './stored-json.ts';

export interface TouchedPacket {
  readonly id: string;
  readonly title: string;
  readonly folder: string;
  readonly plan: string;
}

/** What rests on a file, or once did and can still be read in the history. */
export interface Touched {
  readonly renditions: readonly string[];
  /** Pages that another file has as well: they stay, as that one's. */
  readonly shared: readonly SharedPages[];
  readonly editions: readonly string[];
  /** Editions whose keeping was undone among them. */
  readonly everEditions: readonly string[];
  readonly packets: readonly TouchedPacket[];
  /** Packets whose assembling was undone: their folders lie there still. */
  readonly undonePackets: readonly TouchedPacket[];
  readonly papers: readonly string[];
}

function column(ledger: Ledger, sql: string, given: object): readonly string[] {
  return ledger.db.prepare<[object], string>(sql).pluck().all(given);
}

const image = 'coalesce(after, before)';

function packetsOf(ledger: Ledger, editions: string): Pick<Touched, 'packets' | 'undonePackets'> {
  const packets = ledger.db
    .prepare<[string], TouchedPacket>(
      `SELECT id, title, folder, plan FROM packet WHERE id IN
         (SELECT packet FROM packet_edition WHERE edition IN (SELECT value FROM json_each(?))) ORDER BY seq`,
    )
    .all(editions);
  const undonePackets = ledger.db
    .prepare<[string], TouchedPacket>(
      `SELECT DISTINCT ${image} ->> 'id' AS id, ${image} ->> 'title' AS title, ${image} ->> 'folder' AS folder,
         ${image} ->> 'plan' AS plan
       FROM change WHERE tbl = 'packet' AND ${image} ->> 'id' NOT IN (SELECT id FROM packet)
         AND ${image} ->> 'folder' NOT IN (SELECT folder FROM packet)
         AND ${image} ->> 'id' IN (SELECT ${image} ->> 'packet' FROM change
           WHERE tbl = 'packet_edition' AND ${image} ->> 'edition' IN (SELECT value FROM json_each(?)))`,
    )
    .all(editions);
  return { packets, undonePackets };
}

export function touchedBy(ledger: Ledger, files: readonly string[]): Touched {
  const given = { files: JSON.stringify(files) };
  const theFiles = '(SELECT value FROM json_each(:files))';
  const shared = sharedPages(ledger, files);
  const stays = shared.map(({ rendition }) => rendition);
  const made = column(ledger, `SELECT sha FROM rendition WHERE source IN ${theFiles}`, given);
  const renditions = made.filter((sha) => !stays.includes(sha));
  const editions = column(
    ledger,
    `SELECT edition FROM edition_original WHERE file IN ${theFiles}
     UNION SELECT edition FROM edition_part WHERE rendition IN (SELECT value FROM json_each(:renditions))`,
    { ...given, renditions: JSON.stringify(renditions) },
  );
  const before = column(
    ledger,
    `SELECT ${image} ->> 'edition' FROM change WHERE tbl = 'edition_original' AND ${image} ->> 'file' IN ${theFiles}
     UNION SELECT ${image} ->> 'edition' FROM change WHERE tbl = 'edition_part'
       AND ${image} ->> 'rendition' IN (SELECT value FROM json_each(:renditions))`,
    { ...given, renditions: JSON.stringify(renditions) },
  );
  const everEditions = [...new Set([...editions, ...before])];
  const papers = column(
    ledger,
    `SELECT DISTINCT paper.title FROM paper JOIN edition ON edition.paper = paper.id
     WHERE edition.id IN (SELECT value FROM json_each(:editions)) ORDER BY paper.seq`,
    { editions: JSON.stringify(editions) },
  );
  return { renditions, shared, editions, everEditions, papers, ...packetsOf(ledger, JSON.stringify(everEditions)) };
}

/** What was read off the private pages goes, from the rows; the history that remembers them follows. */
function forgetWords(ledger: Ledger, { renditions, editions }: Touched, files: readonly string[]): void {
  const { db } = ledger;
  for (const sha of renditions) {
    db.prepare('DELETE FROM page_words WHERE rowid IN (SELECT seq FROM page WHERE rendition = ?)').run(sha);
    db.prepare('DELETE FROM page_text WHERE seq IN (SELECT seq FROM page WHERE rendition = ?)').run(sha);
    db.prepare('DELETE FROM page WHERE rendition = ?').run(sha);
    db.prepare("UPDATE rendition SET purged = 1, notes = '[]', asked = '', seals = '[]' WHERE sha = ?").run(sha);
    // What a form was filled with stands in the recipe of its pages.
    db.prepare(
      "UPDATE rendition SET recipe = substr(recipe, 1, instr(recipe, '; filled/') - 1) WHERE sha = ? AND instr(recipe, '; filled/') > 0",
    ).run(sha);
  }
  for (const edition of editions) {
    db.prepare('DELETE FROM fact WHERE edition = ?').run(edition);
    db.prepare('UPDATE edition SET number = NULL, issuer = NULL, revision = NULL WHERE id = ?').run(edition);
  }
  // The words of an e-mail stand in its note.
  for (const file of files) db.prepare('UPDATE record SET text = NULL WHERE file = ?').run(file);
}

/** Kept plans of packets that held it: what they were goes on being known, what stood on the private paper does not. */
function forgetInPlans(ledger: Ledger, { packets, undonePackets, everEditions }: Touched): void {
  const read = ledger.db.prepare<[string], string>('SELECT json FROM plan WHERE sha = ?').pluck();
  const write = ledger.db.prepare('UPDATE plan SET json = ? WHERE sha = ?');
  const isPrivate = (edition: string | undefined) => edition !== undefined && everEditions.includes(edition);
  for (const { plan: sha } of [...packets, ...undonePackets]) {
    const json = read.get(sha);
    if (json === undefined) continue;
    const plan: PacketPlan = storedJson(json);
    const bare: PacketPlan = {
      ...plan,
      files: [],
      notes: [],
      findings: plan.findings.filter((finding) => !isPrivate(finding.edition)),
      tabs: plan.tabs.map((tab) => {
        const touched = [tab.edition, ...(tab.riders ?? [])].some(isPrivate);
        return touched ? { ...tab, number: '', issuedBy: '', dated: '', goodThrough: '', findings: [] } : tab;
      }),
    };
    write.run(JSON.stringify(bare), sha);
  }
}

/** Images of private rows leave the history, the purge's own included; the acts they belong to can't be undone then. */
function forgetHistory(ledger: Ledger, { everEditions }: Touched, files: readonly string[]): void {
  const given = { editions: JSON.stringify(everEditions), files: JSON.stringify(files) };
  const images = `(tbl = 'fact' AND ${image} ->> 'edition' IN (SELECT value FROM json_each(:editions)))
    OR (tbl = 'edition' AND ${image} ->> 'id' IN (SELECT value FROM json_each(:editions)))
    OR (tbl = 'record' AND ${image} ->> 'file' IN (SELECT value FROM json_each(:files)))`;
  ledger.db
    .prepare(
      `UPDATE act SET lasting = 'A file it was about was removed for good.'
       WHERE lasting IS NULL AND seq IN (SELECT act FROM change WHERE ${images})`,
    )
    .run(given);
  ledger.db.prepare(`DELETE FROM change WHERE ${images}`).run(given);
}

/** Deleted words linger in the index's older pieces until these are merged. */
function mergeIndex(ledger: Ledger): void {
  ledger.db.exec("INSERT INTO page_words (page_words) VALUES ('optimize')");
  ledger.db.exec("INSERT INTO paper_words (paper_words) VALUES ('optimize')");
}

/** Wipes the rows of files and leaves a marker with the reason for each. Inside one transaction. */
export function purgeRows(
  ledger: Ledger,
  purge: {
    readonly files: readonly { sha: string; name: string }[];
    readonly reason: string;
    readonly touched: Touched;
  },
): ActId {
  const { files, reason, touched } = purge;
  const shas = files.map(({ sha }) => sha);
  const act = ledger.act(`Removed ${files.map(({ name }) => `"${name}"`).join(', ')} for good`, () => {
    handOnPages(ledger, touched.shared, shas);
    forgetWords(ledger, touched, shas);
    forgetInPlans(ledger, touched);
    for (const { id } of touched.packets) {
      ledger.db.prepare('UPDATE packet_file SET purged = 1 WHERE packet = ?').run(id);
    }
    const at = ledger.now().toISOString();
    for (const sha of shas) {
      ledger.db.prepare('UPDATE file SET purged = 1 WHERE sha = ?').run(sha);
      ledger.db.prepare('INSERT INTO purge (file, at, reason) VALUES (?, ?, ?)').run(sha, at, reason);
    }
    ledger.lasting('What was removed for good is gone.');
    return ledger.currentAct();
  });
  forgetHistory(ledger, touched, shas);
  mergeIndex(ledger);
  return act;
}
