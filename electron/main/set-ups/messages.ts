import { statSync, writeFileSync } from 'node:fs';
import { basename } from 'node:path';
import * as z from 'zod';
import { LotfileError, type Reply, type TakenFile } from '../../../core/desk/door.ts';
import { plainName, tooLarge } from '../../host/handed-over.ts';
import { channels } from '../channels.ts';
import type { Desktop } from '../desktop-model.ts';
import type { WindowPart } from '../parts.ts';

const text = z.string().max(100);
const path = z.string().min(1).max(32_768);
const bytes = z.instanceof(Uint8Array);

function refused(error: LotfileError): Reply<never> {
  return { ok: false, error: error.toJSON() };
}

function stranger(): Reply<never> {
  return refused(new LotfileError('wrong use', 'This was not asked by the Lotfile window.'));
}

async function taking(take: () => TakenFile): Promise<Reply<TakenFile>> {
  try {
    return { ok: true, answer: take() };
  } catch (error) {
    return refused(LotfileError.from(error));
  }
}

function notTaken(name: string): LotfileError {
  return new LotfileError('file refused', `"${name}" can't be taken.`, {
    about: name,
    next: 'Drop the file itself; a folder or a file that is gone can’t be kept.',
  });
}

function takeFile({ host, handedOver }: Desktop, given: unknown): TakenFile {
  const file = path.parse(given);
  const name = plainName(basename(file));
  const stats = statSync(file, { throwIfNoEntry: false });
  if (stats?.isFile() !== true) throw notTaken(name);
  if (stats.size > handedOver.limit) throw tooLarge(name, handedOver.limit);
  return host.take(file, name, stats.size);
}

function takeBytes({ host, handedOver }: Desktop, given: readonly unknown[], window: string): TakenFile {
  const name = plainName(z.string().parse(given[0]));
  const content = bytes.parse(given[1]);
  if (content.length > handedOver.limit) throw tooLarge(name, handedOver.limit);
  const file = handedOver.newPath();
  writeFileSync(file, content, { flag: 'wx', mode: 0o600 });
  return host.takeOver({ path: file, name, bytes: content.length, window });
}

/** Every message is looked at twice: who sent it, and what it says. */
export function messages(desktop: Desktop): void {
  const { host, parts, windows } = desktop;
  const answer = (
    channel: string,
    run: (words: readonly unknown[], window: WindowPart) => Promise<Reply<unknown>>,
  ): void => {
    parts.ipcMain.handle(channel, async (event, ...words) => {
      const window = windows.senderOf(event);
      return window === undefined ? stranger() : run(words, window);
    });
  };
  answer(channels.ask, ([name, argument, asking], window) =>
    host.ask(text.catch('').parse(name), argument, asking, String(window.webContents.id)),
  );
  answer(channels.act, ([name, argument]) => host.act(text.catch('').parse(name), argument));
  answer(channels.takeFile, ([given]) => taking(() => takeFile(desktop, given)));
  answer(channels.takeBytes, (given, window) => taking(() => takeBytes(desktop, given, String(window.webContents.id))));
  parts.ipcMain.on(channels.stop, (event, id) => {
    if (windows.senderOf(event) !== undefined) host.stop(text.catch('').parse(id));
  });
  host.on((event) => windows.tell(event));
}
