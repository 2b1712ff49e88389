import type { MergeAnswer } from '../../../core/desk/contract/written-answers.ts';
import { port } from '../../client/port.ts';
import { useAsked } from '../../state/asked.ts';
import { perform } from '../../state/doing.ts';
import { handOut } from '../../state/saving.ts';
import { useLot } from '../../state/session.ts';
import { tellDone, tellTrouble } from '../../state/telling.ts';
import { sizeInWords } from '../papers/state-words.ts';

/** A bundle that was looked into and not yet taken over. */
export interface Looked {
  readonly ticket: string;
  readonly answer: MergeAnswer;
}

export type Sides = Readonly<Record<string, 'mine' | 'theirs'>>;

/** Looks into a bundle the person chose; nothing is changed yet. */
export async function lookInto(file: File): Promise<Looked | undefined> {
  const [offered] = await port.offer([file]);
  if (offered === undefined) return undefined;
  if (!offered.ok) {
    tellTrouble(offered.error);
    return undefined;
  }
  const { ticket } = offered.answer;
  const reply = await perform('merge', { bundle: ticket, look: true }, { long: 'Looking into the bundle' });
  return reply.ok ? { ticket, answer: reply.answer } : undefined;
}

export async function takeOver({ ticket }: Looked, choices: Sides): Promise<boolean> {
  const manner = { say: 'Taken over from the bundle.', long: 'Taking over from the bundle' };
  const reply = await perform('merge', { bundle: ticket, choices }, manner);
  return reply.ok && reply.answer.act !== undefined;
}

export async function backUp(): Promise<void> {
  const reply = await perform('bundle', {}, { long: 'Writing the bundle and reading it back' });
  if (!reply.ok) return;
  for (const note of reply.answer.notes) tellTrouble({ code: 'paper damaged', message: note });
  const { name, bytes, files, notes } = reply.answer;
  const place = await handOut(reply.answer);
  if (place === undefined) return;
  const checked =
    notes.length === 0
      ? `the lot and ${files} ${files === 1 ? 'file' : 'files'}, each read back and whole`
      : 'but not all of it is whole: see what is told above';
  // On the day by the clock, whatever day the lot is read as of: a backup is made when it is made.
  const noted = await port.ask(
    'backed-up',
    { name, bytes, whole: notes.length === 0 },
    { lot: useLot.getState().handle },
  );
  useAsked.getState().stale();
  if (!noted.ok) tellTrouble(noted.error);
  tellDone(
    `Backed up: ${name}, ${sizeInWords(bytes)}, ${checked}. It lies in ${place}; keep a copy off this computer.`,
  );
}

/** A new folder beside the lots; where it is, the host says in words. */
export async function writeHouseRecord(): Promise<void> {
  const { title } = useLot.getState();
  const made = await port.act('make-folder', { title: `${title} house record` });
  if (!made.ok) {
    tellTrouble(made.error);
    return;
  }
  const { folder, place } = made.answer;
  const reply = await perform('house-record', { folder }, { long: 'Writing the house record' });
  if (!reply.ok) return;
  const { papers, leftOut } = reply.answer;
  const without = leftOut.length === 0 ? '' : ` ${leftOut.length} left out: its index says which, and why.`;
  tellDone(`The house record with ${papers} papers is in ${place}; open index.html there.${without}`);
}
