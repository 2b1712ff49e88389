import { port } from '../../client/port.ts';
import { perform } from '../../state/doing.ts';
import { tellDone, tellTrouble } from '../../state/telling.ts';
import { choose, useTable } from './table-state.ts';

function taking(change: number): void {
  useTable.setState(({ taking: now }) => ({ taking: Math.max(0, now + change) }));
}

async function offered(files: readonly File[]): Promise<readonly string[]> {
  taking(files.length);
  try {
    const replies = await port.offer(files);
    return replies.flatMap((reply) => {
      if (reply.ok) return [reply.answer.ticket];
      tellTrouble(reply.error);
      return [];
    });
  } finally {
    taking(-files.length);
  }
}

/** Lays files the person dropped or chose on the table; what can't be taken is told, file by file. */
export async function layDown(files: readonly File[]): Promise<void> {
  const tickets = await offered(files);
  if (tickets.length === 0) return;
  const many = tickets.length === 1 ? 'a file' : `${tickets.length} files`;
  const reply = await perform('lay-down', { files: [...tickets] }, { long: `Laying ${many} on the table` });
  if (!reply.ok) return;
  const { laid, refused, notes } = reply.answer;
  for (const note of notes) tellDone(note);
  for (const { error } of refused) tellTrouble(error);
  const [first] = laid;
  if (first === undefined) return;
  choose(first.item);
}
