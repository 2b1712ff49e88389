import { existsSync, statSync } from 'node:fs';
import { basename, join } from 'node:path';
import type { KeptFile, PacketPlan } from '../packet/plan-model.ts';
import type { Day } from '../vocabulary/days.ts';
import { LotfileError } from '../vocabulary/errors.ts';
import type { EditionId, PacketId } from '../vocabulary/lot.ts';
import { newFolder, removeFile, syncFile, syncFolder } from './disk.ts';
import { newId } from './ids.ts';
import type { ActId, FinishedFile, KeptPacket, NewPacket } from './keeping-model.ts';
import type { Ledger } from './ledger.ts';
import { hashText } from './migrations.ts';
import { onceEach } from './once-each.ts';
import { renameInto } from './places.ts';
import { storedJson } from './stored-json.ts';
import { fileTrouble } from './trouble.ts';

/** A folder name that reads by itself and is new: "2026-04-14 PERMIT-APPLY", then "... 2". */
function folderName(ledger: Ledger, plan: PacketPlan): string {
  const code = plan.code.replace(/[^A-Za-z0-9-]+/g, '-') || 'PACKET';
  return freePacketFolder(ledger, (n) => `${plan.day} ${code}${n === 1 ? '' : ` ${n}`}`);
}

/**
 * The first name that no folder has and no row: one whose packet was removed for good keeps its name, or what is
 * removed with it once more would be another packet's.
 */
export function freePacketFolder({ db, folder }: Ledger, nameOf: (n: number) => string): string {
  const known = new Set(db.prepare<[], string>('SELECT folder FROM packet').pluck().all());
  for (let n = 1; ; n += 1) {
    const name = nameOf(n);
    if (!known.has(name) && !existsSync(join(folder, 'packets', name))) return name;
  }
}

