import { useState } from 'react';
import type { PagesAnswer } from '../../../core/desk/contract/screen-answers.ts';
import type { SlimAnswer } from '../../../core/desk/contract/table-answers.ts';
import { Button } from '../../kit/Button.tsx';
import { Choices } from '../../kit/Choices.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { perform } from '../../state/doing.ts';
import { saveFile } from '../../state/saving.ts';
import { sizeInWords } from './state-words.ts';

const limits = ['1 MB', '2 MB', '5 MB', '10 MB', '20 MB'] as const;

function Made({ files }: Pick<SlimAnswer, 'files'>) {
  return (
    <ul className="paper-list">
      {files.map(({ ticket, name, before, after, fits, notes }) => (
        <li key={ticket}>
          <p>
            {sizeInWords(before)} before, <strong>{sizeInWords(after)}</strong> after.
            {fits ? '' : ' That is as small as it gets without harm: hand it in as several files, or ask the office.'}
          </p>
          {notes.map((note) => (
            <p key={note} className="small pencil">
              {note}
            </p>
          ))}
          <Button onPress={() => void saveFile({ ticket, name })}>Save {name}</Button>
        </li>
      ))}
    </ul>
  );
}

/** A smaller copy for an office's or mailbox's limit; scanned pictures are pressed just as far as needed. */
export function SlimSlip({ paper, onClose }: { readonly paper: PagesAnswer; readonly onClose: () => void }) {
  const [most, setMost] = useState<string>('5 MB');
  const [made, setMade] = useState<SlimAnswer>();
  const [busy, work] = useState(false);
  const press = async (): Promise<void> => {
    work(true);
    const reply = await perform('slim', { edition: paper.edition, most }, { long: `Making ${paper.title} smaller` });
    work(false);
    if (reply.ok) setMade(reply.answer);
  };
  return (
    <Slip
      title="A smaller copy"
      open
      onClose={onClose}
      foot={
        <Button as="stamp" disabled={busy} onPress={() => void press()}>
          {busy ? 'Making it smaller ...' : `Make it at most ${most}`}
        </Button>
      }
    >
      <p>Scanned pictures are pressed just as far as needed; drawings and words stay sharp. The paper itself stays.</p>
      <Choices
        label="How large may it be?"
        options={limits.map((id) => ({ id, title: id }))}
        value={most}
        onChange={(id) => {
          setMost(id);
          setMade(undefined);
        }}
      />
      {made === undefined ? null : <Made files={made.files} />}
    </Slip>
  );
}
