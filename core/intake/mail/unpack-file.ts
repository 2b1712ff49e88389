import { closeSync, openSync, readdirSync, readSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { LotfileError } from '../../vocabulary/errors.ts';
import { refused } from '../refusals.ts';
import { type FileSort, sniff, sniffLength } from '../sniff.ts';
import { deepest, Holding } from './holding.ts';
import { readMail } from './read-mail.ts';
import { isOutlook, readOutlook } from './read-outlook.ts';
import { readZip } from './read-zip.ts';
import type { UnpackDone, UnpackedFile, UnpackJob } from './unpack-model.ts';

type Holder = 'e-mail' | 'outlook' | 'zip';

/** What sort of holder a file is; undefined for anything else. */
function holderOf(path: string, sort: FileSort): Holder | undefined {
  if (sort === 'e-mail' || sort === 'zip') return sort;
  return sort === 'office' && isOutlook(path) ? 'outlook' : undefined;
}

function sniffed(path: string): FileSort {
  const head = Buffer.alloc(sniffLength);
  const fd = openSync(path, 'r');
  try {
    return sniff(head.subarray(0, readSync(fd, head)));
  } finally {
    closeSync(fd);
  }
}

interface At {
  readonly path: string;
  readonly name: string;
  readonly within: string | undefined;
  readonly depth: number;
}

async function readHolder(holder: Holder, { path, name, within }: At, holding: Holding): Promise<void> {
  switch (holder) {
    case 'e-mail':
      return await readMail(path, name, { holding, within });
    case 'outlook':
      return readOutlook(path, name, { holding, within });
    case 'zip':
      return await readZip(path, name, { holding, within });
  }
}

/** What is inside is opened in its turn; what can't be is offered as it is. */
async function openInside(file: UnpackedFile, depth: number, holding: Holding): Promise<void> {
  const holder = holderOf(file.path, file.sort);
  if (holder === undefined) return;
  if (depth >= deepest) {
    holding.replace(file);
    rmSync(file.path, { force: true });
    holding.leave(file.name, 'is packed more than three times over: unpack it yourself and drop in what you need.');
    return;
  }
  const within = [file.within, file.name].filter((part) => part !== undefined).join(' / ');
  try {
    await unpackAt(holder, { path: file.path, name: file.name, within, depth: depth + 1 }, holding);
    holding.replace(file);
    rmSync(file.path, { force: true });
  } catch (problem) {
    if (!(problem instanceof LotfileError)) throw problem;
    holding.replace(file);
    rmSync(file.path, { force: true });
    holding.leave(file.name, problem.message.replace(`"${file.name}" `, ''));
  }
}

async function unpackAt(holder: Holder, at: At, holding: Holding): Promise<void> {
  const before = holding.files.length;
  await readHolder(holder, at, holding);
  for (const file of holding.files.slice(before)) await openInside(file, at.depth, holding);
}

/**
 * Takes an e-mail, an Outlook message or a ZIP apart: each file inside is written to the job's folder under a number
 * and offered by the name it was told; e-mails become notes. What is inside those is opened likewise, three deep.
 * @throws LotfileError `file refused`; then the folder is empty.
 */
export async function unpackFile(job: UnpackJob): Promise<UnpackDone> {
  const { input, name, output } = job;
  try {
    const holder = holderOf(input, sniffed(input));
    if (holder === undefined) throw refused(name, 'holds no files to take out.', 'Keep it as it is.');
    const holding = new Holding(output);
    await unpackAt(holder, { path: input, name, within: undefined, depth: 0 }, holding);
    const { mails, files, left } = holding;
    return { sort: holder === 'zip' ? 'zip' : 'e-mail', mails, files, left };
  } catch (problem) {
    for (const file of readdirSync(output)) rmSync(join(output, file), { force: true });
    throw problem;
  }
}
