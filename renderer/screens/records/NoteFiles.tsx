import { useState } from 'react';
import { FileTrigger } from 'react-aria-components/FileTrigger';
import { port } from '../../client/port.ts';
import { Button } from '../../kit/Button.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { perform } from '../../state/doing.ts';
import { tellDone, tellTrouble } from '../../state/telling.ts';
import { asSaid, RecordFields, type Said, unsaid } from './RecordFields.tsx';
import { useRecords } from './records-state.ts';

const kinds = ['image/jpeg', 'image/png', 'image/heic', 'image/heif', 'image/webp', 'image/tiff', 'application/pdf'];

/** Opens the system's own dialog; what was chosen is noted once place and trade are said. */
export function NoteFiles({ sort, as }: { readonly sort: 'photo' | 'receipt'; readonly as?: 'stamp' | undefined }) {
  return (
    <FileTrigger
      allowsMultiple
      acceptedFileTypes={kinds}
      onSelect={(list) => {
        const files = [...(list ?? [])];
        if (files.length > 0) useRecords.setState({ files: { sort, files } });
      }}
    >
      <Button as={as}>{sort === 'photo' ? 'Note photos' : 'Note receipts'}</Button>
    </FileTrigger>
  );
}

function counted(count: number, sort: 'photo' | 'receipt'): string {
  return count === 1 ? `one ${sort}` : `${count} ${sort}s`;
}

async function offered(files: readonly File[]): Promise<readonly string[]> {
  const replies = await port.offer(files);
  return replies.flatMap((reply) => {
    if (reply.ok) return [reply.answer.ticket];
    tellTrouble(reply.error);
    return [];
  });
}

async function note(sort: 'photo' | 'receipt', files: readonly File[], said: Said): Promise<boolean> {
  const tickets = await offered(files);
  if (tickets.length === 0) return false;
  const { text: _text, ...common } = asSaid(said);
  const long = `Taking in ${counted(tickets.length, sort)}`;
  const reply = await perform('record-files', { files: [...tickets], sort, ...common }, { long });
  if (!reply.ok) return false;
  const { noted, refused, act } = reply.answer;
  for (const { error } of refused) tellTrouble(error);
  const fresh = noted.filter(({ already }) => !already);
  const before = noted.length - fresh.length;
  const again = before === 0 ? '' : ` ${counted(before, sort)} noted before.`;
  if (noted.length > 0)
    tellDone(`Noted ${counted(fresh.length, sort)}.${again}`, act === undefined ? {} : { undo: act });
  return noted.length > 0;
}

/** What the chosen files have in common: said once for all of them, or not at all. */
export function NoteSlip() {
  const chosen = useRecords((state) => state.files);
  const [said, setSaid] = useState(unsaid);
  const [busy, work] = useState(false);
  if (chosen === undefined) return null;
  const close = (): void => useRecords.setState({ files: undefined });
  const keep = async (): Promise<void> => {
    work(true);
    const done = await note(chosen.sort, chosen.files, said);
    work(false);
    if (!done) return;
    setSaid({ ...unsaid, place: said.place, trade: said.trade });
    close();
  };
  return (
    <Slip
      title={`Note ${counted(chosen.files.length, chosen.sort)}`}
      open
      onClose={close}
      foot={
        <Button as="stamp" disabled={busy} onPress={() => void keep()}>
          {busy ? 'Taking in ...' : `Note ${counted(chosen.files.length, chosen.sort)}`}
        </Button>
      }
    >
      <p className="small pencil">
        What they have in common, as far as you like to say it. It can be said later, for one or for many.
      </p>
      <RecordFields
        said={said}
        onSaid={setSaid}
        money={chosen.sort === 'receipt'}
        words={false}
        dayHint="Left empty, the camera’s own day is taken"
      />
    </Slip>
  );
}
