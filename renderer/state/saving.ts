import { port } from '../client/port.ts';
import { tellDone, tellTrouble } from './telling.ts';

type Made = { readonly ticket: string; readonly name: string };

/** Hands out the file behind a ticket; where it lies then, in words, or undefined where it was not saved. */
export async function handOut({ ticket, name }: Made): Promise<string | undefined> {
  if (port.host === 'desktop') {
    const reply = await port.act('save', { ticket });
    if (!reply.ok) tellTrouble(reply.error);
    return reply.ok && reply.answer.saved ? reply.answer.place : undefined;
  }
  const link = document.createElement('a');
  link.href = port.address(ticket, 'save');
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  return 'your browser’s downloads';
}

/** Saves the file behind a ticket: the desktop asks where, a browser downloads it. */
export async function saveFile(made: Made): Promise<void> {
  const place = await handOut(made);
  if (port.host === 'desktop' && place !== undefined) tellDone(`Saved ${made.name} in ${place}.`);
}

/** Shows a file in its folder; only the desktop can. */
export async function showFile(ticket: string): Promise<void> {
  const reply = await port.act('show-file', { ticket });
  if (!reply.ok) tellTrouble(reply.error);
}