function mustBePlainName(name: string): void {
  if (name !== '' && name === basename(name) && !/[\\/:*?"<>|\p{Cc}]/u.test(name) && !/^\.+$/.test(name)) return;
  throw new LotfileError('internal', `"${name}" can't be the name of a packet's file.`, { about: name });
}

function checkFinished(files: readonly FinishedFile[]): void {
  const names = new Set<string>();
  for (const file of files) {
    mustBePlainName(file.name);
    if (names.has(file.name.toLowerCase())) {
      throw new LotfileError('internal', `Two files of the packet are named "${file.name}".`, { about: file.name });
    }
    names.add(file.name.toLowerCase());
    // Whoever finished it has read it back and hashed it; here only a file cut short since is caught.
    if (statSync(file.path).size !== file.bytes) {
      throw new LotfileError('packet refused', `"${file.name}" changed after it was finished.`, {
        about: file.name,
        next: 'Assemble the packet again.',
      });
    }
  }
}

/** The editions whose pages or untouched files go along: what a handover gives away. */
function editionsIn(plan: PacketPlan): readonly EditionId[] {
  const along = plan.tabs.filter((tab) => tab.place !== 'missing' && tab.place !== 'to follow');
  return [...new Set(along.flatMap((tab) => (tab.edition === undefined ? [] : [tab.edition, ...(tab.riders ?? [])])))];
}

/** Keeps a plan under its hash. The text of pages stays out: it is kept once, with the page, and can be purged there. */
function keepPlan(ledger: Ledger, plan: PacketPlan): string {
  const json = JSON.stringify(plan, function (this: object, key, value: unknown) {
    return key === 'text' && 'clearStrips' in this ? '' : value;
  });
  const sha = hashText(json);
  ledger.db.prepare('INSERT OR IGNORE INTO plan (sha, json) VALUES (?, ?)').run(sha, json);
  return sha;
}

function insertPacket(ledger: Ledger, packet: NewPacket, folder: string): PacketId {
  const { plan } = packet;
  const id = newId('k');
  ledger.db
    .prepare(
      `INSERT INTO packet (id, errand, code, title, recipient, day, folder, plan, practice, override)
       VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
    )
    .run(
      id,
      plan.errand ?? null,
      plan.code,
      plan.title,
      plan.recipient,
      plan.day,
      folder,
      keepPlan(ledger, plan),
      packet.practiceSha,
      packet.override === undefined ? null : JSON.stringify(packet.override),
    );
  const file = ledger.db.prepare(
    'INSERT INTO packet_file (packet, position, name, sha256, bytes) VALUES (?, ?, ?, ?, ?)',
  );
  for (const [position, { name, sha256, bytes }] of packet.files.entries()) file.run(id, position, name, sha256, bytes);
  const edition = ledger.db.prepare('INSERT INTO packet_edition (packet, edition) VALUES (?, ?)');
  for (const one of editionsIn(plan)) edition.run(id, one);
  return id;
}

/** A file removed for good while the packet was being made must not live on in it. */
function refusePurged(ledger: Ledger, { title, files }: PacketPlan): void {
  const shas = files.flatMap((file) =>
    file.of === 'untouched'
      ? [file.file.sha256]
      : file.sheets.flatMap((each) => (each.of === 'paper' ? [each.page.rendition] : [])),
  );
  const purged = ledger.db
    .prepare<[{ shas: string }], string>(
      `SELECT name FROM file LEFT JOIN rendition ON rendition.source = file.sha
       WHERE file.purged = 1 AND (file.sha IN (SELECT value FROM json_each(:shas))
         OR rendition.sha IN (SELECT value FROM json_each(:shas))) LIMIT 1`,
    )
    .pluck()
    .get({ shas: JSON.stringify([...new Set(shas)]) });
  if (purged === undefined) return;
  throw new LotfileError('packet refused', `"${purged}" was removed for good while "${title}" was being made.`, {
    about: purged,
    next: 'Assemble the packet again: it is made without that file then.',
  });
}

/**
 * Moves finished files into a folder of their own under packets/ and records plan, practice and override.
 * @throws LotfileError `packet refused` where a file is not the one that was finished; nothing is kept then.
 */
export async function keepPacket(ledger: Ledger, packet: NewPacket): Promise<KeptPacket & { readonly act: ActId }> {
  ledger.mustWrite();
  try {
    checkFinished(packet.files);
  } catch (error) {
    throw fileTrouble(error, packet.plan.title, `Reading "${packet.plan.title}" back`);
  }
  const name = folderName(ledger, packet.plan);
  const folder = join(ledger.folder, 'packets', name);
  try {
    newFolder(folder);
    for (const file of packet.files) {
      syncFile(file.path);
      renameInto(file.path, { folder, name: file.name });
      ledger.issued.delete(file.path);
    }
    syncFolder(join(ledger.folder, 'packets'));
    return ledger.act(`Packet "${packet.plan.title}"`, () => {
      refusePurged(ledger, packet.plan);
      return { ...packetById(ledger, insertPacket(ledger, packet, name)), act: ledger.currentAct() };
    });
  } catch (error) {
    removeFile(folder, { recursive: true });
    throw fileTrouble(error, packet.plan.title, `Keeping the packet "${packet.plan.title}"`);
  }
}

interface PacketRow {
  readonly id: string;
  readonly errand: string | null;
  readonly code: string;
  readonly title: string;
  readonly recipient: string;
  readonly day: Day;
  readonly folder: string;
  readonly practice: string;
  readonly override: string | null;
}

function shown(ledger: Ledger, row: PacketRow): KeptPacket {
  const files = ledger.db
    .prepare<[string], KeptFile>('SELECT sha256, name, bytes FROM packet_file WHERE packet = ? ORDER BY position')
    .all(row.id);
  const editions = ledger.db
    .prepare<[string], string>('SELECT edition FROM packet_edition WHERE packet = ? ORDER BY seq')
    .pluck()
    .all(row.id);
  return {
    id: row.id,
    code: row.code,
    title: row.title,
    errand: row.errand ?? undefined,
    recipient: row.recipient,
    day: row.day,
    practiceSha: row.practice,
    override: row.override === null ? undefined : storedJson(row.override),
    folder: join(ledger.folder, 'packets', row.folder),
    files,
    editions,
  };
}

const rowSql = 'SELECT id, errand, code, title, recipient, day, folder, practice, override FROM packet';

/** Newest first. */
export function allPackets(ledger: Ledger): readonly KeptPacket[] {
  return ledger.db
    .prepare<[], PacketRow>(`${rowSql} ORDER BY seq DESC`)
    .all()
    .map((row) => shown(ledger, row));
}

export function packetById(ledger: Ledger, id: PacketId): KeptPacket {
  const row = ledger.db.prepare<[string], PacketRow>(`${rowSql} WHERE id = ?`).get(id);
  if (row === undefined) throw new LotfileError('not found', 'There is no such packet in this lot.', { about: id });
  return shown(ledger, row);
}

export function planOf(ledger: Ledger, id: PacketId): PacketPlan {
  ledger.mustHave('packet', id);
  const json = ledger.db
    .prepare<[string], string>('SELECT json FROM plan JOIN packet ON packet.plan = plan.sha WHERE packet.id = ?')
    .pluck()
    .get(id);
  return storedJson(json ?? 'null');
}

const drafts = onceEach((_ledger: Ledger) => new Map<PacketId, boolean>());

/** Whether a packet was assembled as a draft. A plan is long and never changes in this: each is read once. */
export function isDraft(ledger: Ledger, id: PacketId): boolean {
  const known = drafts(ledger).get(id);
  if (known !== undefined) return known;
  const found = ledger.db
    .prepare<[string], number>(
      "SELECT json ->> 'draft' FROM plan JOIN packet ON packet.plan = plan.sha WHERE packet.id = ?",
    )
    .pluck()
    .get(id);
  drafts(ledger).set(id, found === 1);
  return found === 1;
}
