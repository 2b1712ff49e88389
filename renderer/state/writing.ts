import type { RequestArgument } from '../../core/desk/contract/requests.ts';
import { fetchAnswer } from './doing.ts';
import { saveFile } from './saving.ts';
import { tellDone } from './telling.ts';

/** Writes a paper by itself and saves it; what is to be known before it goes out is told. */
export async function savePaper(wanted: RequestArgument<'write-paper'>): Promise<void> {
  const made = await fetchAnswer('write-paper', wanted);
  if (made === undefined) return;
  await saveFile(made);
  if (made.notes.length > 0) tellDone(`${made.title}: ${made.notes.join(' ')}`);
}
