import { useState } from 'react';
import type { MailDraftAnswer } from '../../../core/desk/contract/screen-answers.ts';
import type { ErrorShape } from '../../../core/vocabulary/errors.ts';
import { things } from '../../../core/vocabulary/verdict.ts';
import { Button } from '../../kit/Button.tsx';
import { Field } from '../../kit/Field.tsx';
import { Trouble } from '../../kit/Trouble.tsx';
import { perform } from '../../state/doing.ts';
import { saveFile } from '../../state/saving.ts';
import { bytesInWords } from './leaves.ts';

function Written({ draft }: { readonly draft: MailDraftAnswer }) {
  return (
    <div className="errand-told" role="status">
      <p>
        <span className="mono">{draft.name}</span>, {bytesInWords(draft.bytes)}, with{' '}
        {things(draft.attached.length, 'file')} attached. Open it in your mail program, read it, and send it yourself.
      </p>
      {draft.tooLargeFor === undefined ? null : <p className="errand-draft">{draft.tooLargeFor}</p>}
      {draft.notes.map((note) => (
        <p key={note} className="small">
          {note}
        </p>
      ))}
      <Button onPress={() => void saveFile(draft)}>Save it again</Button>
    </div>
  );
}

/** An e-mail draft with the packet attached, for the person's own mail program. */
export function MailDraft({ packet }: { readonly packet: string }) {
  const [to, setTo] = useState('');
  const [words, setWords] = useState('');
  const [draft, setDraft] = useState<MailDraftAnswer>();
  const [trouble, setTrouble] = useState<ErrorShape>();
  const write = async (): Promise<void> => {
    setTrouble(undefined);
    const address = to.trim() === '' ? {} : { to: to.trim() };
    const said = words.trim() === '' ? {} : { words: words.trim() };
    const manner = { long: 'Writing the e-mail draft', quiet: true };
    const reply = await perform('mail-draft', { packet, ...address, ...said }, manner);
    if (!reply.ok) {
      setTrouble(reply.error);
      return;
    }
    setDraft(reply.answer);
    await saveFile(reply.answer);
  };
  return (
    <div className="errand-form">
      <p>A draft with the packet’s files attached; your own mail program opens and sends it.</p>
      <Field label="Their address (if you know it)" value={to} onChange={setTo} />
      <Field label="A few words of your own (if you like)" value={words} onChange={setWords} lines />
      {trouble === undefined ? null : <Trouble error={trouble} />}
      {draft === undefined ? (
        <div className="errand-row">
          <Button onPress={() => void write()}>Write the draft</Button>
        </div>
      ) : (
        <Written draft={draft} />
      )}
    </div>
  );
}
