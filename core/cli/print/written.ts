import type { RequestAnswer } from '../../desk/door.ts';
import { counted, sizeInWords, wrapped } from './lines.ts';

/** A paper the program wrote: what it is called, and what to know before it goes out. */
export function writtenText({ title, name, pages, bytes, notes }: RequestAnswer<'write-paper'>): string {
  return [
    `${title}: ${name}, ${counted(pages, 'page')}, ${sizeInWords(bytes)}`,
    ...notes.flatMap((note) => wrapped(note, 2)),
    'It goes away when the lot is closed: with --out FOLDER you get a copy.',
  ].join('\n');
}
