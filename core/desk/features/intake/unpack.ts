import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { MailNote, UnpackDone, UnpackedFile } from '../../../intake/mail/unpack-model.ts';
import { mayHoldFiles } from '../../../intake/mail/unpack-model.ts';
import { fileHash } from '../../../packet/file-hash.ts';
import type { Lot } from '../../../store/index.ts';
import { type Day, isDay } from '../../../vocabulary/days.ts';
import { LotfileError } from '../../../vocabulary/errors.ts';
import { type AtLot, onLot } from '../../context.ts';
import { requests } from '../../contract/requests.ts';
import type { LaidDownAnswer, LaidItem, UnpackAnswer } from '../../contract/table-answers.ts';
import { sortOf } from '../file-look.ts';
import type { Hands } from './lot-reader.ts';

/** E-mails and ZIPs on the table: what is inside comes on the table, the mail itself is noted. */

/** A picture inside a mail's body that is smaller than this is a logo or a line, no paper. */
const logoBytes = 40_000;

/** Told from its first bytes; an Outlook message looks like an office file there, and only unpacking tells. */
export function mayUnpack(path: string, name: string): boolean {
  const sort = sortOf(path);
  return mayHoldFiles(sort) && (sort !== 'office' || /\.msg$/i.test(name));
}

function mailDay({ date }: MailNote, today: Day): Day {
  const text = date?.slice(0, 10) ?? '';
  return isDay(text) ? text : today;
}

function mailText({ from, to, cc, date, text }: MailNote): string {
  const head = [
    from === undefined ? undefined : `From: ${from}`,
    to.length === 0 ? undefined : `To: ${to.join(', ')}`,
    cc.length === 0 ? undefined : `Copy: ${cc.join(', ')}`,
    date === undefined ? undefined : `Date: ${date}`,
  ];
  return [...head.filter((line) => line !== undefined), '', text].join('\n').slice(0, 20_000);
}

interface At {
  readonly lot: Lot;
  readonly day: Day;
  readonly hands: Hands;
}

/** The mail as a note, its file as it came beside it; a mail noted before is not noted twice. */
async function noteMail(done: UnpackDone, file: { path: string; name: string }, { lot, day }: At): Promise<string> {
  const { sha256 } = await lot.takeInOriginal(file.path, file.name);
  const [before] = lot.recordsOfFile(sha256);
  if (before !== undefined) return before;
  return lot.act(`Noted the e-mail ${file.name}`, () => {
    const ids = done.mails.map((mail, n) =>
      lot.addRecord({
        sort: 'note',
        day: mailDay(mail, day),
        title: mail.subject ?? file.name,
        text: mailText(mail),
        file: n === 0 ? sha256 : undefined,
      }),
    );
    return ids[0] ?? '';
  });
}

function isLogo({ inline, bytes }: UnpackedFile): boolean {
  return inline === true && bytes < logoBytes;
}

/** It lies on the table already: the same mail came twice. */
async function liesThere(file: UnpackedFile, lot: Lot): Promise<LaidItem | undefined> {
  const alike = (await lot.listTable()).filter(({ bytes }) => bytes === file.bytes);
  if (alike.length === 0) return undefined;
  const sha256 = await fileHash(file.path);
  for (const { name, bytes, already } of alike) {
    if ((await lot.tableHash(name)) === sha256) return { item: name, name, bytes, sha256, already };
  }
  return undefined;
}

async function layInside(files: readonly UnpackedFile[], lot: Lot): Promise<Pick<UnpackAnswer, 'laid' | 'notes'>> {
  const laid: LaidItem[] = [];
  const notes: string[] = [];
  for (const file of files) {
    if (isLogo(file)) continue;
    try {
      const there = await liesThere(file, lot);
      if (there !== undefined) laid.push(there);
      else {
        const { name, bytes, sha256, already } = await lot.layOn(file.path, file.name);
        laid.push({ item: name, name, bytes, sha256, already });
      }
    } catch (error) {
      notes.push(LotfileError.from(error).message);
    }
  }
  const logos = files.filter(isLogo).length;
  if (logos > 0) notes.push(`${logos === 1 ? 'A small picture' : `${logos} small pictures`} in its text stayed there.`);
  return { laid, notes };
}

type Unpacked = Omit<UnpackAnswer, 'act'>;

/** Whoever wants the same item taken apart at the same time gets the same answer. */
const underWay = new WeakMap<Lot, Map<string, Promise<Unpacked>>>();

/**
 * Takes an item of the table apart. The file itself is not lost: a mail's stays with its note, a ZIP is put aside.
 * @throws LotfileError `not found`, `file refused`; then the table is as it was.
 */
export function unpackItem(item: string, at: At): Promise<Unpacked> {
  const all = underWay.get(at.lot) ?? new Map<string, Promise<Unpacked>>();
  underWay.set(at.lot, all);
  const known = all.get(item);
  if (known !== undefined) return known;
  const begun = takeApart(item, at).finally(() => all.delete(item));
  all.set(item, begun);
  return begun;
}

async function takeApart(item: string, at: At): Promise<Unpacked> {
  const { lot, hands } = at;
  const file = (await lot.listTable()).find(({ name }) => name === item);
  if (file === undefined) {
    throw new LotfileError('not found', `There is no "${item}" on the table.`, { about: item });
  }
  const output = lot.temporaryPath();
  mkdirSync(output);
  try {
    const workers = await hands.workers();
    const done = await workers.unpack(
      { job: 'unpack', input: file.path, name: item, output },
      { signal: hands.signal },
    );
    const { laid, notes } = await layInside(done.files, lot);
    const left = done.left.map(({ name, why }) => `"${name}" ${why}`);
    const record = done.mails.length === 0 ? undefined : await noteMail(done, file, at);
    const gone = record !== undefined && (await lot.takeOff(file.path));
    if (!gone) lot.putAside(item);
    const where = gone
      ? `The e-mail “${done.mails[0]?.subject ?? item}” is noted with its text among your records.`
      : `"${item}" itself is put aside.`;
    return { item, laid, record, notes: [where, ...left, ...notes] };
  } finally {
    rmSync(output, { recursive: true, force: true });
  }
}

/** Opens what holds files among those just laid down; one that can't be opened lies there as it came. */
export async function openHolders(
  laid: readonly LaidItem[],
  { lot, day, workers, signal }: AtLot,
): Promise<Pick<LaidDownAnswer, 'laid' | 'notes'>> {
  const all: LaidItem[] = [];
  const notes: string[] = [];
  for (const one of laid) {
    const file = one.already === undefined ? lot.tableFileAt(join(lot.folder, 'table', one.item)) : undefined;
    if (file === undefined || !mayUnpack(file.path, one.item)) {
      all.push(one);
      continue;
    }
    try {
      const inside = await unpackItem(one.item, { lot, day, hands: { workers, signal } });
      all.push(...inside.laid);
      notes.push(...inside.notes);
    } catch (error) {
      all.push(one);
      notes.push(LotfileError.from(error).message);
    }
  }
  return { laid: all, notes };
}

export const unpack = onLot(requests.unpack, async ({ item }, at): Promise<UnpackAnswer> => {
  const hands: Hands = { workers: at.workers, signal: at.signal, onProgress: at.progress };
  return { act: 'table', ...(await unpackItem(item, { lot: at.lot, day: at.day, hands })) };
});
