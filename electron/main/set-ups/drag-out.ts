import { copyFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import * as z from 'zod';
import { channels } from '../channels.ts';
import type { Desktop } from '../desktop-model.ts';

const dragPicture = join(import.meta.dirname, '..', 'paper.png');

/** A file goes out under the name the person knows; where it lies under another one, a copy is made for the way. */
function fileToDrag({ host, handedOver }: Desktop, ticket: string): string {
  const { path, name } = host.desk.tickets.look(ticket);
  if (basename(path) === name) return path;
  const copy = join(handedOver.newFolder(), basename(name));
  copyFileSync(path, copy);
  return copy;
}

/** A finished packet is dragged into a folder, an e-mail, an upload page. */
export function dragOut(desktop: Desktop): void {
  desktop.parts.ipcMain.on(channels.dragOut, (event, ticket) => {
    const window = desktop.windows.senderOf(event);
    const asked = z.string().max(100).safeParse(ticket);
    if (window === undefined || !asked.success) return;
    try {
      event.sender.startDrag({ file: fileToDrag(desktop, asked.data), icon: dragPicture });
    } catch {
      // The file went away under the pointer; nothing is dragged, and the list shows it at the next look.
    }
  });
}
