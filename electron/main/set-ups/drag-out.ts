import { copyFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import * as z from 'zod';
import { channels } from '../channels.ts';
import type { Desktop } from '../desktop-model.ts';

const dragPicture = join(import.meta.dirname, '..', 'paper.png');

/** Copies made for the way, by the file and the name it bears: dragged again, the same goes out. */
type Copies = Map<string, string>;

/** A file goes out under the name the person knows; where it lies under another one, a copy is made for the way. */
function fileToDrag({ host, handedOver }: Desktop, ticket: string, copies: Copies): string {
  const { path, name } = host.desk.tickets.look(ticket);
  if (basename(path) === name) return path;
  const key = `${path}\0${name}`;
  const copy = copies.get(key) ?? join(handedOver.newFolder(), basename(name));
  copyFileSync(path, copy);
  copies.set(key, copy);
  return copy;
}

/** A finished packet is dragged into a folder, an e-mail, an upload page. */
export function dragOut(desktop: Desktop): void {
  const copies: Copies = new Map();
  desktop.parts.ipcMain.on(channels.dragOut, (event, ticket) => {
    const window = desktop.windows.senderOf(event);
    const asked = z.string().max(100).safeParse(ticket);
    if (window === undefined || !asked.success) return;
    try {
      event.sender.startDrag({ file: fileToDrag(desktop, asked.data, copies), icon: dragPicture });
    } catch {
      // The file went away under the pointer; nothing is dragged, and the list shows it at the next look.
    }
  });
}
