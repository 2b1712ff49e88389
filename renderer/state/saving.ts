import { port } from '../client/port.ts';
import { tellDone, tellTrouble } from './telling.ts';

/** Saves the file behind a ticket: the desktop asks where, a browser downloads it. */
export async function saveFile({ ticket, name }: { readonly ticket: string; readonly name: string }): Promise<void> {
  if (port.host === 'desktop') {
    const reply = await port.act('save', { ticket });
    if (!reply.ok) tellTrouble(reply.error);
    else if (reply.answer.saved) tellDone(`Saved ${name} in ${reply.answer.place}.`);
    return;
  }
  const link = document.createElement('a');
  link.href = port.address(ticket, 'save');
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
}

/** Shows a file in its folder; only the desktop can. */
export async function showFile(ticket: string): Promise<void> {
  const reply = await port.act('show-file', { ticket });
  if (!reply.ok) tellTrouble(reply.error);
}
